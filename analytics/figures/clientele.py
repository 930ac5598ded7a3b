"""Whom the change in net revenue came from: new, returning and lost clients.

A client is new in the month of her first completed visit or purchase in the book; returning, where she came before and
came this month too, whether or not she came in the month compared with; lost, where she came in the month compared with
and not in this one, which for somebody who comes every six weeks is no goodbye yet. Net is what her completed lines and
her retail items brought without tax; an item belongs to the client named on it, else to the client of its visit, else
to nobody, in a row of its own. The changes add up to the difference of net revenue of the two months to the cent, as
those of `changes` do. A part-month stands against the same days. Clients whose first visit lies before the book begins
look new when they first appear in it.
"""

from collections.abc import Mapping
from datetime import date

import polars as pl

from analytics.definitions.results import CLIENTS, COMPARED, COMPARISONS, MONEY, MONTH_KEY, TEXT, Column, Figure, Result
from analytics.periods import Period, in_spans
from analytics.records.chairs.lines import completed_lines
from analytics.records.chairs.stays import VISIT
from analytics.records.clients.root_visits import CLIENT
from analytics.records.memo import memoised
from analytics.records.product.retail import retail_rows
from analytics.settings import Settings

RESULT = Result(
    "one row per month, comparison and group of clients",
    key=("month", "compared_with", "group"),
    columns={
        **MONTH_KEY,
        **COMPARED,
        "group": Column(TEXT, "new, returning, lost, or nobody (retail sold to no known client)"),
        "clients": Column(CLIENTS, "clients of the group who came this month"),
        "clients_before": Column(CLIENTS, "of the group, those who came in the month compared with"),
        "net": Column(MONEY, "charged to them, without tax, retail included"),
        "net_before": Column(MONEY, "the same of the month compared with"),
        "change": Column(MONEY, "net − net before"),
    },
)

GROUPS = ("new", "returning", "lost", "nobody")
KEY = ["month", "compared_with", "group"]


def clientele(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    sales: pl.DataFrame,
    products: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
    cover: Period,
    as_of: date,
) -> pl.DataFrame:
    """One row per month, comparison that the cover reaches back to, and group of clients; money in the currency."""
    bought = _bought(bookings, services, sales, products, settings)
    first = bought.group_by(CLIENT).agg(first=pl.col("day").min().dt.strftime("%Y-%m"))
    parts = period.parts()
    sides = [
        _sides(bought, parts, period.same_days(months, cover, as_of)).with_columns(compared_with=pl.lit(name))
        for name, months in COMPARISONS.items()
    ]
    known = pl.col("client_id").is_not_null()
    return RESULT.shape(
        pl.concat(sides)
        .join(first, on=CLIENT, how="left", nulls_equal=True)
        .with_columns(group=_group().cast(pl.Enum(GROUPS)))
        .group_by(KEY)
        .agg(
            pl.col("net", "net_before", "change").sum(),
            clients=(known & pl.col("came")).sum(),
            clients_before=(known & pl.col("came_before")).sum(),
        )
        .sort(KEY)
    )


def clientele_rows(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    sales: pl.DataFrame,
    products: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
) -> pl.DataFrame:
    """What each client bought in the period: day, client_id, item, net."""
    bought = _bought(bookings, services, sales, products, settings)
    return bought.filter(period.holds(pl.col("day"))).sort("day", "client_id", "file", "row")


@memoised
def _bought(
    bookings: pl.DataFrame, services: pl.DataFrame, sales: pl.DataFrame, products: pl.DataFrame, settings: Settings
) -> pl.DataFrame:
    """Completed lines and retail rows with the client they belong to."""
    columns = [*CLIENT, "day", "item", "net", "file", "row"]
    whose = bookings.group_by(VISIT).agg(visitor=pl.col("client_id").min())
    lines = completed_lines(bookings, services, settings).with_columns(day="starts_at", item="service")
    retail = retail_rows(sales, products, settings).join(whose, on=VISIT, how="left")
    named = retail.with_columns(client_id=pl.coalesce("client_id", "visitor"), day="sold_at", item="product")
    return pl.concat([lines.select(columns), named.select(columns)])


def _sides(bought: pl.DataFrame, parts: Mapping[str, Period], before: Mapping[str, Period]) -> pl.DataFrame:
    """Per month and client of either side: net, net_before, change, came and came_before."""
    now = _per_client(bought, {month: parts[month] for month in before})
    then = _per_client(bought, before)
    key = ["month", *CLIENT]
    return (
        now.join(then, on=key, how="full", coalesce=True, nulls_equal=True, suffix="_before")
        .with_columns(pl.col("net", "net_before").fill_null(0), pl.col("came", "came_before").fill_null(False))
        .with_columns(change=pl.col("net") - pl.col("net_before"))
    )


def _per_client(bought: pl.DataFrame, spans: Mapping[str, Period]) -> pl.DataFrame:
    net = pl.col("net").sum().cast(MONEY.dtype)
    return in_spans(bought, "day", spans).group_by("month", *CLIENT).agg(net=net, came=pl.lit(True))


def _group() -> pl.Expr:
    return (
        pl.when(pl.col("client_id").is_null())
        .then(pl.lit("nobody"))
        .when(~pl.col("came"))
        .then(pl.lit("lost"))
        .when(pl.col("first") == pl.col("month"))
        .then(pl.lit("new"))
        .otherwise(pl.lit("returning"))
    )


FIGURE = Figure(clientele, clientele_rows, RESULT)
