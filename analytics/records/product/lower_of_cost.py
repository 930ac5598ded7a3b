"""Stock at cost beside what of it is written down: by month, and by product at the end of a period."""

import polars as pl

from analytics.definitions.results import MONEY
from analytics.periods import Period
from analytics.records.product.closing_stock import closing_stock
from analytics.records.product.stock_ledger import stock_by_month
from analytics.records.product.stock_moves import SHELF

FLOWS = ("written_down", "reversed", "released")


def months_at_lower_of_cost(book: pl.DataFrame, written: pl.DataFrame, period: Period, digits: int) -> pl.DataFrame:
    """stock_by_month with FLOWS, allowance (written down below cost by the month's end) and carrying, the rest.

    written: records.write_downs of the same ledger.
    """
    sums = written.group_by("month").agg(pl.col(FLOWS).sum(), allowance=pl.col("closing").sum())
    return (
        stock_by_month(book, period, digits)
        .join(sums, on="month", how="left", maintain_order="left")
        .with_columns(pl.col(*FLOWS, "allowance").fill_null(0).cast(MONEY.dtype))
        .with_columns(carrying=(pl.col("closing") - pl.col("allowance")).cast(MONEY.dtype))
    )


def shelves_at_lower_of_cost(book: pl.DataFrame, written: pl.DataFrame, period: Period, digits: int) -> pl.DataFrame:
    """closing_stock with allowance and carrying, and how much there is in the unit it is counted in.

    unit: pieces of retail, grams of all else. quantity: never below nothing. short: how much more was taken than there
    was on record, since short_since; null where none. A retail product of which no pack is known is counted in grams.
    """
    allowance = written.filter(month=period.months()[-1]).group_by(SHELF).agg(allowance=pl.col("closing").sum())
    pieces = (pl.col("kind") == "retail") & (pl.col("pack_g") > 0)
    counted = pl.when(pieces.fill_null(False)).then(pl.col("grams") / pl.col("pack_g")).otherwise("grams")
    there = counted.cast(pl.Float64).round(3).cast(pl.Decimal(38, 3))
    return (
        closing_stock(book, period, digits)
        .join(allowance, on=SHELF, how="left", maintain_order="left")
        .with_columns(pl.col("allowance").fill_null(0).cast(MONEY.dtype))
        .with_columns(
            carrying=(pl.col("closing") - pl.col("allowance")).cast(MONEY.dtype),
            unit=pl.when(pieces.fill_null(False)).then(pl.lit("pieces")).otherwise(pl.lit("g")),
            quantity=there.clip(0),
            short=pl.when(there < 0).then(-there),
        )
    )
