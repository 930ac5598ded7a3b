"""The days of a salon in a row: which were open and for how long, which were shut though nothing says so, and what a
day's place in the week and year is."""

from dataclasses import dataclass
from datetime import date

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.settings import WEEKDAYS, Hours

Array = NDArray[np.float64]
Whole = NDArray[np.int64]
Marks = NDArray[np.bool_]

EPOCH = date(1970, 1, 1)
DAYS_BEFORE, DAYS_AHEAD = 30, 800  # of the first visit; of the day it is asked on
SHUT_VISITS = 7.0  # usual visits of open days in a row without one, from which on the salon was shut
YEAR_END = (-12, 5)  # 6 January to 20 December, as days to Christmas, within which what was shut is shut again
RECENT_WEEKS, USED = 13, 0.25  # share of the last such weekdays, from which on a closed weekday is an open one
USUAL_HOURS = 8.0


@dataclass(frozen=True)
class SalonDays:
    """One entry per day: number (since 1970), visits, weekday (0 Monday), usual_hours of an open day of that weekday,
    hours it is open, and whether it is known what came: open days from the first visit up to the day it is asked on."""

    number: Whole
    visits: Array
    weekday: Whole
    usual_hours: Array
    hours: Array
    known: Marks

    @property
    def week_hours(self) -> float:
        """Opening hours of a full week."""
        return float(self.usual_hours[:7].sum())

    @property
    def lost(self) -> Array:
        """The share of a full week's hours that each day would have and has not."""
        out: Array = np.where(self.hours > 0, 0.0, self.usual_hours) / max(self.week_hours, 1e-9)
        return out


def day_of_year(number: Whole) -> Whole:
    """1 on 1 January; number: days since 1970."""
    day = number.astype("datetime64[D]")
    out: Whole = (day - day.astype("datetime64[Y]").astype("datetime64[D]")).astype(np.int64) + 1
    return out


def to_christmas(number: Whole) -> Whole:
    """Days to the nearest 25 December, negative after it; number: days since 1970."""
    year = number.astype("datetime64[D]").astype("datetime64[Y]").astype(np.int64)
    ahead = _christmas(year) - number
    out: Whole = np.where(ahead > 182, _christmas(year - 1) - number, ahead)
    return out


def _christmas(year: Whole) -> Whole:
    """year: since 1970."""
    month = (12 * year + 11).astype("datetime64[M]")
    out: Whole = month.astype("datetime64[D]").astype(np.int64) + 24
    return out


def salon_days(seen: pl.DataFrame, hours: Hours, as_of: date) -> SalonDays:
    """seen: day, visits, up to `as_of`, in order."""
    today = (as_of - EPOCH).days
    came = seen["day"].to_physical().to_numpy().astype(np.int64)
    start = (int(came[0]) if len(came) else today) - DAYS_BEFORE
    number = np.arange(start, today + DAYS_AHEAD + 1)
    visits = np.zeros(len(number))
    visits[came - start] = seen["visits"].to_numpy()
    weekday = (number + 3) % 7
    week, worked = _week(hours, visits[: today - start + 1], weekday)
    usual = week[weekday]
    closed = np.isin(number, [(day - EPOCH).days for day in hours.closed])
    closed |= worked[weekday] & (visits == 0) & (number <= today)
    open_hours = np.where(closed, 0.0, usual)
    known = (number >= start + DAYS_BEFORE) & (number <= today) & (open_hours > 0)
    quiet = _quiet(visits, known, weekday)
    last = int(came[-1]) if len(came) else today
    shut = quiet & (number < last)
    shut |= _again_at_year_end(to_christmas(number), shut, number > last, number > last - 365)
    return SalonDays(number, visits, weekday, usual, np.where(shut, 0.0, open_hours), known & ~quiet & ~shut)


def _week(hours: Hours, visits: Array, weekday: Whole) -> tuple[Array, Marks]:
    """Opening hours of each weekday, and those that are closed and worked all the same, for as long as the others.

    Where no day would be open and none is worked often, nobody knows the week, and all days are alike.
    """
    week = np.array([sum(ends - begins for begins, ends in getattr(hours, name)) / 60 for name in WEEKDAYS])
    used = np.zeros(7)
    for day in range(7):
        lately = visits[weekday[: len(visits)] == day][-RECENT_WEEKS:]
        used[day] = (lately > 0).mean() if len(lately) == RECENT_WEEKS else 0.0
    worked = (week == 0) & (used >= USED)
    usual = float(week[week > 0].mean()) if week.any() else USUAL_HOURS
    out = np.where(worked, usual, week)
    return out if out.any() else np.full(7, USUAL_HOURS), worked


def _quiet(visits: Array, known: Marks, weekday: Whole) -> Marks:
    """Open days in a row without a visit, in which SHUT_VISITS would have come."""
    usual = np.zeros(7)
    for day in range(7):
        some = visits[known & (weekday == day)]
        usual[day] = some.mean() if len(some) else 0.0
    open_days = np.flatnonzero(known)
    row = np.cumsum(visits[open_days] > 0)  # the days after one with a visit, up to the next, are numbered as it is
    missed = np.where(visits[open_days] > 0, 0.0, usual[weekday[open_days]])
    long = np.bincount(row, weights=missed)[row] >= SHUT_VISITS if len(row) else np.zeros(0, np.bool_)
    out = np.zeros(len(visits), np.bool_)
    out[open_days] = long & (visits[open_days] == 0)
    return out


def _again_at_year_end(to_christmas: Whole, shut: Marks, ahead: Marks, lately: Marks) -> Marks:
    """Days around the year's end, as far from Christmas as what was shut of the last one."""
    first, last = YEAR_END
    then = to_christmas[shut & lately & (to_christmas >= first) & (to_christmas <= last)]
    if not len(then):
        return np.zeros(len(shut), np.bool_)
    out: Marks = ahead & (to_christmas >= then.min()) & (to_christmas <= then.max())
    return out
