"""Why the month differs from another: by what was done, and by who came."""

from dataclasses import dataclass
from decimal import Decimal

import polars as pl

from analytics import wording
from analytics.definitions.results import COMPARISONS, EXPECTED
from analytics.definitions.rows import Row
from analytics.periods import Period, add_months, month_name
from analytics.settings import Settings

GROUPS = {
    "open_days": "Open days",
    "due": "Clients due",
    "came": "Of them came",
    "later": "Clients due before",
    "early": "Clients not due yet",
    "new": "New clients",
    "everybody": "Visits",
    "prices": "Prices and discounts",
    "mix": "What was done",
    "refunds": "Paid back",
    "retail": "Retail",
}
MOVERS = 3
NOTHING_BEFORE = "The records do not reach back to a month to hold this one against."
BRIDGE_SAYS = (
    "The steps add up to the difference. Open days count by what their weekdays usually bring; what follows is beyond "
    "that. A client is due her own usual gap after her last visit: fewer due is her rhythm, fewer of them coming is "
    "news; some who were due before come now. Prices and discounts: what a time brought. What was done: more of this "
    "and less of that in as many visits."
)


@dataclass(frozen=True)
class Step:
    """One step of the bridge from one month to another: its name, its amount, and what stands beside it."""

    name: str
    amount: Decimal
    more: str = ""


def other_month(month: str, compared_with: str, settings: Settings, part: bool = False) -> str:
    """What the month is held against, as people say it: 'September', 'October 2025', 'the same days of September'."""
    if compared_with == EXPECTED:
        return "what was to be expected"
    start = Period.month(month).start
    then = month_name(add_months(start, -COMPARISONS[compared_with]))
    title = wording.month_title(then, settings, year=then[:4] != month[:4])
    return f"the same days of {title}" if part else title


def comparisons(frame: pl.DataFrame, month: str) -> list[str]:
    """What the month can be held against: what was to be expected, the month before, the year before."""
    there = set(frame.filter(month=month)["compared_with"])
    return [name for name in (EXPECTED, *COMPARISONS) if name in there]


def _rows(frame: pl.DataFrame, month: str, compared_with: str) -> pl.DataFrame:
    return frame.filter(month=month, compared_with=compared_with)


def bridge(clientele: pl.DataFrame, month: str, compared_with: str, settings: Settings) -> list[Step]:
    """From one net revenue to the other: open days and who came, prices, what was done, what was paid back, retail."""
    rows = _rows(clientele, month, compared_with).to_dicts()
    return [Step(GROUPS[row["group"]], row["effect"], _counts(row, settings)) for row in rows]


def _counts(row: Row, settings: Settings) -> str:
    """'249 now, 260 expected or then' beside a step."""
    if row["number"] is None:
        return ""
    digits = 1 if row["group"] == "open_days" else 0
    now, then = (wording.number(row[name], settings, digits) for name in ("number", "number_before"))
    return f"{now}, {'expected' if row['compared_with'] == EXPECTED else 'then'} {then}"


CAUSES = {
    "open_days": ("More open days", "Fewer open days"),
    "due": ("More clients were due", "Fewer clients were due"),
    "came": ("A larger part of the clients due came", "A smaller part of the clients due came"),
    "later": ("More came who had been due before", "Fewer came who had been due before"),
    "early": ("More came who were not due yet", "Fewer came who were not due yet"),
    "new": ("More new clients", "Fewer new clients"),
    "everybody": ("More visits", "Fewer visits"),
    "prices": ("A time brought more, discounts taken off", "A time brought less, discounts taken off"),
    "mix": ("Dearer services among those done", "Cheaper services among those done"),
    "refunds": ("Less was paid back", "More was paid back"),
    "retail": ("Retail brought more", "Retail brought less"),
}
NEXT = {
    "roots": ("Whom to call, and what they had last.", ("due", "came", "later", "early", "new", "everybody")),
    "prices": ("What each service leaves of an hour, and at which price.", ("prices", "mix")),
    "stock": ("What sells over the counter, and what stands.", ("retail",)),
}
FULL = ("chairs", "Which hours stand empty, and what an hour brings.")


def causes_head(clientele: pl.DataFrame, settings: Settings, month: str, part: bool = False) -> str:
    """By how much what came in differs, and from what; empty where there is nothing before."""
    there = comparisons(clientele, month)
    if not there:
        return ""
    total, other = _rows(clientele, month, there[0])["net_change"][0], other_month(month, there[0], settings, part)
    size = wording.money(abs(total), settings, whole=True)
    then = "was to be expected" if there[0] == EXPECTED else f"in {other}"
    return f"{size} {'more' if total >= 0 else 'less'} came in than {then}: what did most"


def causes(clientele: pl.DataFrame, settings: Settings, month: str) -> list[Step]:
    """The three largest steps from what was to be expected (or else the month before), said as causes."""
    there = comparisons(clientele, month)
    return [
        Step(CAUSES[row["group"]][0 if row["effect"] > 0 else 1], row["effect"], _counts(row, settings))
        for row in (_largest(clientele, month, there[0]) if there else [])
    ]


def _largest(clientele: pl.DataFrame, month: str, compared_with: str) -> list[Row]:
    rows = _rows(clientele, month, compared_with).filter(pl.col("effect") != 0)
    return rows.sort(pl.col("effect").abs(), "group", descending=[True, False]).head(MOVERS).to_dicts()


def next_page(clientele: pl.DataFrame, month: str) -> tuple[str, str]:
    """The page for what took most, and what it says; where nothing took any, the one of empty hours."""
    there = comparisons(clientele, month)
    less = [row for row in (_largest(clientele, month, there[0]) if there else []) if row["effect"] < 0]
    found = [(page, says) for page, (says, groups) in NEXT.items() if less and less[0]["group"] in groups]
    return found[0] if found else FULL


def change_sentence(
    clientele: pl.DataFrame, settings: Settings, month: str, compared_with: str = "previous", part: bool = False
) -> str:
    """By how much net revenue differs, and the three steps that did most."""
    if compared_with not in comparisons(clientele, month):
        return NOTHING_BEFORE
    steps = bridge(clientele, month, compared_with, settings)
    total = _rows(clientele, month, compared_with)["net_change"][0]
    other = other_month(month, compared_with, settings, part)
    most = sorted((step for step in steps if step.amount), key=lambda step: -abs(step.amount))[:MOVERS]
    parts = [f"{_lower(step.name)} {wording.signed(step.amount, settings)}" for step in most]
    size = wording.money(abs(total), settings, whole=True)
    said = f"{size} {'more' if total > 0 else 'less'}" if total else "the same"
    return f"Against {other}, net revenue is {said}" + (
        f"; the largest steps: {wording.listed(parts)}." if parts else "."
    )


def _lower(text: str) -> str:
    return text[0].lower() + text[1:]


def movers(
    changes: pl.DataFrame, settings: Settings, month: str, compared_with: str = "previous", part: bool = False
) -> list[str]:
    """The three services (or retail) whose net changed most, each in a sentence."""
    rows = _rows(changes, month, compared_with).filter(pl.col("change") != 0)
    most = rows.sort(pl.col("change").abs(), "service_id", descending=[True, False], nulls_last=True).head(MOVERS)
    expected = compared_with == EXPECTED
    then = "was to be expected" if expected else f"in {other_month(month, compared_with, settings, part)}"
    return [_moved(row, then, settings) for row in most.to_dicts()]


def _moved(row: Row, then: str, settings: Settings) -> str:
    """then: 'in September', or 'was to be expected'."""
    name = wording.plain_cell(row["service"])
    done = "sold" if row["kind"] == "retail" else "done"
    if not row["quantity_before"] and not row["net_before"]:
        net, times = wording.money(row["net"], settings, whole=True), _times(row["quantity"], row["kind"], settings)
        none = f"it was not {done} {then}" if then.startswith("in ") else f"none {then}"
        return f"{name} brought {net}, {done} {times}; {none}."
    if not row["quantity"] and not row["net"]:
        net = wording.money(row["net_before"], settings, whole=True)
        times = _times(row["quantity_before"], row["kind"], settings)
        return f"{name} was not {done}; {net} {then}, {done} {times}."
    gap = wording.money(abs(row["change"]), settings, whole=True)
    more = f"{gap} {'more' if row['change'] > 0 else 'less'} than {then}"
    return f"{name} brought {more}: {done} {_times(row['quantity'], row['kind'], settings)}{_each(row, settings)}."


def _each(row: Row, settings: Settings) -> str:
    """' against 46, at €54.20 each against €53.10'."""
    then = wording.number(row["quantity_before"], settings)
    if row["net_each"] is None or row["net_each_before"] is None:
        return f" against {then}"
    prices = [wording.money(row[name], settings) for name in ("net_each", "net_each_before")]
    same = f"at {prices[0]} each then and now"
    return f" against {then}, " + (same if prices[0] == prices[1] else f"at {prices[0]} each against {prices[1]}")


def _times(quantity: Decimal, kind: str, settings: Settings) -> str:
    one, many = ("piece", "pieces") if kind == "retail" else ("time", "times")
    return f"{wording.number(quantity, settings)} {one if quantity == 1 else many}"
