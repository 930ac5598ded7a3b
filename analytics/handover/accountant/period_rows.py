"""The rows that a handover adds up, brought together once."""

from dataclasses import dataclass
from functools import cached_property

import polars as pl

from analytics.money import digits_of
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.product.retail import retail_rows
from analytics.records.product.stock_ledger import ledger
from analytics.records.product.stock_lines import stock_lines
from analytics.records.product.stock_moves import movements
from analytics.records.product.write_downs import write_downs
from analytics.salon import Salon
from analytics.settings import Settings

MINOR_SCALE = 4


@dataclass(frozen=True)
class Gathered:
    """Everything of the book, worked out without a period; `within` narrows rows to one.

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

    @cached_property
    def stock_book(self) -> pl.DataFrame:
        """The ledger of stock; empty without a delivery or count."""
        given = self.tables
        moves = movements(given["stock_moves"], given["product_log"], given["sales"], given["products"])
        kept = moves.clear() if given["stock_moves"].is_empty() else moves
        return ledger(kept, self.settings.stock.valuation)

    def written_down(self, period: Period) -> pl.DataFrame:
        """records.write_downs up to the last month of the period."""
        sold = retail_rows(self.tables["sales"], self.tables["products"], self.settings)
        return write_downs(self.stock_book, sold, self.settings.stock, period.months()[-1], self.digits)

    def stock_lines(self, period: Period) -> pl.DataFrame:
        """records.stock_lines up to the last month of the period."""
        return stock_lines(self.stock_book, self.written_down(period), self.digits)

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
