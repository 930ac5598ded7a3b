"""What stood on the shelves at the end of the period, product by product, at cost, and what was bought in it.

The months of the period are whole, and the end is that of the last of them. Purchases are deliveries at their cost.
Valued as `stock` is ([stock] valuation, IAS 2); each product is rounded by itself, so that the sums are those of
`stock_months`. A product whose cost is not known has no value. Products of which nothing is there and nothing was
bought are left out. Without a delivery or count there are no rows.
"""

import polars as pl

from analytics.definitions.results import GRAMS, MONEY, TEXT, Column, Figure, Result
from analytics.money import digits_of
from analytics.periods import Period
from analytics.records.product.closing_stock import closing_stock as shelves_at_the_end
from analytics.records.product.stock_ledger import ledger
from analytics.records.product.stock_moves import movements
from analytics.settings import Settings

RESULT = Result(
    "one row per product",
    key=("salon", "product_id"),
    columns={
        "salon": Column(TEXT, "the salon of a group; empty where there is one, or one stock for all of them"),
        "product_id": Column(TEXT, "the product"),
        "product": Column(TEXT, "its name"),
        "kind": Column(TEXT, "colour, developer, lightener, additive, retail"),
        "purchases": Column(MONEY, "deliveries of the months, at cost"),
        "grams": Column(GRAMS, "there at the end; below nothing where a delivery or count is missing"),
        "closing": Column(MONEY, "what it is worth, at cost"),
    },
)


def closing_stock(
    product_log: pl.DataFrame,
    products: pl.DataFrame,
    sales: pl.DataFrame,
    stock_moves: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
) -> pl.DataFrame:
    """One row per product at the end of the last month of the period; grams, money in the currency."""
    if stock_moves.is_empty() or period.empty:
        return RESULT.empty()
    book = ledger(movements(stock_moves, product_log, sales, products), settings.stock.valuation)
    shelves = shelves_at_the_end(book, period, digits_of(settings.salon.currency))
    return RESULT.shape(shelves.rename({"site": "salon"}).sort("salon", "kind", "product_id", nulls_last=True))


def closing_stock_rows(
    product_log: pl.DataFrame,
    products: pl.DataFrame,
    sales: pl.DataFrame,
    stock_moves: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
) -> pl.DataFrame:
    """Every movement up to the end of the last month of the period."""
    book = ledger(movements(stock_moves, product_log, sales, products), settings.stock.valuation)
    months = [Period.month(month).end for month in period.months()]
    return book.filter(pl.col("at").dt.date() < months[-1]) if months else book.clear()


FIGURE = Figure(closing_stock, closing_stock_rows, RESULT)
