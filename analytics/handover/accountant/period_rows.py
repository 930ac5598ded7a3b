"""The rows that a handover adds up, brought together once."""

from dataclasses import dataclass
from functools import cached_property

import polars as pl

from analytics.definitions.results import MONEY
from analytics.money import digits_of, rounded
from analytics.periods import Period
from analytics.records.chairs.lines import completed_lines
from analytics.records.money.settling import settled
from analytics.records.money.taxed import taxed_rows
from analytics.records.money.unsettled import unsettled
from analytics.records.product.retail import retail_rows
from analytics.salon import Salon
from analytics.settings import Settings

MINOR_SCALE = 4


@dataclass(frozen=True)
class Gathered:
    """Everything of the book, worked out without a period; `within` narrows rows to one.

    lines: completed lines. taxed, settlements, differences: rows of taxed, settling and unsettled in records/money.
    payments: with day, and the fee that is assumed where no payment states one.
    """

    salon: Salon

    @property
    def settings(self) -> Settings:
        return self.salon.settings

    @property
    def tables(self) -> dict[str, pl.DataFrame]:
        return self.salon.book.tables

    @cached_property
    def lines(self) -> pl.DataFrame:
        lines = completed_lines(self.tables["bookings"], self.tables["services"], self.settings)
        return lines.with_columns(day=pl.col("starts_at").dt.date())

    @cached_property
    def _retail(self) -> pl.DataFrame:
        return retail_rows(self.tables["sales"], self.tables["products"], self.settings)

    @cached_property
    def settlements(self) -> pl.DataFrame:
        return settled(self.lines, self._retail, self.tables["payments"])

    @cached_property
    def taxed(self) -> pl.DataFrame:
        return taxed_rows(self.lines, self._retail, self.settlements, self.settings)

    @cached_property
    def differences(self) -> pl.DataFrame:
        return unsettled(self.settlements, self.tables["bookings"], self.tables["payments"])

    @cached_property
    def payments(self) -> pl.DataFrame:
        return with_fees(self.tables["payments"], self.settings)

    @cached_property
    def digits(self) -> int:
        """Digits after the point of every amount: the currency's own, more where the exports themselves have more."""
        digits = digits_of(self.settings.salon.currency)
        amounts = [self.taxed["gross"], self.taxed["net"], self.lines["tip"], self.payments["amount"]]
        amounts += [self.payments["fee"], self.taxed["discount"]]
        finer = any(bool((series.round(digits) != series).any()) for series in amounts)
        return MINOR_SCALE if finer else digits


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


def within(rows: pl.DataFrame, period: Period, day: str = "day") -> pl.DataFrame:
    """The rows whose day lies in the period."""
    return rows.filter((pl.col(day) >= period.start) & (pl.col(day) < period.end))
