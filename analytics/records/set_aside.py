"""Rows that could not be used, counted by cause, and by whether their own day lies in a period."""

import polars as pl

from analytics.periods import Period

DATED = pl.Enum(["inside", "outside", "undated"])
WHOLE = ("unknown_file", "unknown_table")  # findings that set a whole file or sheet aside
KEY = ["dated", "file", "table", "code", "column"]


def aside_by_cause(set_aside: pl.DataFrame, findings: pl.DataFrame, period: Period) -> pl.DataFrame:
    """One row per KEY: rows (how many), first (the number of the first of them) and which (all numbers, in order).

    set_aside, findings: those of the book. dated: the row's own day lies in the period, outside it, or cannot be read.
    A file or sheet that is set aside whole is a cause without rows.
    """
    whole = findings.filter(pl.col("code").is_in(WHOLE)).with_columns(
        table=pl.lit(""), column=pl.lit(None, pl.String), day=pl.lit(None, pl.Date)
    )
    dated = (
        pl.when(period.holds(pl.col("day")))
        .then(pl.lit("inside"))
        .when(pl.col("day").is_not_null())
        .then(pl.lit("outside"))
        .otherwise(pl.lit("undated"))
    )
    rows = pl.concat([part.select(*KEY[1:], "row", dated.cast(DATED).alias("dated")) for part in (set_aside, whole)])
    numbers = pl.col("row").drop_nulls()
    return (
        rows.group_by(KEY)
        .agg(rows=numbers.len().cast(pl.Int64), first=pl.col("row").min(), which=numbers.sort())
        .sort(KEY)
    )
