"""What stood on the shelves at the end of the period, product by product, and what was bought in it.

The months of the period are whole, and the end is that of the last of them. Purchases are deliveries at their cost.
Valued as `stock` is ([stock] valuation, IAS 2); each product is rounded by itself, so that the sums are those of
`stock_months`. Allowance is what of a product is written down below its cost (`write_downs`), carrying the rest. Stock
below nothing is no value but a finding: short says how much more was taken than there was on record, and since when; a
delivery or count of before that day is missing, or a row of that day is a slip. A product whose cost is not known has
no value. Products of which nothing is there and nothing was bought are left out. Without a delivery or count there are
no rows.
"""

import polars as pl

from analytics.definitions.results import DAY, GRAMS, MONEY, QUANTITY, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.product.lower_of_cost import shelves_at_lower_of_cost
from analytics.records.product.stock_rows import StockRows

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
        "allowance": Column(MONEY, "written down below cost"),
        "carrying": Column(MONEY, "at the lower of cost and what it can bring"),
        "quantity": Column(QUANTITY, "there at the end, in the unit it is counted in; never below nothing"),
        "unit": Column(TEXT, "pieces of retail, g of all else"),
        "short": Column(QUANTITY, "taken beyond what there was on record; empty where none"),
        "counted_on": Column(DAY, "day of its last count; empty where it was never counted"),
        "short_since": Column(DAY, "the day since when less than nothing is on record"),
    },
)


def closing_stock(stocked: StockRows, *, period: Period) -> pl.DataFrame:
    """One row per product at the end of the last month of the period; grams, money in the currency."""
    if stocked.nothing or period.empty:
        return RESULT.empty()
    written = stocked.written_down(period.months()[-1])
    shelves = shelves_at_lower_of_cost(stocked.ledger, written, period, stocked.digits)
    return RESULT.shape(shelves.rename({"site": "salon"}).sort("salon", "kind", "product_id", nulls_last=True))


def closing_stock_rows(stocked: StockRows, *, period: Period) -> pl.DataFrame:
    """Every movement up to the end of the last month of the period."""
    book = stocked.ledger
    months = [Period.month(month).end for month in period.months()]
    return book.filter(pl.col("at").dt.date() < months[-1]) if months else book.clear()


FIGURE = Figure(closing_stock, closing_stock_rows, RESULT)
