"""What the month brought, and which of its figures lie outside what is usual."""

from decimal import Decimal

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.periods import Period, add_months, month_name
from analytics.sentences.judged import ORDINARY, against, is_news, lasting, row_of, standing, usual
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
    if row["part_month"]:
        came = wording.quantity(visits["value"], "visits", settings)
        return f"So far {title} has brought {net} net from {came}; the month is not over, so it is not judged yet."
    return (
        f"{title} brought {net} net{against(row, settings)}.{_expected(row, settings)}{_changed(row, month, settings)}"
    )


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
