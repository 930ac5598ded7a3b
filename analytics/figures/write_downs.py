"""What of the stock was written down below its cost, and what of it was taken back, by month, product and reason.

Stock stands at the lower of cost and what it can still bring (IAS 2.9). At each month's end, product by product: what
has expired brings nothing (what came first is taken to leave first; a delivery's expires_on is its last good day); the
rest brings nothing where nothing but a count moved it for [stock] unsaleable_after_days; else a retail product brings
at most its typical price, the median without tax of the year before, and what of its cost lies above that is written
down. Colour, developer and all else that is used up at work keeps its cost until it expires or lies still (IAS 2.32).
Released is what was written down of stock that has left since, with the cost of that stock; any other decrease is
reversed (IAS 2.33), so that opening + written down − reversed − released = closing. Months are whole, however the
period is cut. A product whose cost is not known has no value and is not in it.
"""

import polars as pl

from analytics.definitions.results import GRAMS, MONEY, MONTH_KEY, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.product.stock_rows import StockRows

RESULT = Result(
    "one row per month, product and reason, where anything is or was written down",
    key=("month", "salon", "product_id", "reason"),
    columns={
        **MONTH_KEY,
        "salon": Column(TEXT, "the salon of a group; empty where there is one, or one stock for all of them"),
        "product_id": Column(TEXT, "the product"),
        "product": Column(TEXT, "its name"),
        "kind": Column(TEXT, "colour, developer, lightener, additive, retail"),
        "reason": Column(TEXT, "expired, no_movement or price"),
        "opening": Column(MONEY, "written down below cost by the start of the month"),
        "written_down": Column(MONEY, "written down in it"),
        "reversed": Column(MONEY, "taken back, because it can bring more again"),
        "released": Column(MONEY, "written down before, of stock that has left since"),
        "closing": Column(MONEY, "written down below cost by its end"),
        "grams": Column(GRAMS, "how much of the product that is"),
    },
)


def write_downs(stocked: StockRows, *, period: Period) -> pl.DataFrame:
    """One row per month of the period, product and reason; grams, money in the currency."""
    if stocked.nothing or period.empty:
        return RESULT.empty()
    months = period.months()
    rows = stocked.written_down(months[-1])
    shown = rows.filter(pl.col("month").is_in(months)).rename({"site": "salon"})
    return RESULT.shape(shown.sort("month", "salon", "product_id", "reason"))


def write_downs_rows(stocked: StockRows, *, period: Period) -> pl.DataFrame:
    """Every movement, up to the end of the period's last month, of a product that is or was written down in it."""
    book = stocked.ledger
    shown = write_downs(stocked, period=period)
    shelves = shown.select("product_id", site="salon").unique()
    ends = [Period.month(month).end for month in period.months()]
    until = book.filter(pl.col("at").dt.date() < ends[-1]) if ends else book.clear()
    return until.join(shelves, on=["site", "product_id"], how="semi", maintain_order="left")


FIGURE = Figure(write_downs, write_downs_rows, RESULT)
