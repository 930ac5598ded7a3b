"""What was paid, by month and method, refunds taken off, and what the payments cost the salon."""

import polars as pl

from analytics.definitions.results import MONEY, MONTH_KEY, TEXT, Column, Figure, Result
from analytics.periods import Period, month_of

RESULT = Result(
    "one row per month and method of payment",
    key=("month", "method"),
    columns={
        **MONTH_KEY,
        "method": Column(TEXT, "cash, card, bank, voucher or other"),
        "amount": Column(MONEY, "paid that way, refunds taken off"),
        "fees": Column(MONEY, "what those payments cost the salon"),
    },
)


def takings(payments: pl.DataFrame, *, period: Period) -> pl.DataFrame:
    """One row per month and method; money in the currency."""
    return RESULT.shape(
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


FIGURE = Figure(takings, takings_rows, RESULT)
