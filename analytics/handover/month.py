"""The month on paper: one or two pages for the wall or the folder, with the figures and pictures of its page."""

import argparse
from dataclasses import asdict
from pathlib import Path
from typing import Any

import polars as pl

from analytics import sentences, wording
from analytics.handover.drawing import lengths, lines_across, places, up_to
from analytics.handover.paper import paper
from analytics.periods import Period
from analytics.salon import Salon
from analytics.settings import Settings
from analytics.stops import WorkStopped
from analytics.storage.private_files import write_private

MONTHS_SHOWN = 25  # two years and the month itself
MOST_COMPARISONS = 2  # that two pages have room for
CHART_SAYS = (
    "Each dot is a month's net revenue, the last one larger and hollow while it is not over. The band is what was to "
    "be expected from the months before it, give or take what such expectations miss by; a dot outside it has a ring."
)
FOOT = (
    "● is news: outside its usual range, as one figure in twenty is by chance alone, or for long on one side of what "
    "was to be expected. Money is net of tax unless it says otherwise. The figures are those of salon-figures month."
)


def write(salon: Salon, period: Period | None, asked: argparse.Namespace) -> list[Path]:
    """The statement of one month as a PDF file: the month of the period, or else the last one that is over."""
    return [write_private(statement(salon, one_month(salon, period)), asked.pdf)]


def one_month(salon: Salon, period: Period | None) -> Period:
    """The month to write about. Raises WorkStopped where several were asked for, or the book is empty."""
    if period is None:
        whole = [month for month in salon.cover.months() if not salon.cover.is_part(month, salon.as_of)]
        month = next(reversed(whole or salon.cover.months()), None)
        if month is None:
            raise WorkStopped("The book has no visits, payments or bowls yet; put exports in exports/ and load them.")
        return Period.month(month)
    if len(period.months()) > 1:
        raise WorkStopped("A statement is of one month; name it with --month, for example --month 2026-03.")
    return period


def statement(salon: Salon, period: Period) -> bytes:
    """The PDF, the same bytes for the same book, month and day."""
    month, settings = period.months()[0], salon.settings
    frame = salon.figure("month", period)
    part = period.is_part(month, salon.as_of)
    data = {
        "answer": _answer(frame, period, salon),
        "outside": sentences.outside_sentence(frame, settings, month),
        "first": [_first(row, settings, month) for row in sentences.first_figures(frame, month)],
        "ranges_say": sentences.RANGES_SAY,
        "nothing_before": sentences.NOTHING_BEFORE,
        "chart_says": CHART_SAYS,
        "foot": FOOT,
        "why": _why(salon, period, month, part),
        "chart": _chart(salon, frame, month),
        "groups": _groups(frame, settings, month),
        "coverage": _coverage(salon, period, month),
    }
    title = "Part of the month" if part else "The month"
    return paper("month", data, settings, title=title, period=_said(period, month, salon), made_on=salon.as_of)


def _answer(frame: pl.DataFrame, period: Period, salon: Salon) -> str:
    """What the month brought; of days cut out of it, what these brought."""
    month = period.months()[0]
    if period == Period.month(month):
        return sentences.month_sentence(frame, salon.settings, month)
    return sentences.days_sentence(frame, salon.settings, month, _said(period, month, salon))


def _said(period: Period, month: str, salon: Salon) -> str:
    """The month, or the days of it."""
    if period == Period.month(month):
        return wording.month_title(month, salon.settings)
    return wording.days(period.start, period.last, salon.settings, salon.as_of)


def _first(row: dict[str, Any], settings: Settings, month: str) -> dict[str, Any]:
    line = sentences.statement_line(row, settings, month)
    return {
        "name": line.name,
        "value": line.value,
        "news": line.news,
        "part": row["part_month"],
        "usual": sentences.range_says(row, settings),
        "before": sentences.before_after(row, settings, month),
        "at": places(row),
    }


def _why(salon: Salon, period: Period, month: str, part: bool) -> list[dict[str, Any]]:
    """Against what was to be expected and the month before: the difference, step by step, and what moved."""
    changes, clientele = salon.figure("changes", period), salon.figure("clientele", period)
    return [
        {
            "says": sentences.change_sentence(clientele, salon.settings, month, against, part),
            "steps": _steps(sentences.bridge(clientele, month, against, salon.settings), salon.settings),
            "movers": sentences.movers(changes, salon.settings, month, against, part),
        }
        for against in sentences.comparisons(changes, month)[:MOST_COMPARISONS]
    ]


def _steps(steps: list[sentences.Step], settings: Settings) -> list[dict[str, Any]]:
    """The steps with the length of their bars, −1 to 1."""
    amounts = [float(step.amount) for step in steps]
    return [
        {"name": step.name, "more": step.more, "amount": wording.signed(step.amount, settings), "length": length}
        for step, length in zip(steps, lengths(amounts), strict=True)
    ]


def _chart(salon: Salon, frame: pl.DataFrame, month: str) -> dict[str, Any]:
    """Net revenue month by month, its usual range behind it, in parts of the picture's height."""
    others = salon.figure("month").filter(pl.col("month") < month)
    rows = pl.concat([others, frame]).filter(figure="net_revenue").drop_nulls("value").tail(MONTHS_SHOWN).to_dicts()
    tallest = max((float(row[name] or 0) for row in rows for name in ("value", "usual_high")), default=0.0)
    lines = lines_across(tallest)
    top = lines[-1]
    return {
        "lines": [
            {"at": up_to(line, top), "says": wording.money(line, salon.settings, whole=top >= 10)}
            for line in lines[:-1]
        ],
        "dots": [
            {
                "says": wording.short_month(row["month"], salon.settings),
                "at": up_to(row["value"], top),
                "low": None if row["usual_low"] is None else max(0.0, up_to(row["usual_low"], top)),
                "high": None if row["usual_high"] is None else up_to(row["usual_high"], top),
                "part": row["part_month"],
                "news": sentences.standing(row) in (sentences.ABOVE, sentences.BELOW),
            }
            for row in rows
        ],
    }


def _groups(frame: pl.DataFrame, settings: Settings, month: str) -> list[dict[str, Any]]:
    """The statement by group: of every figure its name, value, month before, year before, usual range."""
    lines = {line["figure"]: line for line in sentences.figure_lines(frame, settings, month)}
    return [
        {
            "title": title,
            "rows": [
                {**asdict(line), **{name: lines[line.name][name] for name in ("previous", "year_ago", "usual")}}
                for line in group
            ],
        }
        for title, group in sentences.statement(frame, settings, month).items()
    ]


def _coverage(salon: Salon, period: Period, month: str) -> str:
    return sentences.coverage_sentence(salon.figure("bowls", period), salon.settings, month)
