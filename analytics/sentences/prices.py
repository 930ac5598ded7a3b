"""What services bring an hour against what an hour costs, and what another price would do."""

from dataclasses import dataclass

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

NO_COSTS = "salon.toml names no costs per month, so no service is compared with them"
COVERS = ("covers its own open time", "does not cover its own open time", "do not cover their own open time")
REACHES = ("reaches what you aim for", "does not reach what you aim for", "do not reach what you aim for")
TRIAL_ASSUMES = (
    "This is arithmetic, not a forecast. It assumes as many of these services a month as in the last twelve, less "
    "those who stay away; that discounts and tax keep their share of the price; that each time takes the same product "
    "as now; that whoever stays away leaves the chair empty and takes nothing else along; and that nobody new comes. "
    "Where bowls were not logged, product is too low and the share that can be lost a little too small."
)


@dataclass(frozen=True)
class TriedPrice:
    """What is tried out: the price on the menu, the minutes in the chair, the share of clients who stay away (0–1)."""

    price: float
    minutes: float
    away: float


def prices_sentence(prices: pl.DataFrame, settings: Settings, month: str) -> str:
    """How many services cover their own open time (and reach the target), and which brings least."""
    timed = prices.drop_nulls("after_product_per_chair_hour").sort("after_product_per_chair_hour", "service_id")
    title = wording.month_title(month, settings)
    if timed.is_empty():
        return f"No service took a chair in the twelve months up to {title}, so there is nothing to price."
    least = timed.row(0, named=True)
    start = f"In the twelve months up to {title}, {_under(timed, settings)}"
    hour = wording.money(least["after_product_per_chair_hour"], settings)
    return f"{start}. {wording.plain_cell(least['service'])} brings least for its time: {hour} an hour, product paid."


def lines_say(row: Row, settings: Settings) -> str:
    """What the lines across the bars are."""
    cost, target = row["cost_per_open_hour"], row["target_per_chair_hour"]
    said = [] if cost is None else [f"The line is the {wording.money(cost, settings)} an open chair hour costs"]
    if target is not None:
        said.append(f"{'the dashed' if said else 'The'} line the {wording.money(target, settings)} you aim for")
    return ", ".join(said) + "." if said else ""


def _under(timed: pl.DataFrame, settings: Settings) -> str:
    row = timed.row(0, named=True)
    compared = (
        ("cost_per_open_hour", "clears_cost", COVERS, "an open chair hour"),
        ("target_per_chair_hour", "reaches_target", REACHES, "a chair hour"),
    )
    parts = [
        _count(timed.filter(~pl.col(passes)).height, timed.height, words, settings)
        + f" ({wording.money(row[rate], settings)} {hour})"
        for rate, passes, words, hour in compared
        if row[rate] is not None
    ]
    return " and ".join(parts) if parts else NO_COSTS


def _count(under: int, of: int, words: tuple[str, str, str], settings: Settings) -> str:
    """words: what one does, what one does not, what several do not."""
    does, does_not, do_not = words
    if not under:
        return f"every service {does}" if of > 1 else f"the one service {does}"
    return f"{wording.number(under, settings)} of {_services(of, settings)} {does_not if under == 1 else do_not}"


def _services(count: int, settings: Settings) -> str:
    return wording.counted(count, "service", "services", settings)


def trial_sentence(row: Row, tried: TriedPrice, trial: Row, settings: Settings) -> str:
    """What a month of the service brings as tried out, against now, and how many clients that may cost.

    row: of the figure `prices`, with what is now. trial: of records.chairs.price_trial.
    """
    name, gap = wording.plain_cell(row["service"]), trial["after_product_change"]
    after, before = (
        wording.money(trial[f"after_product_{when}"], settings, whole=True) for when in ("after", "before")
    )
    if tried == TriedPrice(float(row["price"]), row["minutes_per_line"], 0):
        return f"A month of {name} leaves {before} net after product as it is; move a slider to try something else."
    size = wording.money(abs(gap), settings, whole=True)
    change = f"{size} {'more' if gap > 0 else 'less'}" if abs(gap) >= 0.5 else "the same"
    return (
        f"{_asked(row, tried, settings)}, a month of {name} leaves {after} net after product in place of {before}: "
        f"{change}. {_break_even(trial['break_even_share'], settings)}"
    )


def _asked(row: Row, tried: TriedPrice, settings: Settings) -> str:
    """'At €72.00 in place of €66.50, in 80 minutes, with 5.0% of its clients gone'."""
    price, was = wording.money(tried.price, settings), wording.money(row["price"], settings)
    minutes, took = (wording.number(value, settings) for value in (tried.minutes, row["minutes_per_line"]))
    asked = [
        f"At {price}" + (f" in place of {was}" if price != was else " as now"),
        f"in {minutes} minutes" + (f" in place of {took}" if minutes != took else ""),
        f"with {wording.share(tried.away, settings)} of its clients gone" if tried.away else "with every client coming",
    ]
    return ", ".join(asked)


def _break_even(share: float | None, settings: Settings) -> str:
    if share is None:
        return "At that price a time leaves nothing after its product."
    if abs(share) < 0.0005:
        return "The price is as now, so not one client may be lost for it to bring as much."
    if share > 0:
        return f"It brings as much as now until {wording.share(share, settings)} of these clients stay away."
    return f"It brings as much as now only with {wording.share(-share, settings)} more of these clients."


NUMBERS = (  # of a month of the service, and of all services with it
    ("Net", "net", wording.money),
    ("Net after product", "after_product", wording.money),
    ("Chair hours", "chair_hours", wording.hours),
    ("Net per chair hour", "net_per_chair_hour", wording.money),
    ("All services, net", "all_services_net", wording.money),
)


def trial_numbers(trial: Row, settings: Settings) -> list[tuple[str, str, str]]:
    """Name, now and as tried out: of a month of the service, and of all services with it."""
    return [
        (name, say(trial[f"{number}_before"], settings), say(trial[f"{number}_after"], settings))
        for name, number, say in NUMBERS
    ]
