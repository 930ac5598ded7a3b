"""What is said of each client on a day: the chance of each day ahead, and whether she still is a client."""

from dataclasses import dataclass
from datetime import date

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.methods.range_levels import first_step
from analytics.records.clients.root_visits import CLIENT

AHEAD_DAYS = 350
Array = NDArray[np.float64]
Chances = NDArray[np.float32]


@dataclass(frozen=True)
class Habits:
    """clients: one row per client, in the order of the arrays: site, client_id, kind, last_on, days_since, gaps.

    chance_of_return: that she is still a client. ahead: probability that she comes in 1, 2, … AHEAD_DAYS days, given
    that she is and has not come yet; the last day holds what lies further. levels: how much of what lies within `reach`
    days lies before the low end, the median and the high end of what is expected; one row for all, or one each.
    """

    as_of: date
    clients: pl.DataFrame
    chance_of_return: Array
    ahead: Chances
    levels: Array
    reach: int = AHEAD_DAYS - 1

    def within(self, days: int) -> Array:
        """Chance that she comes within so many days."""
        out: Array = self.chance_of_return * self.ahead[:, :days].sum(axis=1, dtype=np.float64)
        return out

    def chance_later(self, days: int) -> Array:
        """That she is still a client, in so many days, if she has not come by then (by Bayes' rule)."""
        came = self.within(days)
        out: Array = (self.chance_of_return - came) / np.maximum(1 - came, 1e-12)
        return out.clip(0, 1)

    def soon(self) -> Chances:
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


def within_reach(ahead: Chances, reach: int) -> Chances:
    """The chances of the days up to `reach`, given that she comes by then."""
    near = ahead[:, :reach]
    out: Chances = near / np.maximum(near.sum(axis=1, keepdims=True), 1e-30)
    return out
