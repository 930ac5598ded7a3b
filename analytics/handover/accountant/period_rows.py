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

    money, stocked: the rows that figures of money and of stock start from.
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
        money, digits = self.money, digits_of(self.settings.salon.currency)
        amounts = [money.taxed["gross"], money.taxed["net"], money.lines["tip"], money.paid["amount"]]
        amounts += [money.paid["fee"], money.taxed["discount"], money.owed["owed"]]
        finer = any(bool((series.round(digits) != series).any()) for series in amounts)
        return MINOR_SCALE if finer else digits


def within(rows: pl.DataFrame, period: Period) -> pl.DataFrame:
    """The rows whose day lies in the period."""
    return rows.filter(period.holds(pl.col("day")))
