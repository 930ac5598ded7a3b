"""What services contribute to an hour against what an hour must carry, and what another price would do."""

from dataclasses import dataclass

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

NO_COSTS = "salon.toml names no costs per month, so no service is compared with them"
CARRIES = ("carries its taken hours", "does not carry its taken hours", "do not carry their taken hours")
REACHES = ("reaches what you aim for", "does not reach what you aim for", "do not reach what you aim for")
TRIAL_ASSUMES = (
    "This is arithmetic, not a forecast. It assumes as many of these services a month as in the last twelve, less "
    "those who stay away; that discounts and tax keep their share of the price; that each time takes the same product "
    "as now; that whoever stays away leaves the chair empty and takes nothing else along; and that nobody new comes. "
    "Product of lines without a bowl in the log is taken to be as that of the others."
)


@dataclass(frozen=True)
class TriedPrice:
    """What is tried out: the price on the menu, the minutes in the chair, the share of clients who stay away (0–1)."""

    price: float
    minutes: float
    away: float


def prices_sentence(prices: pl.DataFrame, settings: Settings, month: str) -> str:
    """How many services carry their taken hours (and reach the target), and which contributes least."""
    timed = prices.drop_nulls("rank").sort("rank", "service_id", descending=[True, False])
    title = wording.month_title(month, settings)
    if timed.is_empty():
        return f"No service took a chair in the twelve months up to {title}, so there is nothing to price."
    least = timed.row(0, named=True)
    start = f"In the twelve months up to {title}, {_under(timed, settings)}"
    hour = wording.money(least["contribution_per_chair_hour"], settings)
    return f"{start}. {wording.plain_cell(least['service'])} leaves least for its time: {hour} an hour, product paid."


def lines_say(row: Row, settings: Settings) -> str:
    """What the lines across the bars are."""
    taken, target, opened = (row[f"{of}_hour"] for of in ("cost_per_taken", "target_per_chair", "cost_per_open"))
    said = [] if taken is None else [f"The line is the {wording.money(taken, settings)} that a taken hour must carry"]
    aim = None if target is None else wording.money(target, settings)
    if aim is not None and not (said and aim == wording.money(taken, settings)):
        said.append(f"{'the dashed' if said else 'The'} line the {aim} you aim for")
    if not said:
        return ""
    empty = (
        f" Counted over every open hour, an hour costs {wording.money(opened, settings)}; nobody pays for the empty "
        "ones at that, so no price is worked out from it."
        if taken is not None and opened is not None
        else ""
    )
    return ", ".join(said) + "." + empty


def product_says(prices: pl.DataFrame, settings: Settings) -> str:
    """That product of unlogged colour work is taken to be as that of logged; empty where all of it was logged."""
    short = prices.filter(pl.col("logged_share") < 1).sort("lines", "service_id", descending=[True, False])
    if short.is_empty():
        return ""
    row = short.row(0, named=True)
    logged, in_all = (wording.money(row[f"product_cost_per_line{of}"], settings) for of in ("", "_in_all"))
    share = wording.share(row["logged_share"], settings)
    return (
        "Where bowls were not logged, product is taken to be as where they were: for "
        f"{wording.plain_cell(row['service'])}, of which {share} was logged, {logged} a time as logged and {in_all} in "
        "all."
    )


def proposal_sentence(row: Row, trial: Row, price: float, settings: Settings) -> str:
    """A service at the price that reaches the target: what a month of it brings more, and how many may stay away.

    row: of the figure `prices`. trial: of records.chairs.price_trial, at that price with nobody staying away.
    """
    name, now = wording.plain_cell(row["service"]), wording.money(row["price"], settings)
    more = wording.money(trial["after_product_change"], settings, whole=True)
    share = trial["break_even_share"]
    risk = "" if share is None else f", and no less than now until {wording.share(share, settings)} of them stay away"
    return f"{name} at {wording.money(price, settings)} in place of {now}: {more} more a month if all still come{risk}."


def aim_sentence(under: int, target: float, settings: Settings) -> str:
    """How many services contribute less than what is aimed for, before the proposals for the largest."""
    hour = wording.money(target, settings)
    if not under:
        return f"Every service leaves {hour} or more of a chair hour, product paid: no price has to change for that."
    leave = "service leaves" if under == 1 else "services leave"
    return (
        f"{wording.number(under, settings)} {leave} less than {hour} of a chair hour; the ones that bring most first:"
    )


def _under(timed: pl.DataFrame, settings: Settings) -> str:
    row = timed.row(0, named=True)
    compared = (
        ("cost_per_taken_hour", "carries_taken_hour", CARRIES, "each, product paid"),
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
