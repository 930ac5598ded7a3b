"""How much of what stands on a shelf at the end of each month has expired, and what it cost."""

import polars as pl

from analytics.money import EXACT
from analytics.records.product.stock_moves import SHELF


def expired_stock(book: pl.DataFrame, ends: pl.DataFrame, valuation: str) -> pl.DataFrame:
    """Per shelf and month in which anything of it has expired: expired_g and expired_cost, exact.

    book: a ledger. ends: per shelf and month, its end (a moment, the first after it), level_g and value then. What came
    first is taken to leave first; a delivery expires with the last day on which it may be used. By moving average what
    has expired has the average cost of the shelf, by "fifo" that of its delivery.
    """
    came = (
        book.filter(pl.col("change_g") > 0)
        .with_columns(until_g=pl.col("change_g").cum_sum().over(SHELF))
        .select(*SHELF, "at", "change_g", "until_g", "expires_on", cost="received")
    )
    whole = ends.join_where(came.rename({name: f"_{name}" for name in SHELF}), *_arrived())
    gone = pl.col("until_g").max().over(*SHELF, "month") - pl.col("level_g")
    held = pl.col("until_g") - pl.max_horizontal(pl.col("until_g") - pl.col("change_g"), gone)
    expired = pl.col("expires_on") < pl.col("end").dt.date()
    return (
        whole.with_columns(held_g=held.clip(0))
        .filter(expired & (pl.col("held_g") > 0) & pl.col("value").is_not_null())
        .with_columns(_lot=pl.col("cost").cast(EXACT) * _share("held_g", "change_g"))
        .group_by(*SHELF, "month")
        .agg(pl.col("held_g").sum().alias("expired_g"), pl.col("_lot").sum(), pl.col("level_g", "value").first())
        .with_columns(expired_cost=_cost(valuation))
        .select(*SHELF, "month", "expired_g", "expired_cost")
        .sort(*SHELF, "month")
    )


def _arrived() -> list[pl.Expr]:
    of_the_shelf = [pl.col(name) == pl.col(f"_{name}") for name in SHELF]
    return [*of_the_shelf, pl.col("at") < pl.col("end")]


def _cost(valuation: str) -> pl.Expr:
    """Never more than the shelf is worth, and all of it where all of it has expired."""
    average = pl.col("value").cast(EXACT) * _share("expired_g", "level_g")
    cost = average if valuation == "average" else pl.col("_lot")
    return pl.when(pl.col("expired_g") >= pl.col("level_g")).then("value").otherwise(pl.min_horizontal(cost, "value"))


def _share(part: str, whole: str) -> pl.Expr:
    return pl.col(part).cast(EXACT) / pl.col(whole).cast(EXACT)
