"""Visits booked ahead and how many of them come to pass, and how busy the coming weeks will be against the last."""

from datetime import date, timedelta

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.methods.intervals import hours
from analytics.periods import week_start
from analytics.records.chairs.stays import VISIT, stays_of
from analytics.records.clients.first_visits import client_visits
from analytics.records.clients.root_visits import CLIENT
from analytics.records.clients.weeks_ahead import WEEKS, this_week
from analytics.records.clock import clock
from analytics.settings import Settings

Array = NDArray[np.float64]
KEPT_BEFORE_ANY, KEPT_WEIGHT = 0.9, 20.0  # share of bookings that come to pass, before any was seen
STILL_BOOKED = 0.5  # of cancelled visits: exports do not say when they were cancelled (no source)
LEAST_DAYS, LEAST_VISITS = 180, 30  # of the book, and of the weeks before, to tell anything from
STALE_DAYS = 14
MOST_CHANGE = 2.0


def visits_booked(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, as_of: date) -> pl.DataFrame:
    """What is booked from `as_of` to the end of the weeks ahead, one row per client and day: site, client_id, kind of
    the longest visit, day, chair hours, visits, and hours_open and visits_open of what nobody knows yet to have come.

    On a past day the book held visits that have come since as well: those that were made by then.
    """
    end = week_start(as_of) + timedelta(weeks=WEEKS)
    day, status = pl.col("starts_at").dt.date(), pl.col("status")
    came_since = (status == "completed") & (day > as_of) & (pl.col("booked_on") <= as_of)
    lines = bookings.filter(((status == "booked") | came_since) & (day >= as_of) & (day < end))
    stays = stays_of(lines, settings.salon.timezone, ["status"]).group_by(*VISIT)
    lasts = stays.agg(hours=hours(pl.col("starts"), pl.col("ends")).sum(), open=(pl.col("status") == "booked").any())
    is_open = pl.col("open").fill_null(True)
    return (
        client_visits(lines.with_columns(status=pl.lit("completed")), services, end)
        .join(lasts, on=VISIT, how="left")
        .sort("hours", "kind", descending=[True, False])
        .group_by(*CLIENT, "day", maintain_order=True)
        .agg(
            pl.col("kind").first(),
            pl.col("hours").sum(),
            visits=pl.len(),
            hours_open=pl.col("hours").filter(is_open).sum(),
            visits_open=is_open.sum(),
        )
        .sort(*CLIENT, "day")
    )


def kept_shares(bookings: pl.DataFrame, as_of: date) -> Array:
    """Of the visits of the past year that stood in the book so many weeks before, the share that came to pass: for the
    rest of this week and each of the weeks ahead, pulled toward that of all visits by how few they are."""
    day = pl.col("starts_at").dt.date()
    past = bookings.filter(
        (day <= as_of)
        & (day > as_of - timedelta(days=365))
        & pl.col("status").is_in(["completed", "cancelled", "no_show"])
    ).unique([*VISIT, "status"])
    before = (day - pl.col("booked_on")).dt.total_days()
    share = _kept(past, KEPT_BEFORE_ANY)
    return np.array([_kept(past.filter(before >= 7 * week), share) if week else share for week in range(WEEKS)])


def _kept(past: pl.DataFrame, usual: float) -> float:
    """The share that came to pass, pulled toward what is usual."""
    number = dict(past.group_by("status").len().iter_rows())
    came, cancelled = number.get("completed", 0), STILL_BOOKED * number.get("cancelled", 0)
    in_book = came + number.get("no_show", 0) + cancelled
    return float((came + usual * KEPT_WEIGHT) / (in_book + KEPT_WEIGHT))


def busier(
    bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, as_of: date, *, back: int, weeks: int
) -> float | None:
    """Visits to expect a week by the salon's clock over the next whole `weeks` ÷ visits a week over the last `back`.

    Never less than half nor more than double. None where there is too little to expect anything from: half a year of
    visits, LEAST_VISITS in the last weeks, the latest not long ago.
    """
    yesterday = as_of - timedelta(days=1)
    days = client_visits(bookings, services, yesterday)["day"]
    recent = days.filter(days >= as_of - timedelta(weeks=back)).len()
    if recent < LEAST_VISITS or _age(days.min(), as_of) < LEAST_DAYS or _age(days.max(), as_of) > STALE_DAYS:
        return None
    monday = this_week(as_of)[1] + 7
    expected = clock(bookings, settings, yesterday).visits(np.arange(monday, monday + 7 * weeks)).sum() / weeks
    return min(max(float(expected) / (recent / back), 1 / MOST_CHANGE), MOST_CHANGE)


def _age(day: object, as_of: date) -> int:
    return (as_of - day).days if isinstance(day, date) else 0
