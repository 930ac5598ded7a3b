"""How many packs to order for the coming weeks, and what expires before it is used.

An order has to last until the next one has come: cover_weeks + delivery_days ([stock] in salon.toml). By then
weekly_g × weeks are used; with a reserve of z × weekly_sd_g × √weeks (z for the service_level) that is needed_g. Packs
are those that bring what is there to it, rounded up. Weekly use is that of the last 8 weeks, its spread that of the
last 26, both times visits_factor: the visits to expect a week over that time by the salon's clock, as for `ahead`, ÷
visits a week in the last 8 weeks (empty and 1 where the book is too young or too old to tell).
Where some bowls are not logged the book holds too much and the log shows too little, so both are corrected:
true use is logged use times what the last counts found to be gone for each gram seen (all products of the kind
together), or times colour lines ÷ colour lines with a bowl in the log, whichever is more. likely_g is the book's level
less the use nobody logged since the count; weekly use and its spread grow by the same factor, which makes the reserve
rather large than small. Deliveries with expires_on are taken to be used in order of expiry, and what is there to be the
newest of them; at the weekly use expiring_g will not be used in time, and what expires before the order is used up does
not count as there.
A product that was never delivered nor counted has no known level, so nothing is advised.
"""

from datetime import date, timedelta
from math import ceil

import polars as pl

from analytics.definitions.results import (
    DAY,
    FACTOR,
    GRAMS,
    GRAMS_PER_WEEK,
    GRAMS_WORKED_OUT,
    MONEY,
    NUMBER,
    PACKS,
    TEXT,
    Column,
    Figure,
    Result,
)
from analytics.methods.order_up_to import order_up_to, packs_to
from analytics.methods.shelf_life import wasted
from analytics.money import EXACT, digits_of, rounded
from analytics.records.chairs.lines import completed_lines
from analytics.records.chairs.validity import valid_that_day
from analytics.records.clients.to_come import busier
from analytics.records.product.bowls import colour_lines
from analytics.records.product.stock_ledger import ledger
from analytics.records.product.stock_moves import SHELF, movements
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
from analytics.settings import Settings, Stock

RESULT = Result(
    "one row per product that is on the shelf or was used within half a year",
    key=("salon", "product_id"),
    columns={
        "salon": Column(TEXT, "the salon of a group; empty where there is one, or one stock for all of them"),
        "product_id": Column(TEXT, "the product"),
        "product": Column(TEXT, "its name"),
        "kind": Column(TEXT, "colour, developer, lightener, additive, retail"),
        "advice": Column(TEXT, "order, enough, not used, not counted (nor delivered), no pack known"),
        "packs": Column(PACKS, "packs to order"),
        "order_cost": Column(MONEY, "what they cost today"),
        "likely_g": Column(GRAMS_WORKED_OUT, "probably on the shelf: the book less what nobody logged"),
        "booked_g": Column(GRAMS, "on the shelf by the book"),
        "counted_on": Column(DAY, "day of the last count; empty: never"),
        "weekly_g": Column(GRAMS_PER_WEEK, "use to be expected"),
        "visits_factor": Column(FACTOR, "visits expected a week ÷ those of the last 8 weeks; empty where unknown"),
        "weekly_sd_g": Column(GRAMS_PER_WEEK, "its standard deviation from week to week"),
        "needed_g": Column(GRAMS_WORKED_OUT, "needed until the next order has come, reserve included"),
        "weeks_left": Column(NUMBER, "how long what is there lasts; empty where nothing is used", "weeks"),
        "runs_out_on": Column(DAY, "day on which it is used up, without an order"),
        "last_used_on": Column(DAY, "day it was last mixed or sold"),
        "closing_value": Column(MONEY, "value on the shelf by the book, at cost"),
        "expires_on": Column(DAY, "first day on which some of it expires unused"),
        "expiring_g": Column(GRAMS_WORKED_OUT, "what expires before it is used, at that use"),
        "expiring_cost": Column(MONEY, "what it costs today"),
    },
    for_people=(
        "product",
        "advice",
        "packs",
        "order_cost",
        "likely_g",
        "weekly_g",
        "weeks_left",
        "runs_out_on",
        "expiring_g",
    ),
)

WEIGHED_TO_G = 1.0
FAR_OFF_DAYS = 3650


def reorder(  # noqa: PLR0917
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
    """One row per product that is on the shelf or was used within half a year; grams, packs, money in the currency."""
    book = ledger(movements(stock_moves, product_log, sales, products), settings.stock.valuation)
    book = book.filter(pl.col("at").dt.date() <= as_of)
    lines = colour_lines(completed_lines(bookings, services, settings), product_log)
    weeks, digits = _weeks(settings.stock), digits_of(settings.salon.currency)
    to_come = busier(bookings, services, settings, as_of, back=RECENT_WEEKS, weeks=ceil(weeks))
    there = _there(book, lines, products, as_of, to_come or 1.0)
    needed = order_up_to(pl.col("weekly_g"), pl.col("weekly_sd_g"), weeks, settings.stock.service_level)
    usable = pl.col("likely_g") - pl.col("_expiring_soon_g")
    return RESULT.shape(
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
        .rename({"site": "salon"})
        .sort("salon", "kind", "product_id", nulls_last=True)
    )


def reorder_rows(  # noqa: PLR0917
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
    """Grams of each product that the log and the till saw go, week by week back from today."""
    moves = movements(stock_moves, product_log, sales, products).filter(pl.col("at").dt.date() <= as_of)
    lines = colour_lines(completed_lines(bookings, services, settings), product_log)
    until = last_day(moves, lines, as_of)
    first_day = pl.lit(until) - pl.duration(days=pl.col("weeks_ago") * 7 + 6)
    return weekly_use(moves, until).select(*SHELF, week_from=first_day.cast(pl.Date), grams="grams")


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
        .with_columns(weeks_left=pl.when(pl.col("weekly_g") > 0).then(pl.col("likely_g") / pl.col("weekly_g")))
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


FIGURE = Figure(reorder, reorder_rows, RESULT)
