"""What is said of the weeks ahead on a day, and what would have been said on the month ends of the past year."""

from dataclasses import dataclass, replace
from datetime import date, timedelta

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.methods.intervals import hours
from analytics.periods import Period, week_start
from analytics.records.chairs.open_hours import opened
from analytics.records.chairs.stays import named_chairs
from analytics.records.clients.weeks_ahead import (
    WEEKS,
    YEAR_DAYS,
    Came,
    Reckoned,
    booked_by_then,
    came,
    hours_after,
    reckoned,
    replayed,
    this_week,
)
from analytics.records.clients.weeks_drawn import Chairs, Drawn, drawn, misses, month_ends
from analytics.records.salon_days import EPOCH
from analytics.settings import Settings

Array = NDArray[np.float64]
PAST_WEEKS, HALF_OPEN = 52, 0.5  # of a full week's hours, from which on a past week tells what chairs hold
FULL = 0.9  # of the open hours: a week in which gaps between visits were all that was left
LATE_WEEKS = 12  # of which the mean is a rule people use
ROWS = {
    "origin": pl.Date(),
    "week_start": pl.Date(),
    "weeks_ahead": pl.Int64(),
    "came": pl.Float64(),
    "expected": pl.Float64(),
    "low": pl.Float64(),
    "high": pl.Float64(),
    "same_week_last_year": pl.Float64(),
    "last_12_weeks": pl.Float64(),
    "naive_error": pl.Float64(),
}


@dataclass(frozen=True)
class InBook:
    """Hours per week that are booked and likely to come to pass: on the day itself, after it, and their variance."""

    today: Array
    later: Array
    varies: Array

    @property
    def likely(self) -> Array:
        return self.today + self.later


@dataclass(frozen=True)
class Said:
    reckoned: Reckoned
    drawn: Drawn
    open_hours: Array


def weeks_of(as_of: date, first: int = 0, last: int = WEEKS) -> list[date]:
    """Mondays, counted from this week's."""
    return [week_start(as_of) + timedelta(weeks=week) for week in range(first, last)]


def weeks_said(bookings: pl.DataFrame, settings: Settings, as_of: date, book: InBook) -> Said:
    visits = came(bookings, settings)
    reckon = reckoned(visits, settings.hours, as_of, book.later, book.varies)
    said = replace(reckon, hours=reckon.hours + book.today)
    return _drawn(said, visits, bookings, settings, as_of=as_of, booked=book.likely)


def _drawn(
    reckon: Reckoned, visits: Came, bookings: pl.DataFrame, settings: Settings, *, as_of: date, booked: Array
) -> Said:
    spans = {week: Period(max(week, as_of), week + timedelta(weeks=1)) for week in weeks_of(as_of)}
    open_hours = _open(bookings, settings, spans)
    chairs = Chairs(open_hours, of_each_week(open_hours, _full(visits, bookings, settings, as_of)), booked)
    widened = misses(visits, settings, as_of) * few_days(open_hours)
    return Said(reckon, drawn(reckon, widened, chairs), open_hours)


def _open(bookings: pl.DataFrame, settings: Settings, spans: dict[date, Period]) -> Array:
    """Opening hours times chairs of each span."""
    named = {f"{week}": span for week, span in spans.items()}
    lasts = opened(settings, named).group_by("month").agg(hours=hours(pl.col("starts"), pl.col("ends")).sum())
    every = pl.DataFrame({"month": list(named)}).join(lasts, on="month", how="left", maintain_order="left")
    chairs = len(named_chairs(bookings, settings.salon.chairs))
    return every["hours"].fill_null(0.0).to_numpy() * chairs


def _full(visits: Came, bookings: pl.DataFrame, settings: Settings, as_of: date) -> tuple[float, float]:
    """The shares of its open hours between which a full week lies: what half the full weeks of the past year held, and
    what the fullest did; all of them where no week was full."""
    weeks = weeks_of(as_of, -PAST_WEEKS, 0)
    open_hours = _open(bookings, settings, {week: Period(week, week + timedelta(weeks=1)) for week in weeks})
    monday = (weeks[0] - EPOCH).days
    past = (visits.day >= monday) & (visits.day < monday + 7 * PAST_WEEKS)
    held = np.bincount((visits.day[past] - monday) // 7, weights=visits.hours[past], minlength=PAST_WEEKS)
    tells = open_hours > HALF_OPEN * open_hours.max()
    shares = held[tells] / open_hours[tells]
    full = shares[shares >= FULL]
    return (float(np.median(full)), float(full.max())) if len(full) else (1.0, 1.0)


def of_each_week(open_hours: Array, full: tuple[float, float]) -> tuple[Array, Array]:
    """full: of a whole week. Per week the shares of its open hours between which it is full: one of a day or two, such
    as that of Christmas, has no other days to make good for a gap, or for a visit longer than usual."""
    short = open_hours <= HALF_OPEN * open_hours.max()
    return np.where(short, FULL, full[0]), np.where(short, 1.0, full[1])


def few_days(open_hours: Array) -> Array:
    """What standard deviations are taken times in weeks of a day or two, in which nothing evens out what is unlike the
    usual about a day; of this week more is in the book."""
    most = float(open_hours.max())
    short = (open_hours > 0) & (open_hours <= HALF_OPEN * most) & (np.arange(len(open_hours)) > 0)
    out: Array = np.sqrt(np.divide(most, open_hours, out=np.ones_like(open_hours), where=short))
    return out


def year_before(visits: Came, as_of: date) -> list[float | None]:
    """Hours that came in the same weeks 364 days before; empty where the book does not reach back so far."""
    then = as_of - timedelta(days=YEAR_DAYS)
    first = EPOCH + timedelta(days=int(visits.day[0])) if len(visits.day) else as_of
    known = [first <= max(week, then + timedelta(days=1)) for week in weeks_of(then)]
    return [float(each) if there else None for each, there in zip(hours_after(visits, then), known, strict=True)]


def weeks_replayed(bookings: pl.DataFrame, settings: Settings, as_of: date) -> pl.DataFrame:
    """One row per month end of the past year and whole week after it, up to 12, that the book knows: what came, what
    would have been said, and what rules people use would have said. Nothing dated after the month end is used."""
    visits = came(bookings, settings).up_to((as_of - EPOCH).days)
    last = EPOCH + timedelta(days=int(visits.day[-1])) if len(visits.day) else as_of
    rows = [row for end in month_ends(visits, last) for row in _replayed(visits, bookings, settings, end, last)]
    return pl.DataFrame(rows, schema=ROWS, orient="row").sort("origin", "weeks_ahead")


def _replayed(
    visits: Came, bookings: pl.DataFrame, settings: Settings, origin: date, last: date
) -> list[tuple[object, ...]]:
    reckon = replayed(visits, settings, origin.isoformat())
    in_book = booked_by_then(visits, origin)
    said = _drawn(reckon, visits, bookings, settings, as_of=origin, booked=in_book).drawn
    happened, late = hours_after(visits, origin), _late(visits, origin)
    grown = _grown(year_before(visits, origin), late, _late(visits, origin - timedelta(days=YEAR_DAYS)))
    naive = naive_error(visits, origin)
    return [
        (
            origin, week, ahead, happened[ahead], said.expected[ahead], said.low[ahead], said.high[ahead],
            grown[ahead], late, naive,
        )
        for ahead, week in enumerate(weeks_of(origin))
        if ahead and week + timedelta(days=6) <= last
    ]  # fmt: skip


def _grown(before: list[float | None], late: float | None, then: float | None) -> list[float | None]:
    """The weeks a year before times the growth since, of the weeks before either."""
    if late is None or not then:
        return [None] * len(before)
    return [None if each is None else each * late / then for each in before]


def naive_error(visits: Came, as_of: date) -> float | None:
    """Mean absolute error, in hours, of saying of each whole week before this one what came in the same week 364 days
    before it; empty where the book knows less than LATE_WEEKS such weeks."""
    monday = this_week(as_of)[1]
    first = monday - (monday - int(visits.day[0])) // 7 * 7 if len(visits.day) else monday
    weeks, year = (monday - first) // 7, YEAR_DAYS // 7
    if weeks < year + LATE_WEEKS:
        return None
    past = (visits.day >= first) & (visits.day < monday)
    held = np.bincount((visits.day[past] - first) // 7, weights=visits.hours[past], minlength=weeks)
    return float(np.abs(held[year:] - held[:-year]).mean())


def _late(visits: Came, as_of: date) -> float | None:
    """Mean hours of the LATE_WEEKS before this one; empty where the book does not know them all."""
    monday = this_week(as_of)[1]
    if not len(visits.day) or visits.day[0] > monday - 7 * LATE_WEEKS + 6:
        return None
    past = (visits.day >= monday - 7 * LATE_WEEKS) & (visits.day < monday)
    return float(visits.hours[past].sum()) / LATE_WEEKS
