"""What stands on the shelves at the end of a period, product by product, and what was bought in it."""

import polars as pl

from analytics.definitions.results import GRAMS, MONEY
from analytics.money import rounded
from analytics.periods import Period, at_minute, month_of
from analytics.records.product.stock_moves import SHELF


def closing_stock(book: pl.DataFrame, period: Period, digits: int) -> pl.DataFrame:
    """Of a ledger, one row per shelf with anything on it or bought in the months of the period, at their end.

    product, kind, pack_g, purchases (deliveries of the months at cost), grams, closing (value, cost by cost to
    `digits`): the parts add up to stock_by_month. short_since: the day since when less than nothing is on record;
    counted_on: that of the last count. A product whose cost is not known has no value.
    """
    end = at_minute(Period.month(period.months()[-1]).end, 0)
    until = book.filter(pl.col("at") < end)
    shelves = (
        until.group_by(SHELF)
        .agg(
            pl.col("product", "kind", "pack_g").last(),
            grams=pl.col("level_g").last(),
            closing=(pl.col("received") - pl.col("issued")).sum(),
            short_since=_short_since(),
            counted_on=pl.col("at").filter(pl.col("movement") == "count").max().dt.date(),
        )
        .sort(SHELF)
        .with_columns(closing=_rounded("closing", digits))
    )
    return (
        shelves.join(_bought(until, period, digits), on=SHELF, how="left")
        .with_columns(pl.col("purchases").fill_null(0), pl.col("grams").cast(GRAMS.dtype))
        .filter((pl.col("grams") != 0) | (pl.col("purchases") != 0) | (pl.col("closing") != 0))
        .sort("site", "kind", "product", "product_id")
    )


def _bought(book: pl.DataFrame, period: Period, digits: int) -> pl.DataFrame:
    """Deliveries of the months by product, rounded month by month, as the months' sums are."""
    deliveries = book.filter(pl.col("movement") == "delivery").with_columns(month=month_of(pl.col("at")))
    months = deliveries.filter(pl.col("month").is_in(period.months())).group_by("month", *SHELF)
    shared = months.agg(purchases=pl.col("received").sum()).sort("month", *SHELF)
    rows = shared.with_columns(purchases=_rounded("purchases", digits))
    return rows.group_by(SHELF).agg(pl.col("purchases").sum().cast(MONEY.dtype))


def _short_since() -> pl.Expr:
    """The day of the movement that took the level below nothing, where it still is."""
    below = pl.col("level_g") < 0
    spell = (below != below.shift(1, fill_value=False)).cum_sum()
    return pl.when(below.last()).then(pl.col("at").filter(spell == spell.last()).first().dt.date())


def _rounded(column: str, digits: int) -> pl.Expr:
    """Product by product, as the stock's own list is; what has no known cost has no value."""
    return rounded(pl.col(column).fill_null(0), digits).cast(MONEY.dtype)
