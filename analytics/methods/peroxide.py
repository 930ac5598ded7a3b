"""Strength of hydrogen peroxide in a bowl, by parts.

A mix of grams g_i of strength s_i percent has Σ g_i · s_i ÷ Σ g_i percent; what holds no peroxide counts with 0.
Volumes are labels: 3, 6, 9 and 12 % are sold as 10, 20, 30 and 40 volume (common practice, no source; 10 volume works
out at 3.035 % w/v and 40 at 12.14 %). Ready-for-use hair products hold at most 12 % (Regulation (EC) No 1223/2009,
Annex III, entry 12, as amended by (EU) 2019/831).
"""

import polars as pl

LIMIT_PERCENT = 12.0
VOLUMES = {3.0: 10, 6.0: 20, 9.0: 30, 12.0: 40}


def strength(grams: pl.Expr, percent: pl.Expr, total_g: pl.Expr) -> pl.Expr:
    """Percent of a mix, an aggregate: peroxide of the parts (null where a part's percent is null) ÷ all grams."""
    unknown = (grams > 0) & percent.is_null()
    peroxide = (grams.cast(pl.Float64) * percent).sum() / total_g.cast(pl.Float64)
    return pl.when(~unknown.any() & (total_g > 0)).then(peroxide)


def too_strong(percent: pl.Expr) -> pl.Expr:
    """True above the limit; a mix of exactly the limit is within it."""
    return percent > LIMIT_PERCENT + 1e-9
