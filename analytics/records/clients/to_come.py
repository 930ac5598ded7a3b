"""Visits made and booked as drawing the weeks ahead needs them, and how busy these weeks will be against the last."""

from datetime import date, timedelta

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.methods.intervals import hours
from analytics.periods import week_start
from analytics.records.chairs.stays import VISIT, chair_stays
from analytics.records.clients.first_visits import client_visits
from analytics.records.clients.root_visits import CLIENT
from analytics.records.clients.weeks_ahead import WEEKS, draw_ahead
from analytics.settings import Settings

KEPT_BEFORE_ANY, KEPT_WEIGHT = 0.9, 20.0  # share of bookings that come to pass, before any was seen
RUNS = 20  # enough for a mean over weeks
LEAST_DAYS, LEAST_VISITS = 180, 30  # of the book, and of the weeks before, to tell a rhythm from
STALE_DAYS = 14
TOLD_APART = 0.8  # of visits that are the only one of their client and day


def visits_made(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, as_of: date) -> pl.DataFrame:
    """One row per client and day with a completed visit up to `as_of`: kind of the longest line, chair hours."""
    visits = client_visits(bookings, services, as_of)
    stays = (
        chair_stays(bookings, settings.salon.timezone)
        .group_by(VISIT)
        .agg(hours=hours(pl.col("starts"), pl.col("ends")).sum())
    )
    return (
        visits.join(stays, on=VISIT, how="left")
        .sort("hours", "kind", descending=[True, False])
        .group_by(*CLIENT, "day", maintain_order=True)
        .agg(pl.col("kind").first(), pl.col("hours").sum())
        .sort(*CLIENT, "day")
    )


def visits_booked(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, as_of: date) -> pl.DataFrame:
    """The same of what is booked from `as_of` to the end of the 12 weeks."""
    end = week_start(as_of) + timedelta(weeks=WEEKS)
    day = pl.col("starts_at").dt.date()
    ahead = bookings.filter((pl.col("status") == "booked") & (day >= as_of) & (day < end))
    return visits_made(ahead.with_columns(status=pl.lit("completed")), services, settings, end)


def kept_share(bookings: pl.DataFrame, as_of: date) -> float:
    """The share of visits in the book of the past year that came to pass."""
    past = bookings.filter(
        (pl.col("starts_at").dt.date() <= as_of)
        & (pl.col("starts_at").dt.date() > as_of - timedelta(days=365))
        & pl.col("status").is_in(["completed", "cancelled", "no_show"])
    ).unique([*VISIT, "status"])
    came = past.filter(pl.col("status") == "completed").height
    return (came + KEPT_BEFORE_ANY * KEPT_WEIGHT) / (past.height + KEPT_WEIGHT)


def next_open_days(settings: Settings, as_of: date) -> NDArray[np.int64]:
    """For each day after `as_of` in the 12 weeks how many days ahead the next open day is, itself if it is one."""
    days = (week_start(as_of) + timedelta(weeks=WEEKS) - as_of).days - 1
    reach = [bool(settings.hours.of(as_of + timedelta(days=ahead))) for ahead in range(1, days + 1)]
    following, next_open = np.arange(1, days + 1), days + 1
    for place in range(days - 1, -1, -1):
        next_open = place + 1 if reach[place] else next_open
        following[place] = next_open if any(reach) else place + 1
    return following


def busier(
    bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, as_of: date, *, back: int, weeks: int
) -> float | None:
    """Visits to expect a week over the next whole `weeks` ÷ visits a week over the last `back` weeks.

    Never less than half nor more than double. None where there is too little to expect anything from: half a year of
    visits, LEAST_VISITS in the last weeks, the latest not long ago, and clients told apart (where one stands for many,
    several visits fall on one of her days).
    """
    made = visits_made(bookings, services, settings, as_of - timedelta(days=1))
    days = made["day"]
    recent = days.filter(days >= as_of - timedelta(weeks=back)).len()
    visits = client_visits(bookings, services, as_of - timedelta(days=1)).height
    if (
        recent < LEAST_VISITS
        or len(days) < visits * TOLD_APART
        or _age(days.min(), as_of) < LEAST_DAYS
        or _age(days.max(), as_of) > STALE_DAYS
    ):
        return None
    booked = visits_booked(bookings, services, settings, as_of)
    open_days, kept = next_open_days(settings, as_of), kept_share(bookings, as_of)
    drawn = draw_ahead(made, booked, as_of, open_days, kept=kept, runs=RUNS)
    expected = float(drawn.visits[:, 1 : 1 + weeks].mean())
    return min(max(expected / (recent / back), 0.5), 2.0)


def _age(day: object, as_of: date) -> int:
    return (as_of - day).days if isinstance(day, date) else 0
