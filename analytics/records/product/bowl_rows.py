"""What was mixed, and the lines it was mixed for, brought together once for all figures of bowls."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import polars as pl

from analytics.records.chairs.lines import completed_lines
from analytics.records.product.bowls import colour_lines, placed_log, priced_log
from analytics.records.product.mixes import log_by_bowl
from analytics.settings import Settings


@dataclass(frozen=True)
class BowlRows:
    """The rows of all days on record, each worked out when it is first asked for.

    lines: completed lines; colour_lines: those that a log of bowls covers. priced, placed, by_bowl: the log as
    priced_log, placed_log and log_by_bowl in this folder answer it.
    """

    tables: Mapping[str, pl.DataFrame]
    settings: Settings

    @cached_property
    def lines(self) -> pl.DataFrame:
        return completed_lines(self.tables["bookings"], self.tables["services"], self.settings)

    @cached_property
    def colour_lines(self) -> pl.DataFrame:
        return colour_lines(self.lines, self.tables["product_log"])

    @cached_property
    def priced(self) -> pl.DataFrame:
        return priced_log(self.tables["product_log"], self.tables["products"])

    @cached_property
    def placed(self) -> pl.DataFrame:
        return placed_log(*self._of_bowls)

    @cached_property
    def by_bowl(self) -> pl.DataFrame:
        return log_by_bowl(*self._of_bowls)

    @property
    def _of_bowls(self) -> list[pl.DataFrame]:
        return [self.tables[name] for name in ("product_log", "products", "bookings", "services")]
