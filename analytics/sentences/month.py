"""What the month brought, and which of its figures lie outside what is usual."""

from decimal import Decimal

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.periods import Period, add_months, month_name
from analytics.sentences.judged import ORDINARY, against, is_news, lasting, row_of, standing, usual, young
from analytics.settings import Settings


def month_sentence(month_frame: pl.DataFrame, settings: Settings, month: str) -> str:
    """Net revenue of the month, and whether it is news."""
    title = wording.month_title(month, settings)
    row, visits = row_of(month_frame, month, "net_revenue"), row_of(month_frame, month, "visits")
    if row is None or visits is None:
        return f"The records hold nothing for {title}; choose another month, or load its exports."
    if not row["value"] and not visits["value"]:
        return f"Nothing was charged in {title}: the records hold no visit that happened."
    net = wording.quantity(row["value"], row["unit"], settings)
    left = row_of(month_frame, month, "left_after_costs")
    spent = _spent(month_frame, settings, month)
    if row["part_month"]:
        came = wording.quantity(visits["value"], "visits", settings)
        if left and spent:
            return (
                f"So far {title} has brought {net} net from {came}. {spent} on these days: {_left(left, settings)}. "
                "The month is not over, so it is not judged yet."
            )
        return f"So far {title} has brought {net} net from {came}; the month is not over, so it is not judged yet."
    if left and spent:
        return f"{title} brought {net} net. {spent}: {_left(left, settings)}{_left_against(left, settings)}."
    return (
        f"{title} brought {net} net{against(row, settings)}.{_expected(row, settings)}{_changed(row, month, settings)}"
    )


def _spent(month_frame: pl.DataFrame, settings: Settings, month: str) -> str:
    """'Being open cost €17,500 and product €862'; empty where salon.toml names no costs."""
    costs, product = (row_of(month_frame, month, name) for name in ("open_cost", "product_cost"))
    if costs is None or costs["value"] is None:
        return ""
    said = f"Being open cost {wording.money(costs['value'], settings, whole=True)}"
    mixed = product["value"] if product else None
    return f"{said} and product {wording.money(mixed, settings, whole=True)}" if mixed else said


def _left(row: Row, settings: Settings) -> str:
    """'€8,593 is left', or that so much is missing."""
    size = wording.money(abs(row["value"]), settings, whole=True)
    return f"{size} is left" if row["value"] >= 0 else f"{size} more than came in"


def _left_against(row: Row, settings: Settings) -> str:
    """', €128 more than was to be expected, as usual', or whether that is unusual, or that nothing can be said yet."""
    if row["from_expected"] is None or not row["judged"]:
        return "; there are too few months before it to say what was to be expected"
    apart = _difference(row["from_expected"], row["unit"], settings)
    if row["value"] < 0:  # what is missing is no more for being more than was to be expected
        apart = apart.replace(" more than", " better than").replace(" less than", " worse than")
    wide = young(row, settings)
    if standing(row) == ORDINARY:
        usual_too = f"which is not unusual{wide}"
    else:
        usual_too = f"which is unusual: it is {usual(row, settings)}{wide}"
    more = lasting(row, settings)
    long = f". It has been {wording.listed(more)}" if more else ""
    return f", {apart} was to be expected, {usual_too}{long}"


def days_sentence(month_frame: pl.DataFrame, settings: Settings, month: str, days: str) -> str:
    """What some days of the month brought."""
    row, visits = row_of(month_frame, month, "net_revenue"), row_of(month_frame, month, "visits")
    if row is None or visits is None:
        return f"The records hold nothing for {days}; choose other days, or load their exports."
    net = wording.quantity(row["value"], row["unit"], settings)
    came = wording.quantity(visits["value"], "visits", settings)
    return f"{days} brought {net} net from {came}; a part of a month is not judged."


def _expected(row: Row, settings: Settings) -> str:
    """' About €25,400 was to be expected.', with what has lasted for months."""
    said = ""
    if row["expected"] is not None:
        said = f" About {wording.quantity(row['expected'], row['unit'], settings, whole=True)} was to be expected."
    more = lasting(row, settings)
    return said + (f" It has been {wording.listed(more)}." if more else "")


def _changed(row: Row, month: str, settings: Settings) -> str:
    """' That is €900 less than in September and €400 more than a year before.'"""
    before = wording.month_title(month_name(add_months(Period.month(month).start, -1)), settings, year=False)
    parts = [
        _difference(row[name], row["unit"], settings) + when
        for name, when in (("from_previous", f" in {before}"), ("from_year_ago", " a year before"))
        if row[name] is not None
    ]
    return f" That is {wording.listed(parts)}." if parts else ""


def _difference(gap: Decimal, unit: str, settings: Settings) -> str:
    text, nothing = (wording.quantity(size, unit, settings, whole=True) for size in (abs(gap), Decimal(0)))
    return f"{text} {'more' if gap > 0 else 'less'} than" if text != nothing else "about the same as"


COSTS_ASKED = (
    "What is left can be said once you set what a month of being open costs: rent, energy, wages, without tax."
)


def verdict(month_frame: pl.DataFrame, settings: Settings, month: str) -> str:
    """What the page opens with; where costs were never set, first the sentence that asks for them."""
    said, left = month_sentence(month_frame, settings, month), row_of(month_frame, month, "left_after_costs")
    known = left is None or left["value"] is not None or settings.costs.per_month
    return said if known else f"{COSTS_ASKED} {said}"


def lost_title(month_frame: pl.DataFrame, settings: Settings, month: str) -> str:
    """'What no-shows lost: €412'."""
    net = row_of(month_frame, month, "no_show_net")
    worth = "" if net is None else f": {wording.money(net['value'], settings, whole=True)}"
    return f"What no-shows lost{worth}"


def lost_sentence(month_frame: pl.DataFrame, settings: Settings, month: str) -> str:
    """What no-shows would have brought, the hours they and cancellations left empty, and what was to be expected."""
    names = ("no_show_net", "no_show_share", "no_show_empty_hours", "cancelled_empty_hours")
    rows = {name: row_of(month_frame, month, name) for name in names}
    net, share = rows["no_show_net"], rows["no_show_share"]
    if net is None or share is None or share["value"] is None:
        return ""

    def said(name: str) -> str:
        row = rows[name] or {"value": None, "unit": "h"}
        return wording.quantity(row["value"], row["unit"], settings)

    expected = (
        ""
        if net["expected"] is None
        else f", where {wording.quantity(net['expected'], net['unit'], settings, whole=True)} was to be expected"
    )
    return (
        f"No-shows, {said('no_show_share')} of the visits due, would have brought {said('no_show_net')} net{expected}. "
        f"They left {said('no_show_empty_hours')} of the chairs empty, and cancellations "
        f"{said('cancelled_empty_hours')}, in which nobody else came."
    )


def outside_sentence(month_frame: pl.DataFrame, settings: Settings, month: str) -> str:
    """Which of the month's figures are news; empty for a part-month or where nothing usual is known."""
    rows = month_frame.filter((pl.col("month") == month) & pl.col("judged")).to_dicts()
    news = [row for row in rows if is_news(row)]
    if not rows:
        return ""
    if not news:
        return f"All {len(rows)} figures with a usual range are inside it."
    return f"Outside what is usual: {wording.listed([_news(row, settings) for row in news])}."


def _news(row: Row, settings: Settings) -> str:
    place = standing(row)
    beyond = [] if place == ORDINARY else [f"{place.split()[0]} its usual {usual(row, settings)}"]
    said = wording.listed([*beyond, *lasting(row, settings)])
    value = wording.quantity(row["value"], row["unit"], settings)
    return f"{wording.word(row['figure']).lower()} {value} ({said})"


def figure_lines(month_frame: pl.DataFrame, settings: Settings, month: str) -> list[dict[str, str]]:
    """Every figure of the month as text: name, value, before, a year ago, expected, usual range, standing."""
    return [
        {
            "figure": wording.word(row["figure"]),
            "value": wording.quantity(row["value"], row["unit"], settings),
            "previous": wording.quantity(row["previous"], row["unit"], settings),
            "year_ago": wording.quantity(row["year_ago"], row["unit"], settings),
            "expected": wording.quantity(row["expected"], row["unit"], settings),
            "usual": usual(row, settings),
            "standing": standing(row),
        }
        for row in month_frame.filter(pl.col("month") == month).to_dicts()
    ]
