"""The individuals chart: how far a monthly number usually wobbles.

Limits are mean ± 2.66 × mean moving range (NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.2).
"""

import polars as pl

WIDTH = 2.66  # 3 ÷ 1.128, for ranges of two neighbouring values


def usual_before(values: pl.Expr, months: int) -> tuple[pl.Expr, pl.Expr]:
    """Limits from the `months` values before each value, of a column in order of time; null where one is missing."""
    before = values.shift(1)
    mean = before.rolling_mean(months)
    reach = before.diff().abs().rolling_mean(months - 1) * WIDTH
    return mean - reach, mean + reach
