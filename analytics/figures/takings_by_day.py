"""What was paid, by day and method, refunds taken off, and what the payments cost the salon.

The payments of `takings` day by day and salon by salon, those with vouchers too; fees and assumed fees as there.
"""

import polars as pl

from analytics.definitions.results import COUNT, DAY, MONEY, SITE_KEY, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.fees import paid_by
from analytics.records.money.money_rows import MoneyRows

RESULT = Result(
    "one row per day, site and method of payment",
    key=("day", "site", "method"),
    columns={
        "day": Column(DAY, "day of the payments"),
        **SITE_KEY,
        "method": Column(TEXT, "cash, card, bank, voucher or other"),
        "payments": Column(COUNT, "payments that way", "payments"),
        "amount": Column(MONEY, "paid that way, refunds taken off"),
        "refunds": Column(MONEY, "of the amount, what was paid back"),
        "fees": Column(MONEY, "what those payments cost the salon"),
        "assumed_fees": Column(MONEY, "card fees by the settings, where no payment states a fee"),
    },
)


def takings_by_day(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per day, site and method; money in the currency."""
    return RESULT.shape(paid_by(takings_by_day_rows(money, period=period), "day", "site", "method"))


def takings_by_day_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The payments the figure adds up, each with the fee that is assumed where none is stated."""
    return money.paid.filter(period.holds(pl.col("day"))).sort("paid_at", "file", "row")


FIGURE = Figure(takings_by_day, takings_by_day_rows, RESULT)
