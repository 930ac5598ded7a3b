"""Each client's first visit, and the wait until the next one."""

from datetime import date

import polars as pl

from analytics.records.chairs.lines import on_the_menu
from analytics.records.clients.root_visits import CLIENT

NEVER_LISTED = "other"  # the kind of a service that the menu does not know


def client_visits(bookings: pl.DataFrame, services: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """One row per completed visit up to `as_of`: client, day, and kind and stylist of its main line.

    The main line is the one that the menu gives the most minutes, hands-on and developing; of equal ones the first. A
    line that pays back is none, and neither is a visit of such lines alone. In order of client and time.
    """
    done = (pl.col("status") == "completed") & (pl.col("price") >= 0) & (pl.col("starts_at").dt.date() <= as_of)
    minutes = (pl.col("hands_on_min") + pl.col("processing_min")).fill_null(0)
    return (
        on_the_menu(bookings.filter(done), services)
        .with_columns(pl.col("kind").fill_null(NEVER_LISTED), day=pl.col("starts_at").dt.date(), minutes=minutes)
        .sort("minutes", "line", "service_id", "stylist", descending=[True, False, False, False], nulls_last=True)
        .group_by(*CLIENT, "booking_id", maintain_order=True)
        .agg(pl.col("day", "starts_at").min(), pl.col("kind", "stylist").first())
        .sort(*CLIENT, "starts_at", "booking_id")
    )


def first_visits(bookings: pl.DataFrame, services: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """One row per client: cohort (quarter of the first visit, '2026-Q1'), its kind and stylist, first_on, next_on (the
    next day with a completed visit of any kind; null for those still out), days waited until then or so far, came_back.
    """
    quarter = pl.col("first_on").dt.strftime("%Y-Q") + pl.col("first_on").dt.quarter().cast(pl.String)
    return (
        client_visits(bookings, services, as_of)
        .group_by(*CLIENT, maintain_order=True)
        .agg(
            first_on=pl.col("day").first(),
            next_on=pl.col("day").filter(pl.col("day") > pl.col("day").first()).first(),
            kind=pl.col("kind").first(),
            stylist=pl.col("stylist").first(),
        )
        .with_columns(cohort=quarter, came_back=pl.col("next_on").is_not_null())
        .with_columns(days=(pl.col("next_on").fill_null(as_of) - pl.col("first_on")).dt.total_days())
        .select(*CLIENT, "cohort", "kind", "stylist", "first_on", "next_on", "days", "came_back")
    )
