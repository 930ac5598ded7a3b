"""Open chair hours, and what of them was taken.

Every chair is open whenever the salon is, or, where the settings say "at_work", no more chairs than stylists stand in
the day's bookings (of any status). A chair that was taken that day is open all of it; the others share what is left in
equal parts. A day without a booking has all its chairs open.
"""

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
    is_open, by_chair = opened(settings, spans), open_chairs(bookings, settings, spans)
    chairs = pl.DataFrame({"chair": named_chairs(bookings, settings.salon.chairs)}, schema={"chair": pl.String()})
    months = span_instants(spans, zone)
    taken = within(taken_in(chair_stays(bookings, zone), months), months)
    inside = within(taken.drop("month"), is_open.rename({"starts": "opens", "ends": "closes"}))
    key = ["month", "chair"]
    return (
        pl.DataFrame({"month": list(spans)}, schema={"month": pl.String()})
        .join(chairs, how="cross")
        .join(by_chair.group_by(key).agg(open_hours=_length()), on=key, how="left")
        .join(taken.group_by(key).agg(occupied_hours=length), on=key, how="left")
        .join(inside.group_by(key).agg(inside_hours=length), on=key, how="left")
        .with_columns(pl.col("open_hours", "inside_hours", "occupied_hours").fill_null(0.0))
        .sort(key)
    )


def open_chairs(bookings: pl.DataFrame, settings: Settings, spans: Mapping[str, Period]) -> pl.DataFrame:
    """Opening hours of each chair: month, starts, ends (UTC), chair, part (of 1, how far the chair is open then)."""
    chairs = pl.DataFrame({"chair": named_chairs(bookings, settings.salon.chairs)}, schema={"chair": pl.String()})
    zone = settings.salon.timezone
    hours_open = opened(settings, spans).select("month", "starts", "ends").join(chairs, how="cross")
    if settings.salon.open_chairs == "all":
        return hours_open.with_columns(part=pl.lit(1.0))
    seen = bookings.select("site", chair_name()).drop_nulls().unique()
    day = pl.col("starts").dt.convert_time_zone(zone).dt.date().alias("day")
    return (
        hours_open.join(seen, on="chair", how="left", maintain_order="left")
        .with_columns(pl.col("site").fill_null(""), day)
        .join(_at_work(bookings), on=["site", "day"], how="left", maintain_order="left")
        .join(_taken_on(chair_stays(bookings, zone), zone), on=["chair", "day"], how="left", maintain_order="left")
        .with_columns(part=_part_open())
        .select("month", "starts", "ends", "chair", "part")
    )


def _at_work(bookings: pl.DataFrame) -> pl.DataFrame:
    """Per site and day: how many stylists stand in its bookings."""
    lines = bookings.drop_nulls("stylist").select("site", "stylist", day=pl.col("starts_at").dt.date())
    return lines.group_by("site", "day").agg(stylists=pl.col("stylist").n_unique())


def _taken_on(stays: pl.DataFrame, timezone: str) -> pl.DataFrame:
    """The days on which a chair was taken: chair, day, was_taken."""
    days = [
        stays.select(chair_name(), day=pl.col(end).dt.convert_time_zone(timezone).dt.date())
        for end in ("starts", "ends")
    ]
    return pl.concat(days).unique().with_columns(was_taken=pl.lit(True))


def _part_open() -> pl.Expr:
    """1 for a chair taken that day; of the others each the same part of the chairs that stylists are left for."""
    taken = pl.col("was_taken").fill_null(False)
    group = ["starts", "site"]
    idle, busy = (~taken).sum().over(group), taken.sum().over(group)
    left = (pl.col("stylists").cast(pl.Int64) - busy.cast(pl.Int64)).clip(0, idle.cast(pl.Int64))
    return pl.when(taken | pl.col("stylists").is_null()).then(1.0).otherwise(left / idle)


def _length() -> pl.Expr:
    return total_hours(hours(pl.col("starts"), pl.col("ends")) * pl.col("part"))


def open_chair_hours(bookings: pl.DataFrame, settings: Settings, spans: Mapping[str, Period]) -> dict[str, float]:
    """Per span, over all chairs: the hours that are open."""
    return dict(open_chairs(bookings, settings, spans).group_by("month").agg(open_hours=_length()).iter_rows())


def chair_hours(bookings: pl.DataFrame, settings: Settings, spans: Mapping[str, Period]) -> pl.DataFrame:
    """Per span, over all chairs: open_hours, inside_hours and occupied_hours."""
    by_chair = hours_by_chair(bookings, settings, spans)
    return by_chair.group_by("month", maintain_order=True).agg(
        pl.col("open_hours", "inside_hours", "occupied_hours").sum()
    )
