"""The order-up-to level of a periodic review: what has to be there, or on its way, after ordering.

    level = mean × weeks + z × sd × √weeks,   z = the standard normal quantile of the service level,
weeks being those until the order after this one has arrived, and weeks independent of each other (Snyder and Shen,
Fundamentals of Supply Chain Theory, section 4.3; for one period it is the newsvendor level).
"""

from statistics import NormalDist

import polars as pl


def order_up_to(mean: pl.Expr, sd: pl.Expr, weeks: float, service_level: float) -> pl.Expr:
    """The level, in the unit of mean and sd, which are per week; never less than nothing."""
    z = NormalDist().inv_cdf(service_level)
    level: pl.Expr = mean * weeks + z * weeks**0.5 * sd
    return level.clip(0)


def packs_to(level: pl.Expr, there: pl.Expr, pack: pl.Expr) -> pl.Expr:
    """Whole packs that bring what is there to the level; 0 where it is there already."""
    return ((level - there) / pack - 1e-9).ceil().clip(0).cast(pl.Int64)
