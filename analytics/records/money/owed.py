"""What is owed to clients: vouchers sold and not used yet, and visits paid for before they happened."""

import polars as pl

from analytics.definitions.results import MONEY

MOVED = ("vouchers_sold", "vouchers_used", "deposits_in", "deposits_used")


def owed_by_day(settlements: pl.DataFrame, differences: pl.DataFrame) -> pl.DataFrame:
    """One row per day and site on which any of MOVED moved: MOVED, and owed, what is left of them all by then.

    settlements, differences: as settled and unsettled answer them. A deposit is what was paid for a visit ahead of its
    day; it is used on that day. What was owed before the records begin is not in it.
    """
    ahead = differences.filter(pl.col("cause") == "paid_ahead").select(
        "day", "site", deposits_in=pl.max_horizontal("difference", 0), deposits_used=-pl.min_horizontal("difference", 0)
    )
    moved = settlements.select("day", "site", "vouchers_sold", "vouchers_used")
    change = pl.col("vouchers_sold") - pl.col("vouchers_used") + pl.col("deposits_in") - pl.col("deposits_used")
    return (
        pl.concat([moved, ahead], how="diagonal_relaxed")
        .group_by("day", "site")
        .agg(pl.col(MOVED).fill_null(0).sum().cast(MONEY.dtype))
        .filter(pl.any_horizontal(pl.col(name) != 0 for name in MOVED))
        .sort("day", "site")
        .with_columns(owed=change.cum_sum().over("site", order_by="day").cast(MONEY.dtype))
    )
