"""Time on a chair: the union of overlapping intervals, and what of it lies within spans.

The union of [1,3] [2,6] [8,10] [15,18] has length 10, not 11.
"""

import polars as pl

HOUR_US = 3_600_000_000
HOUR_NS = 1000 * HOUR_US


def union(intervals: pl.DataFrame, by: list[str]) -> pl.DataFrame:
    """Overlapping or touching intervals of each group joined into one: by…, starts, ends. Empty ones are dropped."""
    return (
        intervals.filter(pl.col("ends") > pl.col("starts"))
        .sort(*by, "starts", "ends")
        .with_columns(_reach=pl.col("ends").cum_max().shift(1).over(by))
        .with_columns(_run=(pl.col("starts") > pl.col("_reach")).fill_null(False).cast(pl.Int64).cum_sum().over(by))
        .group_by(*by, "_run")
        .agg(pl.col("starts").min(), pl.col("ends").max())
        .sort(*by, "starts")
        .drop("_run")
    )


def within(intervals: pl.DataFrame, spans: pl.DataFrame) -> pl.DataFrame:
    """The parts of intervals (starts, ends) that lie in spans (opens, closes), with the columns of both."""
    return (
        intervals.join_where(spans, pl.col("starts") < pl.col("closes"), pl.col("ends") > pl.col("opens"))
        .with_columns(
            starts=pl.max_horizontal("starts", "opens"),
            ends=pl.min_horizontal("ends", "closes"),
        )
        .drop("opens", "closes")
    )


def total_hours(length: pl.Expr) -> pl.Expr:
    """The sum of hours, added up in whole nanoseconds: the same bits in whatever order, by however many threads."""
    return (length * HOUR_NS).round().cast(pl.Int64).sum() / HOUR_NS


def hours(starts: pl.Expr, ends: pl.Expr) -> pl.Expr:
    """Length in hours."""
    return (ends - starts).dt.total_microseconds() / HOUR_US
