"""What was paid, by month and method, refunds taken off, and what the payments cost the salon."""

import polars as pl

from analytics.definitions.results import RESULTS
from analytics.periods import Period, month_of


def takings(payments: pl.DataFrame, *, period: Period) -> pl.DataFrame:
    """One row per month and method; money in the currency."""
    return RESULTS["takings"].shape(
        takings_rows(payments, period=period)
        .group_by("month", "method")
        .agg(pl.col("amount").sum(), fees=pl.col("fee").sum())
        .sort("month", "method")
    )


def takings_rows(payments: pl.DataFrame, *, period: Period) -> pl.DataFrame:
    """The payments the figure adds up."""
    return (
        payments.filter(period.holds(pl.col("paid_at")))
        .with_columns(month=month_of(pl.col("paid_at")))
        .sort("paid_at", "file", "row")
    )
