"""What is said of each client on a day: the chance of each day ahead, and whether she still is a client."""

from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.methods.gap_table import EDGES
from analytics.methods.range_levels import first_step
from analytics.methods.renewal import Waiting, visits_to_come
from analytics.records.clients.root_visits import CLIENT

AHEAD_DAYS = 350
Array = NDArray[np.float64]


class Future(NamedTuple):
    """waiting and longer: as methods.renewal has them. passed: the time after 0, 1, … AHEAD_DAYS days."""

    waiting: Waiting
    longer: Array
    passed: Array


@dataclass(frozen=True)
class Habits:
    """clients: one row per client, in the order of the arrays: site, client_id, kind, last_on, days_since, gaps.

    chance_of_return: that she is still a client. ahead: probability that she comes in 1, 2, … AHEAD_DAYS days, given
    that she is and has not come yet; the last day holds what lies further. levels: how much of what lies within `reach`
    days lies before the low end, the median and the high end of what is expected; one row for all, or one each.
    future: what visits to come are drawn from; none where there are no clients.
    """

    as_of: date
    clients: pl.DataFrame
    chance_of_return: Array
    ahead: Array
    levels: Array
    reach: int = AHEAD_DAYS - 1
    future: Future | None = None

    def within(self, days: int) -> Array:
        """Chance that she comes within so many days."""
        out: Array = self.chance_of_return * self.ahead[:, :days].sum(axis=1, dtype=np.float64)
        return out

    def visits_within(self, days: int) -> Array:
        """Visits to be expected of each client within so many days, AHEAD_DAYS at most."""
        if self.future is None:
            return np.zeros(len(self.clients))
        return visits_to_come(self.future.waiting, self.future.longer, EDGES, float(self.future.passed[days]))

    def chance_later(self, days: int) -> Array:
        """That she is still a client, in so many days, if she has not come by then (by Bayes' rule)."""
        came = self.within(days)
        out: Array = (self.chance_of_return - came) / np.maximum(1 - came, 1e-12)
        return out.clip(0, 1)

    def soon(self) -> Array:
        """Probability of each day, given that she comes within `reach` days."""
        return within_reach(self.ahead, self.reach)

    def expected(self) -> pl.DataFrame:
        """site, client_id, expected_on (median), expected_low_on and expected_high_on (80 %), chance_of_return and
        chance_next_week."""
        reached = np.cumsum(self.soon(), axis=1)
        levels = np.broadcast_to(self.levels, (len(reached), 3)).T
        names = ("expected_low_on", "expected_on", "expected_high_on")
        days = {name: first_step(reached, level) + 1 for name, level in zip(names, levels, strict=True)}
        return (
            self.clients.select(CLIENT)
            .with_columns(**days, chance_of_return=self.chance_of_return, chance_next_week=self.chance_later(7))
            .with_columns(*((pl.lit(self.as_of) + pl.duration(days=name)).alias(name) for name in names))
            .with_columns(pl.col("chance_of_return", "chance_next_week").cast(pl.Float64).round(6))
        )


def within_reach(ahead: Array, reach: int) -> Array:
    """The chances of the days up to `reach`, given that she comes by then."""
    near = ahead[:, :reach]
    out: Array = near / np.maximum(near.sum(axis=1, keepdims=True), 1e-30)
    return out
