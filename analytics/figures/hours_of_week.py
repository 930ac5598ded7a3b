"""How full the chairs are at each hour of the week, and what such an hour brings.

One row for each weekday and clock hour in which the salon was open, a chair was taken or a visit began in the period.
Open hours are chair hours gone by: opening hours of the chairs that count as open. Taken hours are those in which a
chair was taken within opening hours, visits that overlap on one chair counted once; the share is taken ÷ open. Net is
that of the lines that begin in the period, spread evenly over the time their visit took the chair, in whole minor
units that add up to it; a visit that took no time stands at the hour it begins. Net per open hour is net ÷ open
hours, with nothing where nothing was open. Clock hours are local: one that the clock skips in spring is not there,
one that it repeats in autumn counts twice.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import CLOCK_HOUR, HOURS, MONEY, MONEY_PER_HOUR, SHARE, TEXT, Column, Figure, Result
from analytics.methods.intervals import hours, total_hours, union, within
from analytics.methods.quotient import per
from analytics.money import digits_of, shared_by_time
from analytics.periods import Period, by_clock_hour, clock, opening_spans
from analytics.records.chairs.lines import completed_lines
from analytics.records.chairs.open_hours import open_chairs
from analytics.records.chairs.stays import STAY, chair_name, chair_stays
from analytics.settings import WEEKDAYS, Settings

RESULT = Result(
    "one row per weekday and clock hour of the period",
    key=("weekday", "hour"),
    columns={
        "weekday": Column(TEXT, "mon to sun"),
        "hour": Column(CLOCK_HOUR, "0 to 23, from that hour on, local time"),
        "open_hours": Column(HOURS, "open chair hours that lie in it"),
        "taken_hours": Column(HOURS, "of them, hours in which a chair was taken"),
        "taken_share": Column(SHARE, "taken ÷ open hours"),
        "net": Column(MONEY, "net of the visits, spread over their time"),
        "net_per_open_hour": Column(MONEY_PER_HOUR, "net ÷ open hours"),
    },
)

CELL = ["weekday", "hour"]


def hours_of_week(
    bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period, as_of: date
) -> pl.DataFrame:
    """One row per weekday and clock hour; hours, money in the currency."""
    zone = settings.salon.timezone
    length = total_hours(hours(pl.col("starts"), pl.col("ends")))
    spans = opening_spans(settings.hours, period.gone_by(as_of), zone).drop("day")
    first, last = (pl.lit(day, spans.schema["opens"]) for day in (spans["opens"].min(), spans["closes"].max()))
    near = (pl.col("ends") >= first) & (pl.col("starts") <= last)
    stays = chair_stays(bookings, zone).filter(near).select(chair_name(), "starts", "ends")
    taken = within(union(stays, ["chair"]), spans)
    is_open = by_clock_hour(open_chairs(bookings, settings, {"all": period.gone_by(as_of)}), zone)
    days = dict(enumerate(WEEKDAYS, start=1))
    return RESULT.shape(
        is_open.group_by(CELL)
        .agg(open_hours=total_hours(hours(pl.col("starts"), pl.col("ends")) * pl.col("part")))
        .join(by_clock_hour(taken, zone).group_by(CELL).agg(taken_hours=length), on=CELL, how="full", coalesce=True)
        .join(_net(bookings, services, settings, period), on=CELL, how="full", coalesce=True)
        .with_columns(pl.col("open_hours", "taken_hours", "net").fill_null(0))
        .filter((pl.col("open_hours") > 0) | (pl.col("taken_hours") > 0) | pl.col("begun").is_not_null())
        .with_columns(
            taken_share=per("taken_hours", "open_hours"),
            net_per_open_hour=per("net", "open_hours"),
        )
        .sort(CELL)
        .with_columns(weekday=pl.col("weekday").replace_strict(days, return_dtype=pl.String))
    )


def hours_of_week_rows(
    bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period
) -> pl.DataFrame:
    """The completed lines whose net is spread."""
    return completed_lines(bookings, services, settings).filter(period.holds(pl.col("starts_at")))


def _net(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, period: Period) -> pl.DataFrame:
    """Per weekday and hour: net, and begun where anything was charged there."""
    zone = settings.salon.timezone
    lines = hours_of_week_rows(bookings, services, settings=settings, period=period)
    stays = lines.group_by(STAY).agg(pl.col("net").sum()).join(chair_stays(bookings, zone), on=STAY)
    timed, at_once = stays.filter(pl.col("ends") > pl.col("starts")), stays.filter(pl.col("ends") <= pl.col("starts"))
    part = (pl.col("ends") - pl.col("starts")).dt.total_microseconds()
    pieces = by_clock_hour(timed.sort(STAY).with_columns(whole=part), zone).with_columns(
        net=shared_by_time(pl.col("net"), part, pl.col("whole"), digits_of(settings.salon.currency), STAY)
    )
    moments = at_once.with_columns(*clock(pl.col("starts").dt.convert_time_zone(zone)))
    columns = [*CELL, pl.col("net").cast(RESULT.schema["net"])]
    both = pl.concat([pieces.select(columns), moments.select(columns)])
    return both.group_by(CELL).agg(pl.col("net").sum(), begun=pl.lit(True))


FIGURE = Figure(hours_of_week, hours_of_week_rows, RESULT)
