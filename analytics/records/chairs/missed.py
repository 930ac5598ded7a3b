"""Chair hours that visits which did not take place left empty."""

from collections.abc import Mapping

import polars as pl

from analytics.methods.intervals import hours, total_hours, within
from analytics.periods import Period, span_instants
from analytics.records.chairs.open_hours import opened, taken_in
from analytics.records.chairs.stays import stays_by_status
from analytics.settings import Settings

TAKES_FIRST = ("completed", "no_show", "cancelled")  # an hour belongs to the first of these that claims it


def hours_left_empty(bookings: pl.DataFrame, settings: Settings, spans: Mapping[str, Period]) -> pl.DataFrame:
    """Per span: no_show_empty_hours and cancelled_empty_hours within opening hours. A span without any has no row.

    The hours a missed visit had booked on its chair, without those in which a visit that happened took the chair; for a
    cancelled visit also without those that a missed one had booked by then. Overlaps on one chair count once.
    """
    zone = settings.salon.timezone
    stays, whole = stays_by_status(bookings, zone), span_instants(spans, zone)
    is_open = opened(settings, spans).rename({"starts": "opens", "ends": "closes"})
    claimed = [
        _taken(stays, TAKES_FIRST[: place + 1], whole, is_open).rename({"taken": f"up_to_{status}"})
        for place, status in enumerate(TAKES_FIRST)
    ]
    together = claimed[0]
    for part in claimed[1:]:
        together = together.join(part, on="month", how="full", coalesce=True)
    return together.with_columns(pl.exclude("month").fill_null(0.0)).select(
        "month",
        no_show_empty_hours=pl.col("up_to_no_show") - pl.col("up_to_completed"),
        cancelled_empty_hours=pl.col("up_to_cancelled") - pl.col("up_to_no_show"),
    )


def _taken(stays: pl.DataFrame, statuses: tuple[str, ...], spans: pl.DataFrame, is_open: pl.DataFrame) -> pl.DataFrame:
    """Per span: hours within opening hours in which a chair is claimed by stays of these statuses."""
    inside = within(taken_in(stays.filter(pl.col("status").is_in(statuses)), spans), is_open)
    return inside.group_by("month").agg(taken=total_hours(hours(pl.col("starts"), pl.col("ends"))))
