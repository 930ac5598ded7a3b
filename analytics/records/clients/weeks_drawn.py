"""The weeks ahead drawn many times over: how far they may lie from what is expected, and how they fill the chairs.

How far the same reckoning missed at the month ends of the past year widens or narrows its ranges, by how far ahead one
looks; with few such weeks they stay as the reckoning itself has them.
"""

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from analytics.methods.overflow import fitted
from analytics.periods import add_months
from analytics.records.clients.weeks_ahead import WEEKS, Came, Reckoned, hours_after, replayed, this_week
from analytics.settings import Settings

Array = NDArray[np.float64]
SEED, RUNS = 20_240_501, 2000
TOGETHER = 0.5  # of what is unsure of a week is unsure of all of them
LOW, HIGH, INNER = 0.1, 0.9, 1.2816  # the ends of the 80 % range, in shares and in standard deviations
MONTH_ENDS, LEAST_DAYS = 12, 182  # tried; of the book before them
BANDS = (0, 0, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3)  # weeks ahead whose misses are looked at together
MISSES_WEIGHT = 24.0  # weeks' worth of trust that ranges are right as they are


@dataclass(frozen=True)
class Drawn:
    """Per week, hours: what is expected to be done, the ends of its 80 % range, and the low end of what is wanted,
    whether or not the chairs hold it."""

    expected: Array
    low: Array
    high: Array
    wanted_low: Array


@dataclass(frozen=True)
class Chairs:
    """open_hours: of the chairs, per week. full: the shares of them between which a full week lies, one pair for all
    weeks or one per week. booked: hours per week that are taken whatever they hold."""

    open_hours: Array
    full: tuple[float | Array, float | Array]
    booked: Array

    def hold(self, luck: Array) -> Array:
        """luck: between 0 and 1, runs × weeks. Hours that the chairs hold."""
        least, most = self.full
        out: Array = np.maximum(self.open_hours * (least + (most - least) * luck), self.booked)
        return out


def drawn(said: Reckoned, widened: Array, chairs: Chairs) -> Drawn:
    """widened: what standard deviations are taken times."""
    relative = np.divide(said.spread * widened, said.hours, out=np.zeros(WEEKS), where=said.hours > 0)
    unsure = np.sqrt(np.log1p(relative**2))
    draws = np.random.default_rng(SEED)
    alone, all_weeks = draws.standard_normal((RUNS, WEEKS)), draws.standard_normal((RUNS, 1))
    scatter = np.sqrt(TOGETHER) * all_weeks + np.sqrt(1 - TOGETHER) * alone
    wanted = said.hours * np.exp(unsure * scatter - unsure**2 / 2)
    done = fitted(wanted, chairs.hold(draws.random((RUNS, WEEKS))))
    low, high = np.quantile(done, [LOW, HIGH], axis=0)
    return Drawn(done.mean(axis=0), low, high, np.quantile(wanted, LOW, axis=0))


def month_ends(visits: Came, as_of: date) -> list[date]:
    """The last of them with a whole week after them and half a year of the book before them, latest first."""
    if not len(visits.day):
        return []
    ends = [add_months(as_of, -months) - timedelta(days=1) for months in range(MONTH_ENDS + 1)]
    ends = [end for end in ends if end + timedelta(days=7) <= as_of][:MONTH_ENDS]
    return [end for end in ends if this_week(end)[0] - visits.day[0] >= LEAST_DAYS]


def misses(visits: Came, settings: Settings, as_of: date) -> Array:
    """What to take standard deviations times, per week ahead."""
    bands, wide = np.array(BANDS), np.ones(WEEKS)
    missed: list[list[float]] = [[] for _ in range(max(BANDS) + 1)]
    today = this_week(as_of)[0]
    for end in month_ends(visits, as_of):
        said, happened = replayed(visits, settings, end.isoformat()), hours_after(visits, end)
        monday = this_week(end)[1]
        for week in np.flatnonzero((said.spread > 0) & (monday + 7 * np.arange(WEEKS) + 6 <= today)):
            missed[BANDS[week]].append(abs(happened[week] - said.hours[week]) / said.spread[week])
    for band, each in enumerate(missed):
        if each:
            trust = len(each) / (len(each) + MISSES_WEIGHT)
            wide[bands == band] = (np.quantile(each, 1 - 2 * LOW) / INNER) ** trust
    return wide
