"""What all shelves are worth, what went from them unexplained, what to order and what lies too long, in one row.

Sums over the rows of `stock` and `reorder`, with their formulas. Unexplained cost is what was missing at each product's
last count since the count before (found too much taken off); unlogged cost is the part of it that bowls nobody logged
would account for, unaccounted cost the rest of those products of which anything is left over, and unlogged share is
unlogged ÷ (unlogged + unaccounted). Its colour lines and those logged are those of the product for which there are
most. Closing value is recorded stock at cost today; likely value is what of it is probably there, of the products for
which that is known, and likely share is likely ÷ closing value. Packs, their cost and what expires unused are those of
`reorder`; of unknown products no level or no pack is known. Slow is retail that lies longer than half a year (26 weeks)
as it sells now.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import COUNT, DAY, LINES, MONEY, PACKS, SHARE, Column, Figure, Result
from analytics.methods.quotient import per
from analytics.records.product.stock_explained import stock_explained
from analytics.records.product.stock_rows import StockRows
from analytics.records.product.to_order import to_order

RESULT = Result(
    "one row for all shelves together",
    key=(),
    columns={
        "counted_products": Column(COUNT, "products counted at least twice", "products"),
        "counted_from_on": Column(DAY, "the first of the counts before their last one"),
        "counted_to_on": Column(DAY, "the last of their counts"),
        "unexplained_cost": Column(MONEY, "missing at the last counts since the ones before, found too much taken off"),
        "unlogged_cost": Column(MONEY, "of it, what bowls that nobody logged would account for"),
        "unaccounted_cost": Column(MONEY, "the rest, of products of which anything is left over"),
        "unlogged_share": Column(SHARE, "unlogged ÷ (unlogged + unaccounted)"),
        "colour_lines": Column(LINES, "completed colour lines of that time"),
        "colour_lines_logged": Column(LINES, "of these, lines with a bowl in the log"),
        "logged_share": Column(SHARE, "colour lines logged ÷ colour lines"),
        "closing_value": Column(MONEY, "recorded stock today, at cost; empty where nothing was delivered or counted"),
        "last_counted_on": Column(DAY, "day of the last count"),
        "likely_value": Column(MONEY, "value of what is probably there"),
        "likely_share": Column(SHARE, "likely ÷ closing value"),
        "below_zero_products": Column(COUNT, "products of which less than nothing is on record", "products"),
        "products": Column(COUNT, "products on the shelf or in use", "products"),
        "unknown_products": Column(COUNT, "of these, products of which no level or no pack is known", "products"),
        "ordered_products": Column(COUNT, "products to order", "products"),
        "packs": Column(PACKS, "packs of them to order"),
        "order_cost": Column(MONEY, "what those packs cost today"),
        "expiring_cost": Column(MONEY, "what expires before it is used, at today's cost"),
        "retail_products": Column(COUNT, "retail products on the shelf", "products"),
        "slow_products": Column(COUNT, "of these, those that lie longer than half a year as sold now", "products"),
        "slow_value": Column(MONEY, "what those tie up, at recorded cost"),
    },
    for_people=(
        "unexplained_cost",
        "unlogged_cost",
        "logged_share",
        "closing_value",
        "last_counted_on",
        "likely_value",
        "packs",
        "order_cost",
        "expiring_cost",
        "slow_products",
        "slow_value",
    ),
)

MISSING_COST = ("unexplained_cost", "unlogged_cost", "unaccounted_cost")
HELD = ("closing_value", "likely_value", "packs", "order_cost", "expiring_cost")


def shelf(stocked: StockRows, *, as_of: date) -> pl.DataFrame:
    """One row, of a salon that has stock or products in use; money in the currency."""
    stretches, shelves = stock_explained(stocked, as_of), to_order(stocked, as_of)
    if stretches.is_empty() and shelves.is_empty():
        return RESULT.empty()
    parts = [_missing(stretches), _worth(stretches), _to_order(shelves), _lying(shelves)]
    return RESULT.shape(
        pl.concat(parts, how="horizontal").with_columns(
            logged_share=per("colour_lines_logged", "colour_lines"),
            unlogged_share=per(pl.col("unlogged_cost"), pl.col("unlogged_cost") + pl.col("unaccounted_cost")),
            likely_share=per("likely_value", "closing_value"),
        )
    )


def shelf_rows(stocked: StockRows, *, as_of: date) -> pl.DataFrame:
    """The products whose missing stock, value, order and slow stock are added up."""
    key = ["site", "product_id"]
    counted = stock_explained(stocked, as_of).filter("last_counted").select(*key, *MISSING_COST, "from_on", "to_on")
    ordered = to_order(stocked, as_of).select(*key, "product", "kind", *HELD, "slow")
    return ordered.join(counted, on=key, how="full", coalesce=True, nulls_equal=True).sort(key)


def _missing(stretches: pl.DataFrame) -> pl.DataFrame:
    counted = stretches.filter("last_counted")
    left_over = pl.col("unaccounted_cost")
    return counted.select(
        counted_products=pl.len(),
        counted_from_on=pl.col("from_on").min(),
        counted_to_on=pl.col("to_on").max(),
        unexplained_cost=_sum("unexplained_cost"),
        unlogged_cost=_sum("unlogged_cost"),
        unaccounted_cost=left_over.filter(left_over > 0).sum(),
        colour_lines=pl.col("colour_lines").max(),
        colour_lines_logged=pl.col("colour_lines_logged").max(),
    )


def _worth(stretches: pl.DataFrame) -> pl.DataFrame:
    """Of the last stretch of each product, which no count ends."""
    now = stretches.filter(pl.col("counted_g").is_null())
    valued = pl.col("closing_value").is_not_null()
    return now.select(
        closing_value=_sum("closing_value"),
        last_counted_on=pl.col("from_on").filter(valued).max(),
        below_zero_products=(pl.col("closing_g") < 0).sum(),
    )


def _to_order(shelves: pl.DataFrame) -> pl.DataFrame:
    wanted = pl.col("packs") > 0
    return shelves.select(
        products=pl.len(),
        unknown_products=pl.col("packs").is_null().sum(),
        ordered_products=wanted.sum(),
        packs=pl.col("packs").filter(wanted).sum(),
        order_cost=pl.col("order_cost").filter(wanted).sum(),
    )


def _lying(shelves: pl.DataFrame) -> pl.DataFrame:
    on_the_shelf = (pl.col("kind") == "retail") & (pl.col("closing_value") > 0)
    expires = pl.col("expiring_g") > 0
    return shelves.select(
        likely_value=_sum("likely_value"),
        expiring_cost=pl.col("expiring_cost").filter(expires).sum(),
        retail_products=on_the_shelf.sum(),
        slow_products=pl.col("slow").sum(),
        slow_value=pl.col("closing_value").filter("slow").sum(),
    )


def _sum(name: str) -> pl.Expr:
    """Empty where no product has a value."""
    return pl.when(pl.col(name).is_not_null().any()).then(pl.col(name).sum()).alias(name)


FIGURE = Figure(shelf, shelf_rows, RESULT)
