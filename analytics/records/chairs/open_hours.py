"""Open chair hours, and what of them was taken."""

from collections.abc import Mapping

import polars as pl

from analytics.methods.intervals import hours, total_hours, union, within
from analytics.periods import Period, enveloping, opening_spans, span_instants
from analytics.records.chairs.stays import chair_name, chair_stays, named_chairs
from analytics.settings import Settings


def opened(settings: Settings, spans: Mapping[str, Period]) -> pl.DataFrame:
    """Opening hours within the spans: month (the span's name), starts, ends (UTC)."""
    zone = settings.salon.timezone
    open_spans = opening_spans(settings.hours, enveloping(spans), zone).select(starts="opens", ends="closes")
    return within(open_spans, span_instants(spans, zone))


def taken_in(stays: pl.DataFrame, months: pl.DataFrame) -> pl.DataFrame:
    """The times a chair was taken by these stays, joined where they overlap, of those that touch the months."""
    begin, end = months.select(pl.col("opens").min(), pl.col("closes").max()).row(0)
    if begin is None:
        return stays.clear().select("chair", "starts", "ends")
    touching = stays.filter((pl.col("starts") < end) & (pl.col("ends") > begin))
    return union(touching.select(chair_name(), "starts", "ends"), ["chair"])


def hours_by_chair(bookings: pl.DataFrame, settings: Settings, spans: Mapping[str, Period]) -> pl.DataFrame:
    """One row per span and chair: open_hours, inside_hours of them taken, occupied_hours taken at any time.

    Chairs are those of the settings and those seen. Visits that overlap on one chair count once.
    """
    zone = settings.salon.timezone
    length = total_hours(hours(pl.col("starts"), pl.col("ends")))
    chairs = pl.DataFrame({"chair": named_chairs(bookings, settings.salon.chairs)}, schema={"chair": pl.String()})
    is_open = opened(settings, spans)
    months = span_instants(spans, zone)
    taken = within(taken_in(chair_stays(bookings, zone), months), months)
    inside = within(taken.drop("month"), is_open.rename({"starts": "opens", "ends": "closes"}))
    key = ["month", "chair"]
    return (
        pl.DataFrame({"month": list(spans)}, schema={"month": pl.String()})
        .join(chairs, how="cross")
        .join(is_open.group_by("month").agg(open_hours=length), on="month", how="left")
        .join(taken.group_by(key).agg(occupied_hours=length), on=key, how="left")
        .join(inside.group_by(key).agg(inside_hours=length), on=key, how="left")
        .with_columns(pl.col("open_hours", "inside_hours", "occupied_hours").fill_null(0.0))
        .sort(key)
    )


def chair_hours(bookings: pl.DataFrame, settings: Settings, spans: Mapping[str, Period]) -> pl.DataFrame:
    """Per span, over all chairs: open_hours, inside_hours and occupied_hours."""
    by_chair = hours_by_chair(bookings, settings, spans)
    return by_chair.group_by("month", maintain_order=True).agg(
        pl.col("open_hours", "inside_hours", "occupied_hours").sum()
    )
