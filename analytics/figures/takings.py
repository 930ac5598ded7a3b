"""What was paid, by month and method, refunds taken off, and what the payments cost the salon.

Fees are those the payments state. Where no payment on record states one, assumed fees are [costs] card_fee_percent of
what was paid by card, rounded payment by payment; else they are 0. Refunds are the payments below 0, in the amount too.
"""

import polars as pl

from analytics.definitions.results import COUNT, MONEY, MONTH_KEY, TEXT, Column, Figure, Result
from analytics.periods import Period, month_of
from analytics.records.money.fees import paid_by
from analytics.records.money.money_rows import MoneyRows

RESULT = Result(
    "one row per month and method of payment",
    key=("month", "method"),
    columns={
        **MONTH_KEY,
        "method": Column(TEXT, "cash, card, bank, voucher or other"),
        "amount": Column(MONEY, "paid that way, refunds taken off"),
        "fees": Column(MONEY, "what those payments cost the salon"),
        "payments": Column(COUNT, "payments that way", "payments"),
        "refunds": Column(MONEY, "of the amount, what was paid back"),
        "assumed_fees": Column(MONEY, "card fees by the settings, where no payment states a fee"),
    },
)


def takings(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per month and method; money in the currency."""
    return RESULT.shape(paid_by(takings_rows(money, period=period), "month", "method"))


def takings_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The payments the figure adds up, each with the fee that is assumed where none is stated."""
    return (
        money.paid.filter(period.holds(pl.col("paid_at")))
        .with_columns(month=month_of(pl.col("paid_at")))
        .drop("day")
        .sort("paid_at", "file", "row")
    )


FIGURE = Figure(takings, takings_rows, RESULT)
