"""Stays: how long each visit took which chair."""

import polars as pl

from analytics.periods import to_instant
from analytics.records.memo import memoised

VISIT = ["site", "booking_id"]
STAY = [*VISIT, "chair"]


def chair_name() -> pl.Expr:
    """The chair, with its salon before it where there are several: chairs of one name in two salons are two chairs."""
    return pl.when(pl.col("site") == "").then("chair").otherwise(pl.col("site") + ": " + pl.col("chair")).alias("chair")


def named_chairs(bookings: pl.DataFrame, chairs: tuple[str, ...]) -> list[str]:
    """The chairs of the settings and those seen, in order of name; with several salons those seen."""
    seen = set(bookings.select("site", "chair").unique().select(chair_name())["chair"].drop_nulls())
    return sorted(seen if (bookings["site"] != "").any() else seen | set(chairs))


@memoised
def chair_stays(bookings: pl.DataFrame, timezone: str) -> pl.DataFrame:
    """One row per visit that happened and chair: starts, ends (UTC), file and row of its first line.

    A stay runs from the first start to the last end of the visit's completed lines on that chair; processing time is
    part of it, since nobody else can sit there. A visit on two chairs is two stays.
    """
    return stays_of(bookings.filter(pl.col("status") == "completed"), timezone)


@memoised
def stays_by_status(bookings: pl.DataFrame, timezone: str) -> pl.DataFrame:
    """One row per visit, chair and status of its lines, whatever became of them: site, chair, starts, ends (UTC)."""
    return stays_of(bookings, timezone, ["status"]).select("site", "chair", "status", "starts", "ends")


def stays_of(lines: pl.DataFrame, timezone: str, by: list[str] | None = None) -> pl.DataFrame:
    """One row per visit, chair and `by` of any lines: starts, ends (UTC), file and row of its first line."""
    key = [*STAY, *(by or [])]
    return (
        lines.with_columns(starts=to_instant(pl.col("starts_at"), timezone))
        .with_columns(ends=to_instant(pl.col("ends_at"), timezone).fill_null(pl.col("starts") + _minutes()))
        .group_by(key)
        .agg(pl.col("starts").min(), pl.col("ends").max(), pl.col("file", "row").first())
        .sort("starts", *key)
    )


def _minutes() -> pl.Expr:
    """How long a line without an end takes."""
    return pl.duration(microseconds=(pl.col("minutes") * 60_000_000).cast(pl.Int64))
