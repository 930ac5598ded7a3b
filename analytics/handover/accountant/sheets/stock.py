"""The sheets of stock: purchases and closing stock by month, and what stands on the shelves by product."""

import polars as pl

from analytics.definitions.results import MONEY
from analytics.definitions.vocabulary import KINDS
from analytics.handover.accountant.period_rows import Gathered
from analytics.handover.accountant.sheets.sheet import AccountSheet, one_site
from analytics.periods import Period
from analytics.records.product.closing_stock import closing_stock
from analytics.records.product.stock_ledger import ledger, stock_by_month
from analytics.records.product.stock_moves import movements

VALUATIONS = {"average": "moving average", "fifo": "first in, first out"}


def stock_sheets(gathered: Gathered, period: Period) -> list[AccountSheet]:
    """By month of the period, and by product at its end; without deliveries or counts both are empty."""
    tables, settings = gathered.tables, gathered.settings
    moves = movements(tables["stock_moves"], tables["product_log"], tables["sales"], tables["products"])
    nothing = tables["stock_moves"].is_empty()
    book = ledger(moves.clear() if nothing else moves, settings.stock.valuation)
    return [_months(book, period, gathered), _products(book, period, gathered)]


def _months(book: pl.DataFrame, period: Period, gathered: Gathered) -> AccountSheet:
    without = "{opening}+{found}+{purchases}-{used}"
    months = stock_by_month(book, period, gathered.digits)
    frame = months.clear() if book.is_empty() else months
    names = ("opening", "found", "purchases", "used", "unexplained", "closing")
    shown = frame.with_columns(pl.col(names).cast(MONEY.dtype))
    note = (
        "No deliveries or counts are in the exports."
        if book.is_empty()
        else f"At cost without tax, by {VALUATIONS[gathered.settings.stock.valuation]} (IAS 2); whole months."
    )
    sums = ("found", "purchases", "used", "unexplained")
    return AccountSheet("stock", "Purchases and stock", shown, note, sums, checks=(("closing", without),))


def _products(book: pl.DataFrame, period: Period, gathered: Gathered) -> AccountSheet:
    """What was bought in the months of the period and what stands there at their end; parts add up to the months'."""
    columns = ["site", "product", "kind", "purchases", "grams", "closing"]
    shelves = closing_stock(book, period, gathered.digits).with_columns(pl.col("kind").replace(KINDS)).select(columns)
    note = "What stands on the shelves, on record; a product whose cost is not known has no value."
    return AccountSheet("closing_stock", "Closing stock", one_site(shelves), note, ("purchases", "closing"))
