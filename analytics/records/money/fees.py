"""What payments cost: the fees they state, or what the settings assume."""

import polars as pl

from analytics.definitions.results import MONEY
from analytics.money import digits_of, rounded
from analytics.settings import Settings


def with_fees(payments: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """Payments with day, fee and assumed_fee: [costs] card_fee_percent of card payments, where no payment of the book
    states a fee."""
    stated = (payments["fee"] != 0).any()
    percent = pl.lit(settings.costs.card_fee_percent, pl.Decimal(18, 8))
    exact = pl.col("amount").cast(pl.Decimal(38, 8)) * percent / 100
    assumed = pl.lit(0) if stated else pl.when(pl.col("method") == "card").then(exact).otherwise(0)
    digits = digits_of(settings.salon.currency)
    return payments.with_columns(
        day=pl.col("paid_at").dt.date(), assumed_fee=rounded(assumed.cast(pl.Decimal(38, 10)), digits).cast(MONEY.dtype)
    )


def paid_by(payments: pl.DataFrame, *by: str) -> pl.DataFrame:
    """Of payments as with_fees has them, per by…: payments, amount, refunds (the part of it below 0), fees and
    assumed_fees."""
    amount = pl.col("amount")
    return (
        payments.group_by(by)
        .agg(
            payments=pl.len(),
            amount=amount.sum(),
            refunds=amount.filter(amount < 0).sum(),
            fees=pl.col("fee").sum(),
            assumed_fees=pl.col("assumed_fee").sum(),
        )
        .sort(by)
    )
