"""What each client was charged for services over the period, and how often she came.

Completed lines, refunds taken off; a visit is counted once. Items bought over the counter are in no line of hers.
"""

import polars as pl

from analytics.definitions.results import MONEY, SITE_KEY, TEXT, VISITS, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows

RESULT = Result(
    "one row per site and client with a completed line in the period",
    key=("site", "client_id"),
    columns={
        **SITE_KEY,
        "client_id": Column(TEXT, "the client"),
        "visits": Column(VISITS, "completed visits, one at which something was given back among them"),
        "gross": Column(MONEY, "charged for services, tax included"),
        "net": Column(MONEY, "charged, without tax"),
        "tax": Column(MONEY, "the tax"),
    },
)


def charged_by_client(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per site and client; money in the currency, net + tax = gross."""
    return RESULT.shape(
        charged_by_client_rows(money, period=period)
        .group_by("site", "client_id")
        .agg(pl.col("gross", "net", "tax").sum(), visits=pl.col("booking_id").n_unique())
        .sort("site", "client_id")
    )


def charged_by_client_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The completed lines the figure adds up."""
    return money.lines.filter(period.holds(pl.col("day")))


FIGURE = Figure(charged_by_client, charged_by_client_rows, RESULT)
