"""How much to mix for a client whose hair is known, since long, thick and curly hair takes more.

As in mixing, from their own bowls alone: one row per client, service and kind of main product with 10 or more weighed
bowls. Everybody else goes by the amount of the service. Usual is the median of what is mixed first for them; the saving
a month is against that, bowl by bowl. Amounts help with planning and are no instruction.
"""

import polars as pl

from analytics.definitions.results import TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.chairs.validity import latest_names
from analytics.records.product.advice import ADVICE
from analytics.records.product.bowl_rows import BowlRows
from analytics.records.product.own_amounts import needs_of_clients, own_amounts

RESULT = Result(
    "one row per client, service and colour or lightener, with ten or more weighed bowls",
    key=("client_id", "service_id", "kind"),
    columns={
        "client_id": Column(TEXT, "the client"),
        "client": Column(TEXT, "name, where the clients table gives one"),
        "service_id": Column(TEXT, "line of the menu"),
        "service": Column(TEXT, "its name"),
        **ADVICE,
    },
)


def mixing_clients(mixed: BowlRows, clients: pl.DataFrame, *, period: Period) -> pl.DataFrame:
    """One row per client, service and kind with enough weighed bowls; grams, money in the currency."""
    names = clients.select("site", "client_id", "client").unique(
        ["site", "client_id"], keep="first", maintain_order=True
    )
    return RESULT.shape(
        own_amounts(mixed, period)
        .join(latest_names(mixed.tables["services"]), on="service_id", how="left")
        .join(names, on=["site", "client_id"], how="left")
        .with_columns(service=pl.coalesce("service", "service_id"))
        .sort("client_id", "service_id", "kind", "site")
    )


def mixing_clients_rows(mixed: BowlRows, *, period: Period) -> pl.DataFrame:
    """What the hair of these clients took: as in mixing, of those with enough weighed bowls."""
    return needs_of_clients(mixed, period)


FIGURE = Figure(mixing_clients, mixing_clients_rows, RESULT)
