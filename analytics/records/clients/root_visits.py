"""Root-resetting visits of each client, the gaps between them, and regrowth measured on the way."""

from datetime import date

import polars as pl

from analytics.definitions.columns import NOBODY
from analytics.records.chairs.lines import on_the_menu

CLIENT = ["site", "client_id"]


def root_lines(bookings: pl.DataFrame, services: pl.DataFrame) -> pl.DataFrame:
    """Completed or booked lines of a service that resets the roots, with `day`; a refund colours nothing, and a client
    who was erased is nobody to ask."""
    done_or_ahead = pl.col("status").is_in(["completed", "booked"]) & (pl.col("price") >= 0)
    return (
        on_the_menu(bookings.filter(done_or_ahead & ~pl.col("client_id").str.contains(NOBODY)), services)
        .filter(pl.col("resets_roots"))
        .with_columns(day=pl.col("starts_at").dt.date())
    )


def root_visits(lines: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """One row per client and day with a completed root-resetting line up to `as_of`, in order of day.

    A visit over midnight has the day of its last such line, and the kind and stylist of its first. Of two visits on
    one day the later counts. gap_days is the time since the client's visit before (null for the first).
    """
    return (
        lines.filter((pl.col("status") == "completed") & (pl.col("day") <= as_of))
        .sort("line")
        .group_by(*CLIENT, "booking_id", maintain_order=True)
        .agg(pl.col("starts_at").min(), pl.col("day").max(), pl.col("kind", "stylist", "file", "row").first())
        .sort("starts_at", "booking_id")
        .group_by(*CLIENT, "day", maintain_order=True)
        .agg(pl.col("kind", "stylist", "file", "row").last())
        .sort(*CLIENT, "day")
        .with_columns(gap_days=pl.col("day").diff().dt.total_days().over(CLIENT))
    )


def measured_regrowth(bookings: pl.DataFrame, visits: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """One row per visit with measured regrowth: regrowth_mm, days since the root visit before it, and earlier_mm, what
    was measured between the two (null where nothing was).

    Where a visit's lines carry several values the earliest line's is taken. A measurement without an earlier root visit
    says nothing about growth and is left out.
    """
    measured = (
        bookings.filter((pl.col("status") == "completed") & pl.col("regrowth_mm").is_not_null())
        .with_columns(day=pl.col("starts_at").dt.date())
        .filter(pl.col("day") <= as_of)
        .sort("starts_at", "line")
        .group_by(*CLIENT, "booking_id", maintain_order=True)
        .agg(pl.col("day", "regrowth_mm", "file", "row").first())
        .sort("day")
    )
    before = visits.select(*CLIENT, "day", root_day="day").sort("day")
    return (
        measured.join_asof(
            before, on="day", by=CLIENT, strategy="backward", allow_exact_matches=False, check_sortedness=False
        )
        .with_columns(days=(pl.col("day") - pl.col("root_day")).dt.total_days())
        .drop_nulls("days")
        .with_columns(earlier_mm=pl.col("regrowth_mm").shift(1).over([*CLIENT, "root_day"]))
        .drop("root_day")
    )


def places_of_day(visits: pl.DataFrame) -> pl.DataFrame:
    """site, client_id, day and place: each client's among those whose roots were coloured that day, from 0."""
    clients = visits.select("site", "client_id", "day").unique().sort("site", "client_id")
    return clients.with_columns(place=pl.int_range(pl.len()).over("day"))
