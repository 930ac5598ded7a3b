"""Lines of one visit that name several clients, or times more than a day apart."""

import polars as pl

from analytics.checks.cross_checks.cross_check import CrossCheck, Tables, number, with_lineage
from analytics.records.chairs.stays import VISIT
from analytics.settings import Settings


def visits(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per visit: other_clients (1 where its lines name several), hours_apart (of its lines' starts), its first line.

    Refunds are left out: they may come on a later day.
    """
    bookings = tables["bookings"]
    starts, client = pl.col("starts_at"), pl.col("client_id")
    per_visit = (
        bookings.select(*VISIT, "client_id", "starts_at", "price")
        .with_row_index("place")
        .filter(pl.col("price") >= 0)
        .group_by(VISIT)
        .agg(
            pl.col("place").min(),
            other_clients=(client.min() != client.max()).cast(pl.Int64),
            hours_apart=(starts.max() - starts.min()).dt.total_minutes() / 60,
        )
    )
    return with_lineage(per_visit, bookings)


CROSS_CHECKS = (
    CrossCheck(
        "lines_disagree",
        "bookings",
        "client_id",
        number("other_clients", "clients beside the first that the visit's lines name", high=0),
        visits,
        expected=pl.lit("several clients"),
    ),
    CrossCheck(
        "lines_disagree",
        "bookings",
        "starts_at",
        number("hours_apart", "hours between the visit's first and last start", low=0, high=24),
        visits,
        expected=pl.lit("times more than a day apart"),
    ),
)
