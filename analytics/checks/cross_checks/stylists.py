"""Stylists who stop on a day although the book goes on."""

import polars as pl

from analytics.checks.cross_checks.cross_check import CrossCheck, Tables, number, with_lineage
from analytics.checks.cross_checks.visited_days import ends, visited_days
from analytics.settings import Settings

MANY_VISITS, SILENT_DAYS = 40, 42


def stylists(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per stylist with many visits who worked in most weeks: silent_days, from her last visit to the end of the book.

    Visits still ahead count as hers; cancelled ones do not.
    """
    columns = tables["bookings"].select("site", "booking_id", "stylist", "starts_at", "status")
    lines = columns.with_row_index("place").filter(pl.col("status") != "cancelled").drop_nulls("stylist")
    starts, day = pl.col("starts_at"), pl.col("starts_at").dt.date()
    each = lines.group_by("site", "stylist").agg(
        pl.col("place").get(starts.arg_max()),
        visits=pl.col("booking_id").n_unique(),
        weeks=day.dt.truncate("1w").n_unique(),
        first_day=day.min(),
        last_day=day.max(),
    )
    weeks_between = (pl.col("last_day") - pl.col("first_day")).dt.total_days() // 7 + 1
    steady = each.filter((pl.col("visits") >= MANY_VISITS) & (pl.col("weeks") * 2 >= weeks_between))
    silent = (pl.col("end") - pl.col("last_day")).dt.total_days()
    ended = steady.join(_end_of_book(tables["bookings"]), on="site").with_columns(silent_days=silent)
    return with_lineage(ended, tables["bookings"])


def _end_of_book(bookings: pl.DataFrame) -> pl.DataFrame:
    """Per salon the last day by which visits happened, a slip in the year aside."""
    parts = visited_days(bookings).partition_by("site")
    last = [(days["site"][0], reach[1]) for days in parts if (reach := ends(days))]
    return pl.DataFrame(last, schema={"site": pl.String(), "end": pl.Date()}, orient="row")


def _who() -> pl.Expr:
    site = pl.when(pl.col("site") == "").then(pl.lit("")).otherwise(pl.col("site") + ": ")
    return site + pl.col("stylist")


CROSS_CHECKS = (
    CrossCheck(
        "stylist_stops",
        "bookings",
        "stylist",
        number("silent_days", "days from the last visit to the end of the book", high=SILENT_DAYS - 1),
        stylists,
        value=_who(),
        expected=pl.format("{}, but {} weeks", "last_day", pl.col("silent_days") // 7),
    ),
)
