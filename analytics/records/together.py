"""Rows that several figures ask for, brought together of one salon's tables and settings."""

from collections.abc import Mapping
from typing import Any

import polars as pl

from analytics.records.money.money_rows import MoneyRows
from analytics.records.product.bowl_rows import BowlRows
from analytics.records.product.stock_rows import StockRows
from analytics.settings import Settings


def brought_together(tables: Mapping[str, pl.DataFrame], settings: Settings) -> dict[str, Any]:
    """What a figure may ask for beside tables, settings and days, under the name of its parameter."""
    kinds = {"money": MoneyRows, "mixed": BowlRows, "stocked": StockRows}
    return {name: kind(tables, settings) for name, kind in kinds.items()}
