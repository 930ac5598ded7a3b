"""The calendar as a salon lives it: what makes one day count for more than another, as columns of a log-linear rate.

A point process in its operational time (random time change: Cox & Lewis, The Statistical Analysis of Series of Events,
1966, ch. 2; Daley & Vere-Jones, An Introduction to the Theory of Point Processes, 2nd ed., ch. 7.4): visits that come
thick in some weeks and thin in others come evenly on a clock that runs as fast as they usually do. How fast it runs is
told by weekdays, by waves through the year (harmonic regression), by the weeks around the year's end, which are
steeper than a few waves, and by how much of a usual week is shut soon or was shut lately. A level that may drift is
fitted beside them, and is not part of the clock.
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Whole = NDArray[np.int64]

YEAR = 365.25
WAVES = 6  # a wave of a year down to one of two months; the shorter, the closer they are held to nothing
WEEKS_TO_YEAR_END, WEEKS_FROM_YEAR_END = 4, 4
BEFORE_SHUT = ((1, 7), (8, 14))  # days until what is shut
AFTER_SHUT = ((1, 7), (8, 14), (15, 21))
DRIFT_DAYS = 28


def weekdays(weekday: Whole) -> Array:
    """weekday: 0 Monday to 6 Sunday. One column each."""
    out: Array = (weekday[:, None] == np.arange(7)).astype(np.float64)
    return out


def waves(day_of_year: Whole, at_year_end: Array) -> Array:
    """day_of_year: 1 on 1 January. Two columns a wave, of a height that falls with its number.

    at_year_end: the columns of year_end, whose weeks are told by them alone: else a thin first January would make the
    first December thin.
    """
    turns = 2 * np.pi * day_of_year[:, None] / YEAR * np.arange(1, WAVES + 1)
    heights = np.arange(1, WAVES + 1)
    elsewhere = 1 - at_year_end.sum(axis=1, keepdims=True)
    out: Array = np.concatenate([np.sin(turns) / heights, np.cos(turns) / heights], axis=1) * elsewhere
    return out


def year_end(to_christmas: Whole) -> Array:
    """to_christmas: days to the nearest 25 December, negative after it. One column for each week around it."""
    week = np.floor_divide(-to_christmas, 7)  # the seven days up to 24 December are week −1
    out: Array = (week[:, None] == np.arange(-WEEKS_TO_YEAR_END, WEEKS_FROM_YEAR_END)).astype(np.float64)
    return out


def near_shut(lost: Array) -> Array:
    """lost: for each day in a row, the share of a usual week's hours that it would have and has not.

    One column per stretch of days ahead and behind: the share of a usual week that is shut in it.
    """
    summed = np.concatenate([[0.0], np.cumsum(lost)])
    place = np.arange(len(lost))

    def within(first: Whole, last: Whole) -> Array:
        start, end = (np.clip(edge, 0, len(lost)) for edge in (first, last + 1))
        out: Array = summed[end] - summed[start]
        return out

    ahead = [within(place + near, place + far) for near, far in BEFORE_SHUT]
    behind = [within(place - far, place - near) for near, far in AFTER_SHUT]
    return np.stack([*ahead, *behind], axis=1)


def drift(day: Whole, last: int) -> Array:
    """day: 0, 1, … One column per stretch up to day `last`, by which the level has moved on after it: nothing before
    it, a ramp through it, 1 after it. Stretches are counted back from `last`; from there on the level stays."""
    starts = np.arange(last - DRIFT_DAYS, -DRIFT_DAYS, -DRIFT_DAYS)
    out: Array = np.clip((day[:, None] - starts) / DRIFT_DAYS, 0.0, 1.0)
    return out
