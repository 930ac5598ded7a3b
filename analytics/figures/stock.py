"""What the shelf holds, what it is worth, and what the log cannot explain.

From one count to the next: what was counted + deliveries − mixed − sold − sent back − thrown away is what should be
there; what the next count finds missing is unexplained use (with a minus: found too much). It may well be bowls that
nobody logged, so the colour lines of that time and those with a bowl in the log stand beside it; unlogged_g is what
the others would have taken, were they like those logged, unlogged_cost the part of the missing product's cost that
this would be, and unaccounted_cost the rest. A product's first count sets its level and explains nothing
of the time before; what it then lacks even so is at least what was used unseen. The last stretch runs up to today.

Grams are those of the log and of stock moves; packs are grams ÷ grams in a pack of that day, and a retail item is a
pack. A count holds at its moment: deliveries of the same moment come before it; a count without a time of day is taken
at the end of its day, a delivery at its start. Stock is valued at cost as IAS 2 allows, by moving average or first in,
first out ([stock] valuation), deliveries at their unit_cost, else at the pack cost of that day; unexplained use has the
cost at which stock leaves. Stock below nothing (a delivery or count is missing) is worth nothing, and the next delivery
pays for it. Used is all else that left, so that opening value + delivered − used − unexplained = closing value to the
cent. A product that was never delivered nor counted has no known level.
"""

from datetime import date

import polars as pl

from analytics.definitions import results
from analytics.definitions.results import Column, Figure, Result
from analytics.money import rounded
from analytics.records.product.stock_explained import stock_explained
from analytics.records.product.stock_moves import SHELF
from analytics.records.product.stock_rows import StockRows

RESULT = Result(
    "one row per product and stretch between two counts, the last one up to today",
    key=("salon", "product_id", "stretch"),
    columns={
        "salon": Column(results.TEXT, "the salon of a group; empty where there is one, or one stock for all of them"),
        "product_id": Column(results.TEXT, "the product"),
        "product": Column(results.TEXT, "its name"),
        "kind": Column(results.TEXT, "colour, developer, lightener, additive, retail"),
        "from_on": Column(results.DAY, "day of the count it starts with; empty where it was not counted before"),
        "to_on": Column(results.DAY, "day of the count it ends with, or today"),
        "opening_g": Column(results.GRAMS, "there at the start: counted, or what the first count implies"),
        "delivered_g": Column(results.GRAMS, "delivered"),
        "mixed_g": Column(results.GRAMS, "mixed, by the log"),
        "sold_g": Column(results.GRAMS, "sold, pieces brought back taken off"),
        "returned_g": Column(results.GRAMS, "sent back to the supplier"),
        "discarded_g": Column(results.GRAMS, "thrown away"),
        "expected_g": Column(results.GRAMS, "what should be there at the end"),
        "counted_g": Column(results.GRAMS, "what was counted; empty for the stretch up to today"),
        "unexplained_g": Column(results.GRAMS, "missing at the count; before a first count at least so much, or empty"),
        "unexplained_packs": Column(results.NUMBER, "the same in packs of that day", "packs"),
        "unexplained_cost": Column(results.MONEY, "what it cost"),
        "unlogged_g": Column(
            results.GRAMS_WORKED_OUT, "what colour lines without a bowl would have taken, were they like the others"
        ),
        "closing_g": Column(results.GRAMS, "there at the end; below nothing where a delivery or count is missing"),
        "closing_packs": Column(results.NUMBER, "the same in packs of that day", "packs"),
        "opening_value": Column(results.MONEY, "stock at the start, at cost"),
        "delivered_cost": Column(results.MONEY, "deliveries, at cost"),
        "used_cost": Column(results.MONEY, "all that left but what is unexplained, at cost"),
        "closing_value": Column(results.MONEY, "stock at the end, at cost"),
        "colour_lines": Column(results.LINES, "completed colour lines of that time; empty for retail"),
        "colour_lines_logged": Column(results.LINES, "of these, lines with a bowl in the log"),
        "last_counted": Column(results.YES_NO, "the last stretch of the product that was counted at both ends"),
        "logged_share": Column(results.SHARE, "colour lines logged ÷ colour lines"),
        "unlogged_cost": Column(
            results.MONEY, "of the unexplained cost, what colour lines without a bowl would account for"
        ),
        "unaccounted_cost": Column(results.MONEY, "the rest of it"),
        "stretch": Column(results.COUNT, "its place among the product's stretches, the first is 1", "stretches"),
    },
    for_people=(
        "product",
        "from_on",
        "to_on",
        "expected_g",
        "counted_g",
        "unexplained_packs",
        "unexplained_cost",
        "closing_packs",
        "closing_value",
        "colour_lines",
        "colour_lines_logged",
    ),
)


def stock(stocked: StockRows, *, as_of: date) -> pl.DataFrame:
    """One row per product and stretch between two counts, the last one up to today; grams, money in the currency."""
    explained = stock_explained(stocked, as_of).with_columns(pl.col("stretch").rank("dense").over(SHELF))
    return RESULT.shape(explained.rename({"site": "salon"}).sort("salon", "product_id", "stretch"))


def stock_rows(stocked: StockRows, *, as_of: date) -> pl.DataFrame:
    """Every movement up to today with the grams and the value it leaves on the shelf."""
    digits = stocked.digits
    return stocked.ledger.filter(pl.col("at").dt.date() <= as_of).select(
        *(*SHELF, "product", "kind", "at", "movement", "grams", "change_g", "level_g"),
        change_value=rounded(pl.col("received") - pl.col("issued"), digits),
        value=rounded(pl.col("value"), digits),
        file="file",
        row="row",
    )


FIGURE = Figure(stock, stock_rows, RESULT)
