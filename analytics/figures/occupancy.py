"""How much of the opening hours each chair was taken.

Open hours are the salon's opening hours of the month, closed days left out, the same for every chair; where [salon]
open_chairs is "at_work", no more chairs are open on a day than stylists stand in its bookings: those that were taken,
and of the others each the same part of the hours that are left. A chair is
taken from the start to the end of each visit that happened, developing included; visits that overlap on one chair
count once (the union of their times). Occupied hours are all of that time; the occupied share is the part within
opening hours ÷ open hours. Work outside opening hours is in the hours, not in the share. A month that is not over has
the hours gone by, up to and with today, as in every other figure.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import HOURS, MONTH_KEY, SHARE, TEXT, Column, Figure, Result
from analytics.methods.intervals import union, within
from analytics.methods.quotient import per
from analytics.periods import Period, month_spans
from analytics.records.chairs.open_hours import hours_by_chair
from analytics.records.chairs.stays import chair_name, chair_stays
from analytics.settings import Settings

RESULT = Result(
    "one row per month and chair",
    key=("month", "chair"),
    columns={
        **MONTH_KEY,
        "chair": Column(TEXT, "the chair"),
        "open_hours": Column(HOURS, "hours the salon was open; of a month that is not over, those gone by"),
        "occupied_hours": Column(HOURS, "hours the chair was taken, outside opening hours included"),
        "occupied_share": Column(SHARE, "taken within opening hours ÷ opening hours"),
    },
)


def occupancy(bookings: pl.DataFrame, *, settings: Settings, period: Period, as_of: date) -> pl.DataFrame:
    """One row per month of the period and chair (of salon.toml and of the bookings); hours."""
    gone_by = {month: part.gone_by(as_of) for month, part in period.parts().items()}
    return RESULT.shape(
        hours_by_chair(bookings, settings, gone_by).with_columns(occupied_share=per("inside_hours", "open_hours"))
    )


def occupancy_rows(bookings: pl.DataFrame, *, settings: Settings, period: Period, as_of: date) -> pl.DataFrame:
    """The times each chair was taken, joined where they overlap: chair, starts, ends (UTC)."""
    zone = settings.salon.timezone
    whole = month_spans(period.gone_by(as_of), zone).select(pl.col("opens").min(), pl.col("closes").max()).drop_nulls()
    stays = chair_stays(bookings, zone).select(chair_name(), "starts", "ends")
    return within(union(stays, ["chair"]), whole).sort("chair", "starts")


FIGURE = Figure(occupancy, occupancy_rows, RESULT)
