"""How many days lie between a colour client's root visits, by month of the later visit: the median of the gaps.

A gap is the time from one completed visit that reset a client's roots to that client's next one, whatever lies in
between; it counts in the month of the later visit, however long ago the earlier one was. Visits of one day are one, and
a client's first visit on record ends no gap. Gaps that are still open are in none, so the latest months say nothing of
clients who stay away: `returns` and `roots` do.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import CLIENTS, COUNT, DAYS, MONTH_KEY, Column, Figure, Result
from analytics.periods import Period, month_of
from analytics.records.clients.root_visits import CLIENT, root_lines, root_visits

RESULT = Result(
    "one row per month of the period",
    key=("month",),
    columns={
        **MONTH_KEY,
        "median_gap_days": Column(DAYS, "median of the gaps that ended in the month; empty where none did"),
        "gaps": Column(COUNT, "gaps that ended in the month", "gaps"),
        "clients": Column(CLIENTS, "clients whose gaps they were"),
    },
)


def rebooking_gap(bookings: pl.DataFrame, services: pl.DataFrame, *, period: Period, as_of: date) -> pl.DataFrame:
    """One row per month; days."""
    ended = (
        rebooking_gap_rows(bookings, services, period=period, as_of=as_of)
        .group_by(month=month_of(pl.col("day")))
        .agg(median_gap_days=pl.col("gap_days").median(), gaps=pl.len(), clients=pl.struct(CLIENT).n_unique())
    )
    every = pl.DataFrame({"month": period.months()}, schema={"month": pl.String()})
    counts = pl.col("gaps", "clients").fill_null(0)
    return RESULT.shape(every.join(ended, on="month", how="left").with_columns(counts).sort("month"))


def rebooking_gap_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, period: Period, as_of: date) -> pl.DataFrame:
    """The root visits that ended a gap: site, client_id, day, kind, stylist, gap_days, file, row."""
    visits = root_visits(root_lines(bookings, services), as_of)
    return visits.filter(period.holds(pl.col("day")) & pl.col("gap_days").is_not_null())


FIGURE = Figure(rebooking_gap, rebooking_gap_rows, RESULT)
