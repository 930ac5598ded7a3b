"""Weeks in which far less was written down than in the weeks around them, as when an export was lost in part.

What a week usually has goes by rows per unit of weight (such as an open day) in the eight weeks before and the eight
after: what three in ten of them reach, so that half may be lost too, and of either side the smaller, so that a salon
that grows or shrinks has no short week. Where the same week of another year, or one beside it, had less than half of
what was usual around it, it may dip as far. A week is short where it has at most 0.36 of that and lacks more than three
standard deviations, on the scale of square roots, where counts of any size scatter alike (a Poisson count by one half).
The salon itself tells their size, by the median absolute deviation of all weeks (times 1.4826, as for a normal
distribution); it is never less than that of a Poisson count of visits with two rows each. The limits are our own,
chosen on invented diaries.
"""

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]
Flags = NDArray[np.bool_]

WEEKS_ASIDE, FEWEST_ASIDE = 8, 3
USUAL_RANK = 0.7
YEAR, OTHER_YEARS = 52, 3
DEEP_DIP = 0.5
FEWEST_ROWS = 40  # of a week that usually has fewer, none may be chance
MOST_SHARE = 0.36
LACKING_DEVIATIONS = 3.0
LEAST_DEVIATION = 0.5 * 2**0.5
NORMAL_MAD = 1.4826
LEAST_WEIGHT = 0.3  # a week of less than this share of the middle weight tells nothing about others


@np.errstate(invalid="ignore", divide="ignore")
def short_weeks(rows: Numbers, weights: Numbers) -> tuple[Numbers, Flags]:
    """Per week, in order and none left out: rows it usually has (nan where that can't be told), whether it is short."""
    rate = np.where(weights > LEAST_WEIGHT * _middle(weights[weights > 0]), rows / weights, np.nan)
    level = _around(rate)
    dip = _dips(rate / level)
    usual = np.round(level * weights * np.where(dip < DEEP_DIP, dip, 1.0), 6)  # whatever the unit of weight
    scatter = NORMAL_MAD * _middle(np.abs(np.sqrt(level * weights) - np.sqrt(rows)))
    lacks = np.sqrt(usual) - np.sqrt(rows) > LACKING_DEVIATIONS * max(LEAST_DEVIATION, scatter)
    return usual, lacks & (rows <= MOST_SHARE * usual) & (usual >= FEWEST_ROWS)


def _middle(values: Numbers) -> float:
    known = values[np.isfinite(values)]
    return float(np.median(known)) if len(known) else 0.0


def _shifted(values: Numbers, weeks: int) -> Numbers:
    """The value so many weeks later (earlier where negative); nan where there is no such week."""
    place = np.arange(len(values)) + weeks
    there = (place >= 0) & (place < len(values))
    return np.where(there, values[np.where(there, place, 0)], np.nan)


def _around(rate: Numbers) -> Numbers:
    """The smaller of what is usual before and after each week; before alone where too little comes after."""
    steps = range(1, WEEKS_ASIDE + 1)
    before, after = (_usual([_shifted(rate, way * step) for step in steps]) for way in (-1, 1))
    return np.where(np.isfinite(before), np.fmin(before, after), np.nan)


def _usual(weeks: list[Numbers]) -> Numbers:
    """What three in ten of these weeks reach; nan where too few are known."""
    around = np.array(weeks)
    enough = np.isfinite(around).sum(axis=0) >= FEWEST_ASIDE
    usual = np.full(around.shape[1], np.nan)
    if enough.any():
        usual[enough] = np.nanquantile(around[:, enough], USUAL_RANK, axis=0)
    return usual


def _dips(share: Numbers) -> Numbers:
    """The smallest share of what was usual around them that the same weeks, and those beside, had in other years."""
    years = [YEAR * year for year in range(-OTHER_YEARS, OTHER_YEARS + 1) if year]
    return np.asarray(np.fmin.reduce([_shifted(share, year + beside) for year in years for beside in (-1, 0, 1)]))
