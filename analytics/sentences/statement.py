"""The month's statement: every figure with a sentence of its own, in groups that an owner thinks in."""

from dataclasses import dataclass
from decimal import Decimal

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.periods import Period, add_months, month_name
from analytics.sentences.judged import ABOVE, BELOW, PART, UNKNOWN, is_news, lasting, standing, usual
from analytics.settings import Settings

FIRST = ("net_revenue", "visits", "average_visit", "net_per_chair_hour", "occupied_share")
GROUPS = {
    "Money": (
        "net_revenue", "open_cost", "left_after_costs", "gross_revenue", "net_per_open_day", "gross_per_open_day",
        "service_net", "average_visit", "discounts", "tips",
    ),
    "Visits and clients": ("visits", "clients", "new_clients", "rebooked_share", "roots_ready"),
    "Chairs": ("chair_hours", "occupied_share", "net_per_chair_hour", "open_days", "closed_days"),
    "Missed and cancelled": (
        "no_show_share", "no_show_net", "no_show_empty_hours", "cancelled_share", "cancelled_empty_hours",
    ),
    "Product and retail": ("product_cost", "product_share", "left_cost", "retail_net", "retail_share"),
}  # fmt: skip
OTHERS = "More"
TREND_SAYS = (
    "A dot is a month (hollow: not over), the band what was to be expected from the months before, give or take what "
    "such expectations miss by; a dot outside it is coloured. A tick on the line of nothing: days closed."
)
RANGES_SAY = (
    "The dot is the month (hollow while it is not over), the band its usual range: what was to be expected from the "
    "months before, give or take what such expectations miss by, so that about one figure in twenty lies outside by "
    "chance alone. The mark is the month before, the dotted mark the year before."
)


@dataclass(frozen=True)
class FigureLine:
    """One figure of the statement: its name and value in words, its sentence, and whether it is news."""

    figure: str
    name: str
    value: str
    sentence: str
    news: bool


def first_figures(month_frame: pl.DataFrame, month: str) -> list[Row]:
    """The five figures a month is told by, those there are."""
    rows = {row["figure"]: row for row in month_frame.filter(month=month).to_dicts()}
    return [rows[figure] for figure in FIRST if figure in rows]


def statement(month_frame: pl.DataFrame, settings: Settings, month: str) -> dict[str, list[FigureLine]]:
    """Every figure of the month by group, each with its sentence; what is in no group comes last."""
    rows = {row["figure"]: row for row in month_frame.filter(month=month).to_dicts()}
    grouped = {figure for figures in GROUPS.values() for figure in figures}
    groups = {**GROUPS, OTHERS: tuple(figure for figure in rows if figure not in grouped)}
    lines = {
        title: [statement_line(rows[figure], settings, month) for figure in figures if figure in rows]
        for title, figures in groups.items()
    }
    return {title: found for title, found in lines.items() if found}


def statement_line(row: Row, settings: Settings, month: str) -> FigureLine:
    """The figure's value, and how it stands against the month before, the year before and what is usual."""
    return FigureLine(
        row["figure"],
        wording.word(row["figure"]),
        wording.quantity(row["value"], row["unit"], settings),
        _sentence(row, settings, month),
        is_news(row),
    )


def before_after(row: Row, settings: Settings, month: str) -> str:
    """'September €19,200 · a year before €18,100', of what there is."""
    named = ((_month_before(month, settings), row["previous"]), ("a year before", row["year_ago"]))
    parts = [f"{when} {wording.quantity(value, row['unit'], settings)}" for when, value in named if value is not None]
    return " · ".join(parts)


def range_says(row: Row, settings: Settings) -> str:
    """The usual range of a value, or why there is none."""
    place = standing(row)
    if place == PART:
        range_ = usual(row, settings)
        return "part of a month" if range_ == wording.NOTHING else f"usual for these days {range_}"
    return "no usual range yet" if place == UNKNOWN else f"{place} {usual(row, settings)}"


def _sentence(row: Row, settings: Settings, month: str) -> str:
    if row["value"] is None:
        return "There is nothing to work it out from."
    same_days = "the same days of " if row["part_month"] else ""
    compared = [
        (f"in {same_days}{_month_before(month, settings)}", "previous"),
        (f"{'in the same days ' if row['part_month'] else ''}a year before", "year_ago"),
    ]
    parts = [
        f"{difference(row[f'from_{other}'], row['unit'], settings)} {when} "
        f"({wording.quantity(row[other], row['unit'], settings)})"
        for when, other in compared
        if row[other] is not None
    ]
    text = "; ".join(filter(None, [", ".join(parts), _place(row, settings)]))
    return text[0].upper() + text[1:] + "." if text else "There is nothing yet to hold it against."


def _place(row: Row, settings: Settings) -> str:
    place = standing(row)
    if place in (PART, UNKNOWN):
        return ""
    range_ = usual(row, settings)
    said = f"{place.split()[0]} its usual {range_}, which is news" if place in (ABOVE, BELOW) else f"usual {range_}"
    return "; ".join([said, *lasting(row, settings)])


def _month_before(month: str, settings: Settings) -> str:
    return wording.month_title(month_name(add_months(Period.month(month).start, -1)), settings, year=False)


def difference(change: Decimal, unit: str, settings: Settings) -> str:
    """'€900 less than', '2.1 points more than', '14 more than', 'the same as': a value that is so much from another."""
    text = _size(abs(change), unit, settings)
    if text == _size(Decimal(0), unit, settings):
        return "the same as"
    measured = unit in ("share", "h", settings.salon.currency, f"{settings.salon.currency}/h")
    return f"{text} {'more' if change > 0 else 'less' if measured else 'fewer'} than"


def _size(gap: Decimal, unit: str, settings: Settings) -> str:
    if unit == "share":
        return wording.points(gap, settings)
    if unit in (settings.salon.currency, f"{settings.salon.currency}/h"):
        return wording.money(gap, settings, whole=gap >= 100)
    return wording.hours(gap, settings) if unit == "h" else wording.number(gap, settings)
