"""Amounts for clients whose hair is known, from their own bowls."""

import polars as pl

from analytics.periods import Period
from analytics.records.chairs.chair_hour import chair_hour_cost
from analytics.records.memo import memoised
from analytics.records.product.advice import advised
from analytics.records.product.mixes import log_by_bowl, mixed_bowls, needs
from analytics.settings import Settings

FEWEST_WEIGHED = 10
KEY = ["site", "client_id", "service_id", "kind"]


def needs_of_clients(
    bookings: pl.DataFrame, services: pl.DataFrame, product_log: pl.DataFrame, products: pl.DataFrame, period: Period
) -> pl.DataFrame:
    """What the hair of the clients took of whom enough bowls were weighed, one row per visit, service and products."""
    log = log_by_bowl(product_log, products, bookings, services).filter(period.holds(pl.col("logged_at")))
    enough = pl.col("weighed").sum().over(KEY) >= FEWEST_WEIGHED
    return needs(mixed_bowls(log), bookings).drop_nulls(["client_id", "service_id"]).filter(enough)


@memoised
def own_amounts(  # noqa: PLR0917
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    product_log: pl.DataFrame,
    products: pl.DataFrame,
    settings: Settings,
    period: Period,
) -> pl.DataFrame:
    """One row per client, service and kind with enough weighed bowls: what `advised` answers of them."""
    rows = needs_of_clients(bookings, services, product_log, products, period)
    return advised(rows, KEY, FEWEST_WEIGHED, chair_hour_cost(bookings, services, settings, period), settings)
