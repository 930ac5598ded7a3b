"""How good a forecast was: the distance between what was said and what came.

CRPS, the continuous ranked probability score, is the integral of (said − came)² over all days, where said is the
probability to have come by a day and came is 0 before the day she came and 1 from it on; in days, and the absolute
error where only one day is named. It is lowest for who says what is true (Gneiting and Raftery 2007, JASA 102:359–378).
"""

import numpy as np
import polars as pl
from numpy.typing import NDArray

Array = NDArray[np.float64]


def crps(chances: NDArray[np.floating], came: NDArray[np.int64]) -> Array:
    """Per row, in steps. chances: probability of each step. came: number of the step that happened, from 0."""
    by_then = np.cumsum(chances, axis=1, dtype=np.float64)
    happened = np.arange(chances.shape[1]) >= came[:, None]
    out: Array = ((by_then - happened) ** 2).sum(axis=1)
    return out


def pinball(said: pl.Expr, came: pl.Expr, share: float) -> pl.Expr:
    """The loss of a quantile: share × what it fell short by, or (1 − share) × what it was too high by (Koenker and
    Bassett 1978, Econometrica 46:33–50). Lowest on average where a share of what came lies below what was said."""
    return pl.max_horizontal(share * (came - said), (share - 1) * (came - said))


def mean_scaled_error(said: pl.Expr, came: pl.Expr, naive: pl.Expr) -> pl.Expr:
    """MASE: the mean of absolute errors, each ÷ the mean absolute error that a naive forecast had on what was known
    when it was made (Hyndman & Koehler 2006, International Journal of Forecasting 22:679–688). Below 1 is better than
    the naive forecast was on the past. Where that is unknown or nothing, an error does not count."""
    return pl.when(naive > 0).then((came - said).abs() / naive).mean()
