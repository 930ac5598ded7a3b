"""Amounts for clients whose hair is known, from their own bowls."""

import polars as pl

from analytics.periods import Period
from analytics.records.chairs.chair_hour import chair_hour_cost
from analytics.records.memo import memoised
from analytics.records.product.advice import advised
from analytics.records.product.bowl_rows import BowlRows
from analytics.records.product.mixes import mixed_bowls, needs

FEWEST_WEIGHED = 10
KEY = ["site", "client_id", "service_id", "kind"]


def needs_of_clients(mixed: BowlRows, period: Period) -> pl.DataFrame:
    """What the hair of the clients took of whom enough bowls were weighed, one row per visit, service and products."""
    log = mixed.by_bowl.filter(period.holds(pl.col("logged_at")))
    enough = pl.col("weighed").sum().over(KEY) >= FEWEST_WEIGHED
    return needs(mixed_bowls(log), mixed.tables["bookings"]).drop_nulls(["client_id", "service_id"]).filter(enough)


@memoised
def own_amounts(mixed: BowlRows, period: Period) -> pl.DataFrame:
    """One row per client, service and kind with enough weighed bowls: what `advised` answers of them."""
    rows = needs_of_clients(mixed, period)
    hour = chair_hour_cost(mixed.tables["bookings"], mixed.tables["services"], mixed.settings, period)
    return advised(rows, KEY, FEWEST_WEIGHED, hour, mixed.settings)
