"""Kaplan–Meier: the share still waiting after so long, counting those still out as still out.

Kaplan and Meier 1958, JASA 53:457–481, by scipy. The 95 % band is Greenwood's variance on the scale log(−log share), so
that it stays between 0 and 1.
"""

import warnings
from bisect import bisect_right
from dataclasses import dataclass

import polars as pl

BAND = 0.95


@dataclass(frozen=True)
class Waiting:
    """A step function: `share[i]` still wait from `days[i]` on, before the first day all do; `events` waits ended.

    low and high: the band of each step, None where it is not defined (all or none have come). longest: the longest
    wait seen, ended or not; beyond it nothing is known, unless nobody waits any more.
    """

    days: tuple[float, ...]
    share: tuple[float, ...]
    low: tuple[float | None, ...] = ()
    high: tuple[float | None, ...] = ()
    events: int = 0
    longest: float = 0.0

    def _place(self, day: float) -> int:
        return bisect_right(self.days, day) - 1

    def at(self, day: float) -> float:
        """Share still waiting after `day` days."""
        return self.share[place] if (place := self._place(day)) >= 0 else 1.0

    def ended(self, day: float) -> tuple[float | None, float | None, float | None]:
        """Share whose wait ended within `day` days, and its band; None where nobody was followed for so long."""
        place = self._place(day)
        if day > self.longest and not (self.share and self.share[-1] == 0):
            return None, None, None
        if place < 0:
            return 0.0, None, None
        low, high = self.low[place], self.high[place]
        return 1 - self.share[place], None if high is None else 1 - high, None if low is None else 1 - low

    @property
    def median(self) -> float | None:
        """First day on which half or fewer still wait; None where that was not reached."""
        half = 0.5 + 1e-12  # a product of fractions may miss the half by a hair
        return next((day for day, share in zip(self.days, self.share, strict=True) if share <= half), None)


def kaplan_meier(days: pl.Series, came: pl.Series) -> Waiting:
    """days: how long each waited (or has waited so far). came: True where the wait ended in a visit."""
    from scipy.stats import CensoredData, ecdf

    waits, came = days.cast(pl.Float64), came.cast(pl.Boolean)
    longest = float(waits.max() or 0.0)  # type: ignore[arg-type]
    if not came.any():
        return Waiting((), (), longest=longest)
    ended, still_out = waits.filter(came).to_numpy(), waits.filter(~came).to_numpy()
    curve = ecdf(CensoredData(uncensored=ended, right=still_out)).sf
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", "The confidence interval is undefined", RuntimeWarning)
        band = curve.confidence_interval(BAND, method="log-log")
    steps = (
        pl.DataFrame(
            {
                "days": curve.quantiles,
                "share": curve.probabilities,
                "low": band.low.probabilities,
                "high": band.high.probabilities,
            }
        )
        .with_columns(pl.col("low", "high").fill_nan(None))
        .filter(pl.col("share") < pl.col("share").shift(1, fill_value=1.0))
    )
    at, share, low, high = (tuple(steps[name]) for name in ("days", "share", "low", "high"))
    return Waiting(at, share, low, high, int(came.sum()), longest)
