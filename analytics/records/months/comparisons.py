"""What each month is held against: what was to be expected of it, the month before, and the year before."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

import polars as pl

from analytics.definitions.results import COMPARISONS, EXPECTED
from analytics.periods import Period
from analytics.records.memo import memoised
from analytics.records.months.earnings import Earnings, Rows, earnings, expected_earnings
from analytics.settings import Settings


@dataclass(frozen=True)
class Pair:
    """A month and what it is held against; `then` is the days of that, and None where it is an expectation."""

    month: str
    compared_with: str
    days: Period
    then: Period | None
    now: Earnings
    before: Earnings


def whole_months(cover: Period, as_of: date) -> dict[str, Period]:
    """The months of the cover that are over."""
    return {name: Period.month(name) for name in cover.months() if not cover.is_part(name, as_of)}


def pairs(given: Rows, period: Period, cover: Period, as_of: date) -> list[Pair]:
    """By month and comparison, those there are; a part-month with the same days, and with no expectation.

    Worked out once for the same rows.
    """
    days = [day.isoformat() for day in (period.start, period.end, cover.start, cover.end, as_of)]
    return _pairs(given.lines, given.retail, given.visits, given.settings, *days)


@memoised
def _pairs(
    lines: pl.DataFrame, retail: pl.DataFrame, visits: pl.DataFrame, settings: Settings, *days: str
) -> list[Pair]:
    start, end, first, last, as_of = (date.fromisoformat(day) for day in days)
    given, period, cover = Rows(lines, retail, visits, settings), Period(start, end), Period(first, last)
    asked, whole = period.parts(), whole_months(cover, as_of)
    sides = list(_sides(asked, period, cover, as_of))
    spans = {_name(span): span for span in [*asked.values(), *whole.values(), *(then for _, _, then in sides)]}
    earned = earnings(given, spans)
    found = [
        Pair(month, name, asked[month], then, earned[_name(asked[month])], earned[_name(then)])
        for month, name, then in sides
    ]
    judged = {month: whole[month] for month in asked if whole.get(month) == asked[month]}
    if judged:
        known = {month: earned[_name(span)] for month, span in whole.items()}
        told = expected_earnings(known, given, whole)
        found += [Pair(m, EXPECTED, whole[m], None, known[m], told[m]) for m in judged if m in told]
    order = {name: place for place, name in enumerate((EXPECTED, *COMPARISONS))}
    return sorted(found, key=lambda pair: (pair.month, order[pair.compared_with]))


def _sides(asked: dict[str, Period], period: Period, cover: Period, as_of: date) -> Iterator[tuple[str, str, Period]]:
    """Month, comparison, and the days held against."""
    for name, months in COMPARISONS.items():
        before = period.same_days(months, cover, as_of)
        yield from ((month, name, before[month]) for month in asked if month in before)


def _name(span: Period) -> str:
    return f"{span.start}/{span.end}"
