"""Chair hours of this week's rest and of the twelve after it: what is likely to come, from what came and is booked.

The salon's clock (records/clock) says how much of a usual day each day brings, its level how many visits a usual day
has, and a visit takes as long as those of the past year did. What is booked then moves it: by how far it lies above or
below what was booked that long before in the past year (methods/advance_booking), so that in a near week with little
booked less is expected than the season alone would say. Nothing dated after the day it is asked on is used. Drawing
clients one by one erred by more than twice as much, and where they stood in their rhythm explained nothing of what was
left.

Exports do not say when a visit was cancelled, so a replayed day knows of bookings only those that came.
"""

from dataclasses import dataclass
from datetime import date

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.methods.advance_booking import PickUp, pick_up
from analytics.methods.intervals import hours
from analytics.records.chairs.stays import VISIT, chair_stays
from analytics.records.clock import Clock, clock_of
from analytics.records.memo import memoised
from analytics.records.salon_days import EPOCH
from analytics.settings import Hours, Settings

Array = NDArray[np.float64]
Whole = NDArray[np.int64]
WEEKS = 13  # the rest of this one and twelve more
YEAR_DAYS = 364
PAST_WEEKS, HALF_LIFE_WEEKS = 52, 26.0  # of which what was booked how long before is looked at
SETTLED_DAYS = 28  # of the book before that
HOURS_BEFORE_ANY = 1.0


@dataclass(frozen=True, eq=False)
class Came:
    """Visits that came, in order of day: day and booked_on (since 1970; where nobody noted it the day itself), hours.
    noted: whether the book says when any visit was booked."""

    day: Whole
    booked_on: Whole
    hours: Array
    noted: bool

    def up_to(self, day: int) -> "Came":
        """Those up to and with this day."""
        some = slice(0, int(np.searchsorted(self.day, day, side="right")))
        return Came(self.day[some], self.booked_on[some], self.hours[some], self.noted)


@dataclass(frozen=True)
class Reckoned:
    """Per week: hours to be expected and their standard deviation. visit_hours: of a visit. stale: nobody came for so
    long that nothing is expected but what is booked."""

    hours: Array
    spread: Array
    visit_hours: float
    stale: bool


@memoised
def came(bookings: pl.DataFrame, settings: Settings) -> Came:
    """Every visit that came, whenever: cut it to a day with `up_to`."""
    taken = chair_stays(bookings, settings.salon.timezone).group_by(VISIT)
    lasted = taken.agg(hours=hours(pl.col("starts"), pl.col("ends")).sum())
    visits = (
        bookings.filter((pl.col("status") == "completed") & ~(pl.col("price") < 0).fill_null(False))
        .group_by(VISIT)
        .agg(day=pl.col("starts_at").min().dt.date(), booked_on=pl.col("booked_on").min())
        .join(lasted, on=VISIT)
        .sort("day", *VISIT)
    )
    day, noted = _number(visits["day"]), visits["booked_on"].null_count() < visits.height
    booked_on = _number(visits["booked_on"].fill_null(visits["day"]))
    return Came(day, np.minimum(booked_on, day), visits["hours"].to_numpy(), noted)


def _number(days: pl.Series) -> Whole:
    return days.to_physical().to_numpy().astype(np.int64)


def booked_by_then(visits: Came, as_of: date) -> Array:
    """Hours per week of visits that came after `as_of` and were booked by then: the book as it was, less what was
    cancelled since, of which exports do not say when."""
    today, monday = this_week(as_of)
    later = (visits.day > today) & (visits.booked_on <= today) & (visits.day < monday + 7 * WEEKS)
    return _by_week(visits.day[later], visits.hours[later], monday)


def reckoned(visits: Came, hours: Hours, as_of: date, booked: Array, varies: Array | float = 0.0) -> Reckoned:
    """booked: hours per week after `as_of` in the book that are likely to come to pass; varies: their variance, by what
    is cancelled or missed. `visits` may go on after `as_of`."""
    today, monday = this_week(as_of)
    known = visits.up_to(today)
    clock = _clock(known, hours, as_of)
    lasted = known.hours[known.day > today - YEAR_DAYS]
    each = float(lasted.mean()) if len(lasted) else HOURS_BEFORE_ANY
    alone = _without_bookings(clock, each, float(lasted.var()) if len(lasted) else 0.0, today, monday)
    if clock.last_visit is None or clock.nobody_since():
        return Reckoned(booked, np.zeros(WEEKS), each, True)
    usual = _pick_up(known, clock, each, today, monday)
    expected, spread = alone
    share = np.divide(booked, expected, out=np.zeros(WEEKS), where=expected > 0)
    if not known.noted or not booked.any():  # what is usual is not known, or exports do not hold what is booked
        return Reckoned(np.maximum(expected, booked), spread, each, False)
    likely = np.where(expected > 0, expected * usual.factor(share), booked)
    return Reckoned(likely, np.sqrt(spread**2 * usual.left + usual.slope**2 * varies), each, False)


@memoised
def replayed(visits: Came, settings: Settings, as_of: str) -> Reckoned:
    """What would have been reckoned on a past day, from what had come by then; `as_of` in ISO form."""
    day = date.fromisoformat(as_of)
    return reckoned(visits, settings.hours, day, booked_by_then(visits, day))


def hours_after(visits: Came, as_of: date) -> Array:
    """Hours that came after `as_of`, per week."""
    today, monday = this_week(as_of)
    later = slice(*np.searchsorted(visits.day, [today, monday + 7 * WEEKS - 1], side="right"))
    return _by_week(visits.day[later], visits.hours[later], monday)


def this_week(as_of: date) -> tuple[int, int]:
    """The day and its Monday, since 1970."""
    today = (as_of - EPOCH).days
    return today, today - as_of.weekday()


def _by_week(day: Whole, hours: Array, monday: int) -> Array:
    return np.bincount((day - monday) // 7, weights=hours, minlength=WEEKS).astype(np.float64)


def _clock(known: Came, hours: Hours, as_of: date) -> Clock:
    day, visits = np.unique(known.day, return_counts=True)
    seen = pl.DataFrame({"day": pl.Series(day, dtype=pl.Int32).cast(pl.Date), "visits": visits})
    return clock_of(seen, hours, as_of)


def _without_bookings(clock: Clock, each: float, varies: float, today: int, monday: int) -> tuple[Array, Array]:
    """Hours and their standard deviation per week, by the clock alone; visits differ in length."""
    spans = [np.arange(max(monday + 7 * week, today + 1), monday + 7 * week + 7) for week in range(WEEKS)]
    visits, spread = np.array([clock.outlook(span) if len(span) else (0.0, 0.0) for span in spans]).T
    return visits * each, np.sqrt((spread * each) ** 2 + visits * varies)


def _pick_up(known: Came, clock: Clock, each: float, today: int, monday: int) -> PickUp:
    """From the same weekday of past weeks: what was booked then for the weeks after it, and what came."""
    weeks = np.arange(1, PAST_WEEKS + 1)
    weeks = weeks[today - 7 * weeks >= (known.day[0] if len(known.day) else today) + SETTLED_DAYS]
    booked, total = np.full((len(weeks), WEEKS), np.nan), np.full((len(weeks), WEEKS), np.nan)
    for row, back in enumerate(weeks.tolist()):
        then, first = today - 7 * back, monday - 7 * back
        whole = first + 7 * np.arange(WEEKS) + 6 <= today
        days = np.arange(then + 1, first + 7 * WEEKS)
        expected = _by_week(days, clock.visits(days) * each, first)
        later = slice(*np.searchsorted(known.day, [then, first + 7 * WEEKS - 1], side="right"))
        day, hours = known.day[later], known.hours[later]
        whole &= expected > 0
        in_book = known.booked_on[later] <= then
        booked[row, whole] = _by_week(day, hours * in_book, first)[whole] / expected[whole]
        total[row, whole] = _by_week(day, hours, first)[whole] / expected[whole]
    return pick_up(booked, total, 0.5 ** (weeks / HALF_LIFE_WEEKS))
