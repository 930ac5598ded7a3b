"""How much of the opening hours each chair was taken.

Open hours are the salon's opening hours of the month, closed days left out, the same for every chair. A chair is
taken from the start to the end of each visit that happened, developing included; visits that overlap on one chair
count once (the union of their times). Occupied hours are all of that time; the occupied share is the part within
opening hours ÷ open hours. Work outside opening hours is in the hours, not in the share.
"""

import polars as pl

from analytics.methods.intervals import hours, union, within
from analytics.periods import Period, month_spans, opening_spans
from analytics.records.stays import chair_name, chair_stays, named_chairs
from analytics.results import RESULTS
from analytics.settings import Settings


def occupancy(bookings: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """One row per month of the period and chair (of salon.toml and of the bookings); hours."""
    zone = settings.salon.timezone
    taken = within(occupancy_rows(bookings, settings=settings, period=period), month_spans(period, zone))
    spans = opening_spans(settings.hours, period, zone)
    open_hours = (
        within(spans.select(starts="opens", ends="closes"), month_spans(period, zone))
        .group_by("month")
        .agg(open_hours=hours(pl.col("starts"), pl.col("ends")).sum())
    )
    chairs = pl.DataFrame({"chair": named_chairs(bookings, settings.salon.chairs)}, schema={"chair": pl.String()})
    grid = pl.DataFrame({"month": period.months()}, schema={"month": pl.String()}).join(chairs, how="cross")
    key = ["month", "chair"]
    return RESULTS["occupancy"].shape(
        grid.join(open_hours, on="month", how="left")
        .join(_hours_of(taken, "occupied_hours"), on=key, how="left")
        .join(_hours_of(within(taken, spans.drop("day")), "inside_hours"), on=key, how="left")
        .with_columns(pl.col("open_hours", "occupied_hours", "inside_hours").fill_null(0.0))
        .with_columns(
            occupied_share=pl.when(pl.col("open_hours") > 0).then(pl.col("inside_hours") / pl.col("open_hours"))
        )
        .sort(key)
    )


def occupancy_rows(bookings: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """The times each chair was taken, joined where they overlap: chair, starts, ends (UTC)."""
    zone = settings.salon.timezone
    whole = month_spans(period, zone).select(pl.col("opens").min(), pl.col("closes").max()).drop_nulls()
    stays = chair_stays(bookings, zone).select(chair_name(), "starts", "ends")
    return within(union(stays, ["chair"]), whole).sort("chair", "starts")


def _hours_of(intervals: pl.DataFrame, name: str) -> pl.DataFrame:
    return intervals.group_by("month", "chair").agg(hours(pl.col("starts"), pl.col("ends")).sum().alias(name))
