"""Each shelf as it probably is today, what is used of it a week, what to order and what expires before it is used."""

from datetime import date, timedelta
from math import ceil

import polars as pl

from analytics.methods.order_up_to import order_up_to, packs_to
from analytics.methods.quotient import per
from analytics.methods.shelf_life import wasted
from analytics.money import EXACT, rounded
from analytics.records.chairs.validity import valid_that_day
from analytics.records.clients.to_come import busier
from analytics.records.memo import memoised
from analytics.records.product.stock_moves import SHELF
from analytics.records.product.stock_rows import StockRows
from analytics.records.product.stock_stretches import stretches
from analytics.records.product.stock_use import (
    RECENT_WEEKS,
    USED,
    WEEKS_SEEN,
    last_day,
    seen_share,
    use_rate,
    weekly_use,
)
from analytics.settings import Stock

WEIGHED_TO_G = 1.0
FAR_OFF_DAYS = 3650
SLOW_WEEKS = 26  # what lies longer than half a year


@memoised
def to_order(stocked: StockRows, as_of: date) -> pl.DataFrame:
    """One row per shelf on which something is or of which something was used within half a year.

    likely_value: the value by what is recorded × likely_g ÷ booked_g, where more than nothing is recorded. slow: retail
    on the shelf that lies longer than half a year at its present use.
    """
    book = stocked.ledger
    book = book.filter(pl.col("at").dt.date() <= as_of)
    lines = stocked.colour_lines
    settings, products, digits = stocked.settings, stocked.tables["products"], stocked.digits
    weeks = _weeks(settings.stock)
    to_come = busier(
        stocked.tables["bookings"], stocked.tables["services"], settings, as_of, back=RECENT_WEEKS, weeks=ceil(weeks)
    )
    there = _there(book, lines, products, as_of, to_come or 1.0)
    needed = order_up_to(pl.col("weekly_g"), pl.col("weekly_sd_g"), weeks, settings.stock.service_level)
    usable = pl.col("likely_g") - pl.col("_expiring_soon_g")
    return (
        there.join(_expiring(book, there, as_of, weeks), on=SHELF, how="left")
        .with_columns(pl.col("expiring_g", "_expiring_soon_g").fill_null(0.0), needed_g=needed)
        .with_columns(packs=packs_to(pl.col("needed_g"), usable, pl.col("pack_g")))
        .with_columns(
            advice=_advice(),
            order_cost=rounded(pl.col("packs").cast(pl.Decimal(38, 0)) * pl.col("pack_cost"), digits),
            expiring_cost=_cost_of("expiring_g", digits),
            closing_value=rounded(pl.col("closing_value"), digits),
            runs_out_on=_runs_out(as_of),
            visits_factor=pl.lit(to_come, pl.Float64),
        )
        .with_columns(likely_value=_likely_value(digits), slow=_slow())
    )


def _likely_value(digits: int) -> pl.Expr:
    recorded = pl.col("booked_g").cast(pl.Float64)
    there = pl.col("closing_value").cast(pl.Float64) * pl.col("likely_g") / recorded
    return rounded(pl.when(recorded > 0).then(there).round(9).cast(EXACT), digits)


def _slow() -> pl.Expr:
    held = (pl.col("kind") == "retail") & (pl.col("closing_value") > 0)
    return (held & (pl.col("weeks_left").is_null() | (pl.col("weeks_left") > SLOW_WEEKS))).fill_null(False)


def _weeks(stock: Stock) -> float:
    """How long an order has to last."""
    return stock.cover_weeks + stock.delivery_days / 7


def _there(
    book: pl.DataFrame, lines: pl.DataFrame, products: pl.DataFrame, as_of: date, to_come: float
) -> pl.DataFrame:
    """Each shelf as it probably is today: booked_g, likely_g, weekly use with what nobody logged, and today's pack."""
    until = last_day(book, lines, as_of)
    parts = stretches(book, as_of)
    used_since = (pl.col("mixed_g") + pl.col("sold_g")).cast(pl.Float64)
    booked = pl.col("closing_g").cast(pl.Float64)
    last_used = book.filter(USED).group_by(SHELF).agg(last_used_on=pl.col("at").dt.date().max())
    there = (
        parts.filter(pl.col("counted_g").is_null())
        .join(seen_share(parts, lines, until), on=["site", "kind"], how="left", nulls_equal=True, maintain_order="left")
        .join(use_rate(weekly_use(book, until)), on=SHELF, how="left", maintain_order="left")
        .join(last_used, on=SHELF, how="left", maintain_order="left")
        .with_columns(
            pl.col("weekly_g", "weekly_sd_g").fill_null(0.0) * pl.col("true_use") * to_come,
            counted_on="from_on",
            booked_g="closing_g",
            likely_g=(booked - (pl.col("true_use") - 1) * used_since).clip(0),
        )
        .with_columns(weeks_left=per("likely_g", "weekly_g"))
        .filter((pl.col("booked_g") != 0) | (pl.col("last_used_on") > until - timedelta(weeks=WEEKS_SEEN)))
    )
    listed = products.select(*SHELF, "pack_g", "pack_cost", "valid_from")
    return valid_that_day(there.drop("pack_g"), listed, "product_id", pl.lit(as_of)).with_columns(
        pack_g=pl.when(pl.col("pack_g") > 0).then(pl.col("pack_g").cast(pl.Float64))
    )


def _expiring(book: pl.DataFrame, there: pl.DataFrame, as_of: date, weeks: float) -> pl.DataFrame:
    """Per shelf: expires_on, the first day on which some of it expires unused, and how much does, in all and soon."""
    grams, likely = pl.col("grams").cast(pl.Float64), pl.col("likely_g")
    newer = grams.cum_sum(reverse=True).over(SHELF) - grams
    days = (pl.col("expires_on") - pl.lit(as_of)).dt.total_days() + 1
    usable = pl.col("weekly_g") / 7 * days.clip(0)
    soon = pl.col("expires_on") < as_of + timedelta(days=7 * weeks)
    return (
        book.filter((pl.col("movement") == "delivery") & (pl.col("grams") > 0))
        .join(there.select(*SHELF, "likely_g", "weekly_g"), on=SHELF, maintain_order="left")
        .with_columns(held=pl.min_horizontal(grams, (likely - newer).clip(0)))
        .drop_nulls("expires_on")
        .sort("expires_on", maintain_order=True)
        .with_columns(_wasted=wasted(pl.col("held"), usable).over(SHELF))
        .filter(pl.col("_wasted") > WEIGHED_TO_G / 2)
        .group_by(SHELF)
        .agg(
            pl.col("expires_on").min(),
            expiring_g=pl.col("_wasted").sum(),
            _expiring_soon_g=pl.col("_wasted").filter(soon).sum(),
        )
    )


def _advice() -> pl.Expr:
    return (
        pl.when(pl.col("likely_g").is_null())
        .then(pl.lit("not counted"))
        .when(pl.col("packs").is_null())
        .then(pl.lit("no pack known"))
        .when(pl.col("packs") > 0)
        .then(pl.lit("order"))
        .when(pl.col("weekly_g") > 0)
        .then(pl.lit("enough"))
        .otherwise(pl.lit("not used"))
    )


def _cost_of(grams: str, digits: int) -> pl.Expr:
    """Float grams at the pack cost of today."""
    packs = (pl.col(grams) / pl.col("pack_g")).round(6).cast(EXACT)
    return rounded(packs * pl.col("pack_cost"), digits)


def _runs_out(as_of: date) -> pl.Expr:
    days = (pl.col("weeks_left") * 7).floor()
    return pl.when(days < FAR_OFF_DAYS).then(pl.lit(as_of) + pl.duration(days=days.cast(pl.Int64))).cast(pl.Date)
