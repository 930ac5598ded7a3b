"""Prices far from what a service usually costs, as a share of its list price that day."""

import polars as pl

from analytics.checks.cross_checks.cross_check import CrossCheck, Tables, money_text, number
from analytics.definitions.columns import LINEAGE
from analytics.records.chairs.validity import valid_that_day
from analytics.settings import Settings

FEW_PRICES = 20  # with fewer lines than this the list price, and not their median, is what is usual
WIDER, MOST_TIMES = 2, 5  # how far beyond its middle 98 % a price is still usual, and never more than times the median


def prices(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per completed line with a price and a list price: times_beyond, how many times it lies beyond the usual range.

    Up to 1 it lies within. Refunds and lines given away are left out.
    """
    sold = (pl.col("status") == "completed") & (pl.col("price") > 0)
    menu = tables["services"].select("site", "service_id", "valid_from", list_price="price")
    lines = tables["bookings"].select("site", "service_id", "starts_at", "price", "status", *LINEAGE).filter(sold)
    ratio = pl.col("price").cast(pl.Float64) / pl.col("list_price").cast(pl.Float64)
    rated = (
        valid_that_day(lines, menu, "service_id", pl.col("starts_at"))
        .filter(pl.col("list_price") > 0)
        .with_columns(ratio=ratio)
    )
    beyond = pl.max_horizontal(pl.col("ratio") / pl.col("high"), pl.col("low") / pl.col("ratio"))
    return rated.join(_usual(rated), on=["site", "service_id"]).select(
        *LINEAGE,
        "price",
        lowest=_listed("low"),
        highest=_listed("high"),
        times_beyond=beyond,
    )


def _usual(rated: pl.DataFrame) -> pl.DataFrame:
    """Per service the range of price ÷ list price that is usual: low, high.

    The middle 98 %, twice as wide and at least ±50 %, but within five times the median, so that a slip of ten times is
    found however often it was made, up to half of the lines.
    """
    ratio = pl.col("ratio")
    middle = pl.when(pl.len() >= FEW_PRICES).then(ratio.median()).otherwise(1.0)
    ranges = rated.group_by("site", "service_id").agg(
        middle=middle, below=ratio.quantile(0.01) / WIDER, above=ratio.quantile(0.99) * WIDER
    )
    middle = pl.col("middle")
    return ranges.select(
        "site",
        "service_id",
        low=pl.max_horizontal(pl.min_horizontal("below", middle * 0.5), middle / MOST_TIMES),
        high=pl.min_horizontal(pl.max_horizontal("above", middle * 1.5), middle * MOST_TIMES),
    )


def _listed(bound: str) -> pl.Expr:
    return pl.col(bound) * pl.col("list_price").cast(pl.Float64)


def _price(settings: Settings) -> pl.Expr:
    amounts = (money_text(pl.col(name), settings) for name in ("price", "lowest", "highest"))
    return pl.format("{}, where {} to {} is usual", *amounts)


CROSS_CHECKS = (
    CrossCheck(
        "price_far_off",
        "bookings",
        "price",
        number("times_beyond", "times the price lies beyond the usual range", high=1),
        prices,
        expected=_price,
    ),
)
