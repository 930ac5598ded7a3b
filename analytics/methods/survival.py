"""Kaplan–Meier: the share still waiting after so long, counting those still out as still out.

Kaplan and Meier 1958, JASA 53:457–481.
"""

from bisect import bisect_right
from dataclasses import dataclass

import polars as pl


@dataclass(frozen=True)
class Waiting:
    """A step function: `share[i]` still wait from `days[i]` on, before the first day all do; `events` waits ended."""

    days: tuple[float, ...]
    share: tuple[float, ...]
    events: int = 0

    def at(self, day: float) -> float:
        """Share still waiting after `day` days."""
        place = bisect_right(self.days, day)
        return self.share[place - 1] if place else 1.0

    @property
    def median(self) -> float | None:
        """First day on which half or fewer still wait; None where that was not reached."""
        half = 0.5 + 1e-12  # a product of fractions may miss the half by a hair
        return next((day for day, share in zip(self.days, self.share, strict=True) if share <= half), None)

    def chance_after(self, day: float) -> float | None:
        """Of those still waiting after `day` days, the share that comes back within the longest wait seen.

        None where no wait ever ended, which says nothing.
        """
        waiting = self.at(day)
        if not self.share:
            return None
        return 1 - self.share[-1] / waiting if waiting > 0 else 0.0


def kaplan_meier(days: pl.Series, came: pl.Series) -> Waiting:
    """days: how long each waited (or has waited so far). came: True where the wait ended in a visit."""
    steps = (
        pl.DataFrame({"days": days, "came": came}, schema={"days": pl.Float64(), "came": pl.Boolean()})
        .group_by("days")
        .agg(events=pl.col("came").sum(), leaving=pl.len())
        .sort("days")
        .with_columns(at_risk=pl.col("leaving").sum() - pl.col("leaving").cum_sum() + pl.col("leaving"))
        .filter(pl.col("events") > 0)
        .with_columns(share=(1 - pl.col("events") / pl.col("at_risk")).cum_prod())
    )
    return Waiting(tuple(steps["days"]), tuple(steps["share"]), int(steps["events"].sum()))
