"""What the shelf holds, what it is worth, and what the log cannot explain.

From one count to the next: what was counted + deliveries − mixed − sold − sent back − thrown away is what should be
there; what the next count finds missing is unexplained use (with a minus: found too much). It may well be bowls that
nobody logged, so the colour lines of that time and those with a bowl in the log stand beside it; unlogged_g is what
the others would have taken, were they like those logged. A product's first count sets its level and explains nothing
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

from analytics.definitions.results import (
    DAY,
    GRAMS,
    GRAMS_WORKED_OUT,
    LINES,
    MONEY,
    NUMBER,
    TEXT,
    Column,
    Figure,
    Result,
)
from analytics.money import digits_of, rounded
from analytics.records.chairs.lines import completed_lines
from analytics.records.product.bowls import colour_lines
from analytics.records.product.stock_ledger import ledger
from analytics.records.product.stock_moves import SHELF, movements
from analytics.records.product.stock_stretches import stretches
from analytics.settings import Settings

RESULT = Result(
    "one row per product and stretch between two counts, the last one up to today",
    key=("salon", "product_id", "from_on", "to_on"),
    columns={
        "salon": Column(TEXT, "the salon of a group; empty where there is one, or one stock for all of them"),
        "product_id": Column(TEXT, "the product"),
        "product": Column(TEXT, "its name"),
        "kind": Column(TEXT, "colour, developer, lightener, additive, retail"),
        "from_on": Column(DAY, "day of the count it starts with; empty where it was not counted before"),
        "to_on": Column(DAY, "day of the count it ends with, or today"),
        "opening_g": Column(GRAMS, "there at the start: counted, or what the first count implies"),
        "delivered_g": Column(GRAMS, "delivered"),
        "mixed_g": Column(GRAMS, "mixed, by the log"),
        "sold_g": Column(GRAMS, "sold, pieces brought back taken off"),
        "returned_g": Column(GRAMS, "sent back to the supplier"),
        "discarded_g": Column(GRAMS, "thrown away"),
        "expected_g": Column(GRAMS, "what should be there at the end"),
        "counted_g": Column(GRAMS, "what was counted; empty for the stretch up to today"),
        "unexplained_g": Column(GRAMS, "missing at the count; before a first count at least so much, or empty"),
        "unexplained_packs": Column(NUMBER, "the same in packs of that day", "packs"),
        "unexplained_cost": Column(MONEY, "what it cost"),
        "unlogged_g": Column(
            GRAMS_WORKED_OUT, "what colour lines without a bowl would have taken, were they like the others"
        ),
        "closing_g": Column(GRAMS, "there at the end; below nothing where a delivery or count is missing"),
        "closing_packs": Column(NUMBER, "the same in packs of that day", "packs"),
        "opening_value": Column(MONEY, "stock at the start, at cost"),
        "delivered_cost": Column(MONEY, "deliveries, at cost"),
        "used_cost": Column(MONEY, "all that left but what is unexplained, at cost"),
        "closing_value": Column(MONEY, "stock at the end, at cost"),
        "colour_lines": Column(LINES, "completed colour lines of that time; empty for retail"),
        "colour_lines_logged": Column(LINES, "of these, lines with a bowl in the log"),
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


def stock(  # noqa: PLR0917
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    product_log: pl.DataFrame,
    products: pl.DataFrame,
    sales: pl.DataFrame,
    stock_moves: pl.DataFrame,
    *,
    settings: Settings,
    as_of: date,
) -> pl.DataFrame:
    """One row per product and stretch between two counts, the last one up to today; grams, money in the currency."""
    book = ledger(movements(stock_moves, product_log, sales, products), settings.stock.valuation)
    lines = colour_lines(completed_lines(bookings, services, settings), product_log)
    return RESULT.shape(
        _with_coverage(stretches(book, as_of), lines)
        .with_columns(_money(digits_of(settings.salon.currency)))
        .with_columns(used_cost=_used(), closing_packs=_packs("closing_g"), unexplained_packs=_packs("unexplained_g"))
        .rename({"site": "salon"})
        .sort("salon", "product_id", "to_on", "stretch")
    )


def stock_rows(
    product_log: pl.DataFrame,
    products: pl.DataFrame,
    sales: pl.DataFrame,
    stock_moves: pl.DataFrame,
    *,
    settings: Settings,
    as_of: date,
) -> pl.DataFrame:
    """Every movement up to today with the grams and the value it leaves on the shelf."""
    book = ledger(movements(stock_moves, product_log, sales, products), settings.stock.valuation)
    digits = digits_of(settings.salon.currency)
    return book.filter(pl.col("at").dt.date() <= as_of).select(
        *(*SHELF, "product", "kind", "at", "movement", "grams", "change_g", "level_g"),
        change_value=rounded(pl.col("received") - pl.col("issued"), digits),
        value=rounded(pl.col("value"), digits),
        file="file",
        row="row",
    )


def _packs(grams: str) -> pl.Expr:
    return pl.when(pl.col("pack_g") > 0).then(pl.col(grams).cast(pl.Float64) / pl.col("pack_g").cast(pl.Float64))


def _with_coverage(parts: pl.DataFrame, lines: pl.DataFrame) -> pl.DataFrame:
    """Colour lines of each stretch, and those logged; nothing of retail, which no log of bowls covers."""
    spans = parts.select("site", "begins", "ends").unique()
    covered = (
        lines.select("starts_at", "logged", _site="site")
        .join_where(spans, pl.col("starts_at") > pl.col("begins"), pl.col("starts_at") <= pl.col("ends"))
        .filter((pl.col("site") == "") | (pl.col("site") == pl.col("_site")))
        .group_by("site", "begins", "ends")
        .agg(colour_lines=pl.len(), colour_lines_logged=pl.col("logged").sum())
    )
    mixed = (pl.col("kind") != "retail").fill_null(True)
    logged = pl.col("colour_lines_logged")
    missed = (pl.col("colour_lines") - logged) / logged
    return (
        parts.join(covered, on=["site", "begins", "ends"], how="left")
        .with_columns(pl.when(mixed).then(pl.col("colour_lines", "colour_lines_logged").fill_null(0)))
        .with_columns(unlogged_g=pl.when(logged > 0).then(pl.col("mixed_g").cast(pl.Float64) * missed))
    )


def _money(digits: int) -> list[pl.Expr]:
    valued = pl.col("closing_value").is_not_null()
    names = ("opening_value", "delivered_cost", "unexplained_cost", "closing_value")
    return [pl.when(valued).then(rounded(pl.col(name), digits)).alias(name) for name in names]


def _used() -> pl.Expr:
    left = pl.col("opening_value") + pl.col("delivered_cost") - pl.col("closing_value")
    return left - pl.col("unexplained_cost").fill_null(0)


FIGURE = Figure(stock, stock_rows, RESULT)
