"""What was bought, what was used and what stood on the shelves at cost, month by month, all products together.

Valued as `stock` is ([stock] valuation, IAS 2), each product rounded by itself so that the months are the sums of its
list. Purchases are deliveries at their cost. Found is stock that was there before its first delivery or count was
written down. Used is all that left the shelves, mixed, sold, sent back, thrown away or, at a count, missing;
unexplained is the part of it that counts found missing, what they found too much taken off. So opening + found +
purchases − used = closing to the cent. Written down, reversed and released are those of `write_downs`: carrying is
closing, which is at cost, less what is written down below it (allowance), so that stock stands at the lower of cost and
what it can still bring. All of it is recorded stock: what deliveries, counts, bowls and sales leave; what is probably
there, with the bowls nobody logged, is estimated by `shelf` and stands in no account. Months are whole, however the
period is cut. A product whose cost is not known is in none of it. Without a delivery or count there are no rows.
"""

import polars as pl

from analytics.definitions.results import COUNT, MONEY, MONTH_KEY, Column, Figure, Result
from analytics.money import rounded
from analytics.periods import Period, month_of
from analytics.records.product.lower_of_cost import months_at_lower_of_cost
from analytics.records.product.stock_moves import SHELF
from analytics.records.product.stock_rows import StockRows

RESULT = Result(
    "one row per month",
    key=("month",),
    columns={
        **MONTH_KEY,
        "opening": Column(MONEY, "stock at the start, at cost"),
        "found": Column(MONEY, "there before its first delivery or count"),
        "purchases": Column(MONEY, "deliveries, at cost"),
        "used": Column(MONEY, "all that left the shelves, at cost"),
        "unexplained": Column(MONEY, "of it, what counts found missing"),
        "closing": Column(MONEY, "stock at the end, at cost"),
        "written_down": Column(MONEY, "written down below cost in the month"),
        "reversed": Column(MONEY, "taken back of what was written down"),
        "released": Column(MONEY, "written down before, of stock that left in the month"),
        "allowance": Column(MONEY, "written down below cost by the end"),
        "carrying": Column(MONEY, "stock at the end, at the lower of cost and what it can bring"),
        "without_cost": Column(COUNT, "products whose cost is not known, in none of these sums", "products"),
    },
)


def stock_months(stocked: StockRows, *, period: Period) -> pl.DataFrame:
    """One row per month of the period; money in the currency."""
    if stocked.nothing or period.empty:
        return RESULT.empty()
    written = stocked.written_down(period.months()[-1])
    return RESULT.shape(months_at_lower_of_cost(stocked.ledger, written, period, stocked.digits))


def stock_months_rows(stocked: StockRows, *, period: Period) -> pl.DataFrame:
    """The movements of the months with the grams and the value they bring and take."""
    book = stocked.ledger
    month, digits = month_of(pl.col("at")), stocked.digits
    return book.filter(month.is_in(period.months())).select(
        *SHELF,
        "product",
        "at",
        "movement",
        "grams",
        "file",
        "row",
        change_value=rounded(pl.col("received") - pl.col("issued"), digits),
    )


FIGURE = Figure(stock_months, stock_months_rows, RESULT)
