"""What moved on the shelves, brought together once for all figures of stock."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import polars as pl

from analytics.money import digits_of
from analytics.records.chairs.lines import completed_lines
from analytics.records.product.bowls import colour_lines
from analytics.records.product.retail import retail_rows
from analytics.records.product.stock_ledger import ledger
from analytics.records.product.stock_lines import stock_lines
from analytics.records.product.stock_moves import movements
from analytics.records.product.write_downs import write_downs
from analytics.settings import Settings


@dataclass(frozen=True)
class StockRows:
    """The rows of all days on record, each worked out when it is first asked for.

    movements and ledger: as stock_moves and stock_ledger in this folder answer them; nothing: whether no delivery or
    count is among them. sold: retail rows. colour_lines: completed lines that a log of bowls covers.
    """

    tables: Mapping[str, pl.DataFrame]
    settings: Settings

    @property
    def nothing(self) -> bool:
        return self.tables["stock_moves"].is_empty()

    @property
    def digits(self) -> int:
        return digits_of(self.settings.salon.currency)

    @cached_property
    def movements(self) -> pl.DataFrame:
        return movements(*(self.tables[name] for name in ("stock_moves", "product_log", "sales", "products")))

    @cached_property
    def ledger(self) -> pl.DataFrame:
        return ledger(self.movements, self.settings.stock.valuation)

    @cached_property
    def sold(self) -> pl.DataFrame:
        return retail_rows(self.tables["sales"], self.tables["products"], self.settings)

    @cached_property
    def colour_lines(self) -> pl.DataFrame:
        lines = completed_lines(self.tables["bookings"], self.tables["services"], self.settings)
        return colour_lines(lines, self.tables["product_log"])

    def written_down(self, last_month: str) -> pl.DataFrame:
        """What was written down below cost, and taken back, by month up to this one."""
        return write_downs(self.ledger, self.sold, self.settings.stock, last_month, self.digits)

    def lines(self, last_month: str) -> pl.DataFrame:
        """What every movement is worth, to the cent, up to this month: rows of stock_lines."""
        return stock_lines(self.ledger, self.written_down(last_month), self.digits)
