"""How much to mix for a client whose hair is known, since long, thick and curly hair takes more.

As in mixing, from her own bowls alone: one row per client, service and kind of main product with 10 or more weighed
bowls. Everybody else goes by the amount of the service. Usual is the median of what is mixed first for her; the saving
a month is against that, bowl by bowl. Amounts help with planning and are no instruction.
"""

import polars as pl

from analytics.definitions.results import RESULTS
from analytics.periods import Period
from analytics.records.chairs.chair_hour import chair_hour_cost
from analytics.records.chairs.validity import latest_names
from analytics.records.product.advice import advised
from analytics.records.product.mixes import log_by_bowl, mixed_bowls, needs
from analytics.settings import Settings

FEWEST_WEIGHED = 10


def mixing_clients(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    product_log: pl.DataFrame,
    products: pl.DataFrame,
    clients: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
) -> pl.DataFrame:
    """One row per client, service and kind with enough weighed bowls; grams, money in the currency."""
    rows = mixing_clients_rows(bookings, services, product_log, products, period=period)
    hour = chair_hour_cost(bookings, services, settings, period)
    names = clients.select("site", "client_id", "client").unique(
        ["site", "client_id"], keep="first", maintain_order=True
    )
    return RESULTS["mixing_clients"].shape(
        advised(rows, ["site", "client_id", "service_id", "kind"], FEWEST_WEIGHED, hour, settings)
        .join(latest_names(services), on="service_id", how="left")
        .join(names, on=["site", "client_id"], how="left")
        .with_columns(service=pl.coalesce("service", "service_id"))
        .sort("client_id", "service_id", "kind", "site")
    )


def mixing_clients_rows(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    product_log: pl.DataFrame,
    products: pl.DataFrame,
    *,
    period: Period,
) -> pl.DataFrame:
    """What the hair of these clients took: as in mixing, of those with enough weighed bowls."""
    log = log_by_bowl(product_log, products, bookings, services).filter(period.holds(pl.col("logged_at")))
    key = ["site", "client_id", "service_id", "kind"]
    enough = pl.col("weighed").sum().over(key) >= FEWEST_WEIGHED
    return needs(mixed_bowls(log), bookings).drop_nulls(["client_id", "service_id"]).filter(enough)
