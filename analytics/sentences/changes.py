"""Why the month differs from another: by what was done, and by who came."""

from dataclasses import dataclass
from decimal import Decimal

import polars as pl

from analytics import wording
from analytics.definitions.results import COMPARISONS
from analytics.definitions.rows import Row
from analytics.periods import Period, add_months, month_name
from analytics.settings import Settings

EFFECTS = {
    "price_effect": "Prices and discounts",
    "volume_effect": "How much was done",
    "mix_effect": "What was done",
}
GROUPS = {
    "new": "New clients",
    "returning": "Clients who came before",
    "lost": "Clients who stayed away",
    "nobody": "Retail to no known client",
}
MOVERS = 3
NOTHING_BEFORE = "The book does not reach back to a month to hold this one against."
BRIDGE_SAYS = (
    "Both sides add up to the same difference, each drawn to a scale of its own. Prices and discounts: what a time "
    "brought. How much was done: had all services grown or shrunk alike. What was done: more of this and less of that. "
    "Clients who stayed away came in the month held against and not in this one, which for somebody who comes every "
    "six weeks is no goodbye."
)


@dataclass(frozen=True)
class Step:
    """One step of the bridge from one month to another: its name, its amount, and what stands beside it."""

    name: str
    amount: Decimal
    more: str = ""


def other_month(month: str, compared_with: str, settings: Settings, part: bool = False) -> str:
    """The month held against, as people say it: 'September', 'October 2025', 'the same days of September'."""
    start = Period.month(month).start
    then = month_name(add_months(start, -COMPARISONS[compared_with]))
    title = wording.month_title(then, settings, year=then[:4] != month[:4])
    return f"the same days of {title}" if part else title


def comparisons(changes: pl.DataFrame, month: str) -> list[str]:
    """What the month can be held against: the month before, the year before."""
    there = set(changes.filter(month=month)["compared_with"])
    return [name for name in COMPARISONS if name in there]


def _rows(frame: pl.DataFrame, month: str, compared_with: str) -> pl.DataFrame:
    return frame.filter(month=month, compared_with=compared_with)


def bridge(changes: pl.DataFrame, month: str, compared_with: str) -> list[Step]:
    """From one month's net revenue to the other's: prices, how much and what was done, and retail."""
    rows = _rows(changes, month, compared_with)
    services, retail = rows.filter(pl.col("kind") != "retail"), rows.filter(kind="retail")
    steps = [Step(said, Decimal(services[name].sum())) for name, said in EFFECTS.items()]
    if retail.height:
        steps.append(Step("Retail", Decimal(retail["change"].sum())))
    return steps


def clients_bridge(clientele: pl.DataFrame, month: str, compared_with: str, settings: Settings) -> list[Step]:
    """The same difference by who came: new clients, those who came before, those who stayed away."""
    rows = {row["group"]: row for row in _rows(clientele, month, compared_with).to_dicts()}
    return [
        Step(said, rows[group]["change"], _counts(rows[group], settings))
        for group, said in GROUPS.items()
        if group in rows
    ]


def _counts(row: Row, settings: Settings) -> str:
    now, before = (wording.number(row[name], settings) for name in ("clients", "clients_before"))
    if row["group"] == "nobody":
        return ""
    if row["group"] == "returning":
        return f"{now} came, {before} of them then too"
    return f"{now} came" if row["group"] == "new" else f"{before} came then"


def change_sentence(
    changes: pl.DataFrame, settings: Settings, month: str, compared_with: str = "previous", part: bool = False
) -> str:
    """By how much net revenue differs from the other month, and through what."""
    if compared_with not in comparisons(changes, month):
        return NOTHING_BEFORE
    steps = bridge(changes, month, compared_with)
    total = sum((step.amount for step in steps), Decimal(0))
    other = other_month(month, compared_with, settings, part)
    parts = [f"{_lower(step.name)} {wording.signed(step.amount, settings)}" for step in steps]
    size = wording.money(abs(total), settings, whole=True)
    said = f"{size} {'more' if total > 0 else 'less'}" if total else "the same"
    return f"Against {other}, net revenue is {said}: {wording.listed(parts)}."


def _lower(text: str) -> str:
    return text[0].lower() + text[1:]


def movers(
    changes: pl.DataFrame, settings: Settings, month: str, compared_with: str = "previous", part: bool = False
) -> list[str]:
    """The three services (or retail) whose net changed most, each in a sentence."""
    rows = _rows(changes, month, compared_with).filter(pl.col("change") != 0)
    most = rows.sort(pl.col("change").abs(), "service_id", descending=[True, False], nulls_last=True).head(MOVERS)
    other = other_month(month, compared_with, settings, part)
    return [_moved(row, other, settings) for row in most.to_dicts()]


def _moved(row: Row, other: str, settings: Settings) -> str:
    name = wording.plain_cell(row["service"])
    done = "sold" if row["kind"] == "retail" else "done"
    if not row["quantity_before"] and not row["net_before"]:
        net, times = wording.money(row["net"], settings, whole=True), _times(row["quantity"], row["kind"], settings)
        return f"{name} brought {net}, {done} {times}; it was not {done} in {other}."
    if not row["quantity"] and not row["net"]:
        net = wording.money(row["net_before"], settings, whole=True)
        times = _times(row["quantity_before"], row["kind"], settings)
        return f"{name} was not {done}; in {other} it brought {net}, {done} {times}."
    gap = wording.money(abs(row["change"]), settings, whole=True)
    more = f"{gap} {'more' if row['change'] > 0 else 'less'} than in {other}"
    return f"{name} brought {more}: {done} {_times(row['quantity'], row['kind'], settings)}{_each(row, settings)}."


def _each(row: Row, settings: Settings) -> str:
    """' against 46, at €54.20 each against €53.10'."""
    then = wording.number(row["quantity_before"], settings)
    if not row["quantity"] > 0 or not row["quantity_before"] > 0:
        return f" against {then}"
    now, before = (row[f"net{side}"] / row[f"quantity{side}"] for side in ("", "_before"))
    prices = [wording.money(price, settings) for price in (now, before)]
    same = f"at {prices[0]} each then and now"
    return f" against {then}, " + (same if prices[0] == prices[1] else f"at {prices[0]} each against {prices[1]}")


def _times(quantity: Decimal, kind: str, settings: Settings) -> str:
    one, many = ("piece", "pieces") if kind == "retail" else ("time", "times")
    return f"{wording.number(quantity, settings)} {one if quantity == 1 else many}"
