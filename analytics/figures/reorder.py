"""How many packs to order for the coming weeks, and what expires before it is used.

An order has to last until the next one has come: cover_weeks + delivery_days ([stock] in salon.toml). By then weekly_g
× weeks are used; with a reserve of z × weekly_sd_g × √weeks (z for the service_level) that is needed_g. Packs are those
that bring what is there to it, rounded up. Weekly use is that of the last 8 weeks, its spread that of the last 26, both
times visits_factor: the visits to expect a week over that time by the salon's clock, as for `ahead`, ÷ visits a week in
the last 8 weeks (empty and 1 where the records are too young or too old to tell). Where some bowls are not logged,
recorded stock is too high and the log shows too little, so both are corrected: true use is logged use times what the
last counts found to be gone for each gram seen (all products of the kind together), or times colour lines ÷ colour
lines with a bowl in the log, whichever is more. likely_g is recorded stock less the use nobody logged since the count,
likely_value the same part of recorded value; weekly use and its spread grow by the same factor, which makes the reserve
rather large than small. Deliveries with expires_on are taken to be used in order of expiry, and what is there to be the
newest of them; at the weekly use expiring_g will not be used in time, and what expires before the order is used up does
not count as there. Slow is retail on the shelf that lies longer than half a year (26 weeks) at its weekly use. A
product that was never delivered nor counted has no known level, so nothing is advised.
"""

from datetime import date

import polars as pl

from analytics.definitions import results
from analytics.definitions.results import Column, Figure, Result
from analytics.records.product.stock_moves import SHELF
from analytics.records.product.stock_rows import StockRows
from analytics.records.product.stock_use import last_day, weekly_use
from analytics.records.product.to_order import to_order

RESULT = Result(
    "one row per product that is on the shelf or was used within half a year",
    key=("salon", "product_id"),
    columns={
        "salon": Column(results.TEXT, "the salon of a group; empty where there is one, or one stock for all of them"),
        "product_id": Column(results.TEXT, "the product"),
        "product": Column(results.TEXT, "its name"),
        "kind": Column(results.TEXT, "colour, developer, lightener, additive, retail"),
        "advice": Column(results.TEXT, "order, enough, not used, not counted (nor delivered), no pack known"),
        "packs": Column(results.PACKS, "packs to order"),
        "order_cost": Column(results.MONEY, "what they cost today"),
        "likely_g": Column(results.GRAMS_WORKED_OUT, "probably on the shelf: recorded stock less what nobody logged"),
        "booked_g": Column(results.GRAMS, "on the shelf, on record"),
        "counted_on": Column(results.DAY, "day of the last count; empty: never"),
        "weekly_g": Column(results.GRAMS_PER_WEEK, "use to be expected"),
        "visits_factor": Column(
            results.FACTOR, "visits expected a week ÷ those of the last 8 weeks; empty where unknown"
        ),
        "weekly_sd_g": Column(results.GRAMS_PER_WEEK, "its standard deviation from week to week"),
        "needed_g": Column(results.GRAMS_WORKED_OUT, "needed until the next order has come, reserve included"),
        "weeks_left": Column(results.NUMBER, "how long what is there lasts; empty where nothing is used", "weeks"),
        "runs_out_on": Column(results.DAY, "day on which it is used up, without an order"),
        "last_used_on": Column(results.DAY, "day it was last mixed or sold"),
        "closing_value": Column(results.MONEY, "value of recorded stock, at cost"),
        "expires_on": Column(results.DAY, "first day on which some of it expires unused"),
        "expiring_g": Column(results.GRAMS_WORKED_OUT, "what expires before it is used, at that use"),
        "expiring_cost": Column(results.MONEY, "what it costs today"),
        "likely_value": Column(results.MONEY, "value of what is probably there, at recorded cost"),
        "slow": Column(results.YES_NO, "retail that lies longer than half a year as it sells now"),
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


def reorder(stocked: StockRows, *, as_of: date) -> pl.DataFrame:
    """One row per product that is on the shelf or was used within half a year; grams, packs, money in the currency."""
    shelves = to_order(stocked, as_of)
    return RESULT.shape(shelves.rename({"site": "salon"}).sort("salon", "kind", "product_id", nulls_last=True))


def reorder_rows(stocked: StockRows, *, as_of: date) -> pl.DataFrame:
    """Grams of each product that the log and the till saw go, week by week back from today."""
    moves = stocked.movements.filter(pl.col("at").dt.date() <= as_of)
    until = last_day(moves, stocked.colour_lines, as_of)
    first_day = pl.lit(until) - pl.duration(days=pl.col("weeks_ago") * 7 + 6)
    return weekly_use(moves, until).select(*SHELF, week_from=first_day.cast(pl.Date), grams="grams")


FIGURE = Figure(reorder, reorder_rows, RESULT)
