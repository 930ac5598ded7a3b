"""What a handover reads of the salon: figures of its days, and the rows they are worked out from."""

from dataclasses import dataclass
from functools import cached_property

import polars as pl

from analytics.money import digits_of
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.product.stock_rows import StockRows
from analytics.salon import Salon
from analytics.settings import Settings

MINOR_SCALE = 4


@dataclass(frozen=True)
class Gathered:
    """Rows of the book without a period, which `within` narrows to one, and figures of a period.

    money: the rows that figures of money start from; lines, taxed, settlements, differences and payments (there: paid)
    are some of them.
    """

    salon: Salon

    @property
    def settings(self) -> Settings:
        return self.salon.settings

    @property
    def tables(self) -> dict[str, pl.DataFrame]:
        return self.salon.book.tables

    @property
    def money(self) -> MoneyRows:
        money: MoneyRows = self.salon.together["money"]
        return money

    @property
    def lines(self) -> pl.DataFrame:
        return self.money.lines

    @property
    def settlements(self) -> pl.DataFrame:
        return self.money.settlements

    @property
    def taxed(self) -> pl.DataFrame:
        return self.money.taxed

    @property
    def differences(self) -> pl.DataFrame:
        return self.money.differences

    @property
    def payments(self) -> pl.DataFrame:
        return self.money.paid

    @property
    def stocked(self) -> StockRows:
        stocked: StockRows = self.salon.together["stocked"]
        return stocked

    def figure(self, name: str, period: Period) -> pl.DataFrame:
        """The figure of exactly these days."""
        return self.salon.figure_of_days(name, period)

    def rows(self, name: str, period: Period) -> pl.DataFrame:
        """The rows that it adds up."""
        return self.salon.rows_of_days(name, period)

    @cached_property
    def digits(self) -> int:
        """Digits after the point of every amount: the currency's own, more where the exports themselves have more."""
        digits = digits_of(self.settings.salon.currency)
        amounts = [self.taxed["gross"], self.taxed["net"], self.lines["tip"], self.payments["amount"]]
        amounts += [self.payments["fee"], self.taxed["discount"], self.money.owed["owed"]]
        finer = any(bool((series.round(digits) != series).any()) for series in amounts)
        return MINOR_SCALE if finer else digits


def within(rows: pl.DataFrame, period: Period, day: str = "day") -> pl.DataFrame:
    """The rows whose day lies in the period."""
    return rows.filter((pl.col(day) >= period.start) & (pl.col(day) < period.end))
