"""What services bring an hour against what an hour costs, and what another price would do."""

from dataclasses import dataclass

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.methods.break_even import Trial
from analytics.settings import Settings

NO_COSTS = "salon.toml names no costs per month, so no service is held against them"
TRIAL_ASSUMES = (
    "This is arithmetic, not a forecast. It assumes as many of these services a month as in the last twelve, less "
    "those who stay away; that discounts and tax keep their share of the price; that each time takes the same product "
    "as now; that whoever stays away leaves the chair empty and takes nothing else along; and that nobody new comes. "
    "Where bowls were not logged, product is too low and the share she can lose a little too small."
)


@dataclass(frozen=True)
class TriedPrice:
    """What is tried out: the price on the menu, the minutes in the chair, the share of clients who stay away (0–1)."""

    price: float
    minutes: float
    away: float


def prices_sentence(prices: pl.DataFrame, settings: Settings, month: str) -> str:
    """How many services clear the cost of an open chair hour (and the target), and which brings least."""
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
    hour, cost, target = (
        timed[name] for name in ("after_product_per_chair_hour", "cost_per_open_hour", "target_per_chair_hour")
    )
    if cost[0] is None and target[0] is None:
        return NO_COSTS
    parts = []
    if cost[0] is not None:
        line = f"the {wording.money(cost[0], settings)} an open chair hour costs"
        parts.append(_clear(int((hour < cost).sum()), timed.height, line, settings))
    if target[0] is not None:
        aim = f"the {wording.money(target[0], settings)} you aim for"
        parts.append(_clear(int((hour < target).sum()), timed.height, aim, settings))
    return " and ".join(parts)


def _clear(under: int, of: int, line: str, settings: Settings) -> str:
    if not under:
        return f"every service clears {line}" if of > 1 else f"the one service clears {line}"
    stay = "stays" if under == 1 else "stay"
    return f"{wording.number(under, settings)} of {_services(of, settings)} {stay} under {line}"


def _services(count: int, settings: Settings) -> str:
    return wording.counted(count, "service", "services", settings)


def trial_sentence(row: Row, tried: TriedPrice, trial: Trial, settings: Settings) -> str:
    """What a month of the service brings as tried out, against now, and how many clients that may cost.

    row: of the figure `prices`, with what is now.
    """
    name, gap = wording.plain_cell(row["service"]), trial.after_product_after - trial.after_product_before
    after, before = (
        wording.money(net, settings, whole=True) for net in (trial.after_product_after, trial.after_product_before)
    )
    if tried == TriedPrice(float(row["price"]), row["minutes_per_line"], 0):
        return f"A month of {name} leaves {before} net after product as it is; move a slider to try something else."
    size = wording.money(abs(gap), settings, whole=True)
    change = f"{size} {'more' if gap > 0 else 'less'}" if abs(gap) >= 0.5 else "the same"
    return (
        f"{_asked(row, tried, settings)}, a month of {name} leaves {after} net after product in place of {before}: "
        f"{change}. {_break_even(trial, settings)}"
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


def _break_even(trial: Trial, settings: Settings) -> str:
    share = trial.break_even_share
    if share is None:
        return "At that price a time leaves nothing after its product."
    if abs(share) < 0.0005:
        return "The price is as now, so not one client may be lost for it to bring as much."
    if share > 0:
        return f"It brings as much as now until {wording.share(share, settings)} of these clients stay away."
    return f"It brings as much as now only with {wording.share(-share, settings)} more of these clients."


def trial_numbers(trial: Trial, all_net: float, settings: Settings) -> list[tuple[str, str, str]]:
    """Name, now and as tried out: of a month of the service, and of all services with it (all_net: theirs now)."""
    with_it = all_net + trial.net_after - trial.net_before
    pairs = (
        ("Net", trial.net_before, trial.net_after, wording.money),
        ("Net after product", trial.after_product_before, trial.after_product_after, wording.money),
        ("Chair hours", trial.chair_hours_before, trial.chair_hours_after, wording.hours),
        ("Net per chair hour", trial.net_per_chair_hour_before, trial.net_per_chair_hour_after, wording.money),
        ("All services, net", all_net, with_it, wording.money),
    )
    return [(name, say(before, settings), say(after, settings)) for name, before, after, say in pairs]
