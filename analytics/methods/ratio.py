"""A share from a sample of bowls: total left ÷ total mixed, with a range for all bowls.

The ratio estimator R = Σ left ÷ Σ mixed of n sampled out of N has the variance
    (1 − n/N) · n/(n − 1) · Σ (left − R · mixed)² ÷ (Σ mixed)²
(Cochran 1977, Sampling Techniques, 6.3–6.4; from memory). The range takes Student's t with n − 1 degrees of freedom, so
that few bowls say little. Where all N were weighed there is nothing left to guess.
"""

import numpy as np
import polars as pl

COVERED = 0.8


def ratio_range(frame: pl.DataFrame, left: str, mixed: str) -> tuple[pl.Series, pl.Series]:
    """Low and high end of the 80 % range of R, cut to 0 and above; null for fewer than two bowls.

    frame: sums over the weighed bowls: n, <left>, <mixed>, and of squares and products <left>_2, <mixed>_2, <left>_x
    (left · mixed); `sampled` is n/N. All floats.
    """
    from scipy.special import stdtrit

    n, total = frame["n"].cast(pl.Float64).to_numpy(), frame[mixed].to_numpy()
    ratio = np.divide(frame[left].to_numpy(), total, out=np.full_like(total, np.nan), where=total > 0)
    apart = frame[f"{left}_2"] - 2 * ratio * frame[f"{left}_x"] + ratio**2 * frame[f"{mixed}_2"]
    more = np.where(n > 1, n - 1, np.nan)
    unseen = (1 - frame["sampled"].to_numpy()).clip(0)
    spread = np.sqrt(unseen * n / more * apart.to_numpy().clip(0))
    error = np.divide(spread, total, out=np.full_like(total, np.nan), where=total > 0)
    reach = stdtrit(more, (1 + COVERED) / 2) * error
    low, high = (pl.Series(ends, nan_to_null=True) for ends in ((ratio - reach).clip(0), ratio + reach))
    return low, high
