"""The sheets of stock: purchases and closing stock by month, and what stands on the shelves by product."""

import polars as pl

from analytics.definitions.results import GRAMS, MONEY
from analytics.definitions.vocabulary import KINDS
from analytics.handover.accountant.period_rows import Gathered
from analytics.handover.accountant.sheets.sheet import AccountSheet, one_site
from analytics.money import rounded
from analytics.periods import Period, at_minute, month_of
from analytics.records.product.stock_ledger import ledger, stock_by_month
from analytics.records.product.stock_moves import SHELF, movements

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
    end = at_minute(Period.month(period.months()[-1]).end, 0)
    until = book.filter(pl.col("at") < end)
    shelves = (
        until.group_by(SHELF)
        .agg(
            pl.col("product", "kind").last(),
            grams=pl.col("level_g").last(),
            closing=(pl.col("received") - pl.col("issued")).sum(),
        )
        .sort(SHELF)
        .with_columns(closing=_rounded("closing", gathered.digits))
    )
    frame = (
        shelves.join(_bought(until, period, gathered.digits), on=SHELF, how="left")
        .with_columns(pl.col("purchases").fill_null(0), pl.col("grams").cast(GRAMS.dtype))
        .filter((pl.col("grams") != 0) | (pl.col("purchases") != 0) | (pl.col("closing") != 0))
        .sort("site", "kind", "product", "product_id")
        .with_columns(pl.col("kind").replace(KINDS))
        .select("site", "product", "kind", "purchases", "grams", "closing")
    )
    note = "What stands on the shelves by the book; a product whose cost is not known has no value."
    return AccountSheet("closing_stock", "Closing stock", one_site(frame), note, ("purchases", "closing"))


def _bought(book: pl.DataFrame, period: Period, digits: int) -> pl.DataFrame:
    """Deliveries of the months by product, rounded month by month, as the months' sums are."""
    deliveries = book.filter(pl.col("movement") == "delivery").with_columns(month=month_of(pl.col("at")))
    months = deliveries.filter(pl.col("month").is_in(period.months())).group_by("month", *SHELF)
    shared = months.agg(purchases=pl.col("received").sum()).sort("month", *SHELF)
    rows = shared.with_columns(purchases=_rounded("purchases", digits))
    return rows.group_by(SHELF).agg(pl.col("purchases").sum().cast(MONEY.dtype))


def _rounded(column: str, digits: int) -> pl.Expr:
    """Product by product, as the stock's own list is; what has no known cost has no value."""
    return rounded(pl.col(column).fill_null(0), digits).cast(MONEY.dtype)
