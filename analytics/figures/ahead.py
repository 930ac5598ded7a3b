"""What comes in the rest of this week and in the next 12: chair hours to expect, what is booked, and what is open.

The salon's clock tells how much of a usual day each day brings (its opening hours, weekday, season, closed days near it
and the year's end, as the salon's own visits had them); times the level of late and the chair hours of a visit that is
what to expect. What is booked moves it by how much more or less that is than was booked that long before in the past
year: in a near week with little booked less is expected than the season alone would say. A booked visit counts as often
as bookings of the past year came to pass. chair_hours_low and chair_hours_high hold 80 % of 2,000 draws with a fixed
seed, widened or narrowed by how the same reckoning missed at the month ends of the past year. No week holds more than
its chairs do (or the most they have held in the past year): what does not fit goes to the weeks before and after it.
chair_hours_wanted_low is the low end before that: a week overflows where even this is more than is open.
chair_hours_year_ago is what came in the same week a year (364 days) before. chair_hours_booked is what the book holds,
chair_hours_open the opening hours times the chairs, booked or not. Weeks are ISO weeks; the first is this one, of which
only what is left counts, today with what is booked for it. Where nobody has come for four weeks in which the salon was
open, nothing is expected but what is booked, and no range is given.
"""

from datetime import date, timedelta

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.definitions.results import DAY, HOURS, NUMBER, Column, Figure, Result
from analytics.methods.intervals import hours
from analytics.periods import Period, week_start
from analytics.records.chairs.open_hours import opened
from analytics.records.chairs.stays import named_chairs
from analytics.records.clients.to_come import kept_share, visits_booked
from analytics.records.clients.weeks_ahead import WEEKS, YEAR_DAYS, Came, Reckoned, came, hours_after, reckoned
from analytics.records.clients.weeks_drawn import Drawn, drawn, misses
from analytics.settings import Settings

RESULT = Result(
    "one row per ISO week: what is left of this one, and 12 more",
    key=("week_start",),
    columns={
        "week_start": Column(DAY, "Monday of the week; of this week only what is left counts"),
        "clients_expected": Column(NUMBER, "visits to expect", "visits"),
        "chair_hours_expected": Column(HOURS, "chair hours to expect"),
        "chair_hours_low": Column(HOURS, "low end of their 80 % range; empty where nobody came for four weeks"),
        "chair_hours_high": Column(HOURS, "high end of their 80 % range"),
        "chair_hours_wanted_low": Column(HOURS, "low end of what is wanted, whether or not the chairs hold it"),
        "chair_hours_booked": Column(HOURS, "chair hours in the book"),
        "chair_hours_open": Column(HOURS, "opening hours × chairs, booked or not"),
        "chair_hours_year_ago": Column(HOURS, "what came in the same week a year before; empty where unknown"),
    },
)

Array = NDArray[np.float64]
PAST_WEEKS, HALF_OPEN = 52, 0.5  # of a full week's hours, from which on a past week tells what chairs hold
DIGITS = 6


def ahead(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, as_of: date) -> pl.DataFrame:
    """One row per ISO week, this one and 12 more; visits and hours."""
    visits, booked = came(bookings, settings), visits_booked(bookings, services, settings, as_of)
    weeks = _weeks(as_of, 0, WEEKS)
    in_book = _booked(booked, weeks)
    kept = kept_share(bookings, as_of)
    today = _booked(booked.filter(pl.col("day") == as_of), weeks)
    likely, now = ((part["hours"] * kept).to_numpy() for part in (in_book, today))
    said = reckoned(visits, settings.hours, as_of, likely - now)
    said = Reckoned(said.hours + now, said.spread, said.visit_hours, said.stale)
    open_hours = _open(
        bookings, settings, {week: Period(max(week, as_of), week + timedelta(weeks=1)) for week in weeks}
    )
    most = open_hours * _fullest(visits, bookings, settings, as_of)
    draws = drawn(said, misses(visits, settings, as_of), np.maximum(most, likely))
    number = in_book["visits"].to_numpy() * kept + np.maximum(draws.expected - likely, 0) / said.visit_hours
    told = pl.DataFrame(
        {
            "week_start": weeks,
            "clients_expected": number,
            "chair_hours_expected": draws.expected,
            **_ranges(draws, said),
            "chair_hours_booked": in_book["hours"],
            "chair_hours_open": open_hours,
            "chair_hours_year_ago": _year_ago(visits, as_of),
        },
        schema_overrides={"week_start": pl.Date()},
    )
    return RESULT.shape(told.with_columns(pl.col(pl.Float64).round(DIGITS)))


def ahead_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, as_of: date) -> pl.DataFrame:
    """What the book holds in these weeks: site, client_id, kind, day, hours, visits."""
    return visits_booked(bookings, services, settings, as_of)


def _weeks(as_of: date, first: int, last: int) -> list[date]:
    return [week_start(as_of) + timedelta(weeks=week) for week in range(first, last)]


def _booked(booked: pl.DataFrame, weeks: list[date]) -> pl.DataFrame:
    """hours and visits of each week."""
    found = booked.group_by(week=pl.col("day").dt.truncate("1w")).agg(pl.col("hours", "visits").sum())
    every = pl.DataFrame({"week": weeks}, schema={"week": pl.Date()})
    return every.join(found, on="week", how="left", maintain_order="left").fill_null(0)


def _open(bookings: pl.DataFrame, settings: Settings, spans: dict[date, Period]) -> Array:
    """Opening hours times chairs of each span."""
    named = {f"{week}": span for week, span in spans.items()}
    lasts = opened(settings, named).group_by("month").agg(hours=hours(pl.col("starts"), pl.col("ends")).sum())
    every = pl.DataFrame({"month": list(named)}).join(lasts, on="month", how="left", maintain_order="left")
    chairs = len(named_chairs(bookings, settings.salon.chairs))
    return every["hours"].fill_null(0.0).to_numpy() * chairs


def _fullest(visits: Came, bookings: pl.DataFrame, settings: Settings, as_of: date) -> float:
    """The largest share of its open hours that a week of the past year has held, where that is more than all."""
    weeks = _weeks(as_of, -PAST_WEEKS, 0)
    open_hours = _open(bookings, settings, {week: Period(week, week + timedelta(weeks=1)) for week in weeks})
    monday = (weeks[0] - date(1970, 1, 1)).days
    past = (visits.day >= monday) & (visits.day < monday + 7 * PAST_WEEKS)
    held = np.bincount((visits.day[past] - monday) // 7, weights=visits.hours[past], minlength=PAST_WEEKS)
    tells = open_hours > HALF_OPEN * open_hours.max()
    return float(np.max(held[tells] / open_hours[tells], initial=1.0))


def _year_ago(visits: Came, as_of: date) -> list[float | None]:
    """Empty where the book does not reach back so far."""
    then = as_of - timedelta(days=YEAR_DAYS)
    first = date(1970, 1, 1) + timedelta(days=int(visits.day[0])) if len(visits.day) else as_of
    hours_then, weeks = hours_after(visits, then), _weeks(then, 0, WEEKS)
    known = [first <= max(week, then + timedelta(days=1)) for week in weeks]
    return [float(each) if there else None for each, there in zip(hours_then, known, strict=True)]


def _ranges(draws: Drawn, said: Reckoned) -> dict[str, list[float | None]]:
    found = {"low": draws.low, "high": draws.high, "wanted_low": draws.wanted_low}
    return {
        f"chair_hours_{name}": [None if said.stale else float(each) for each in ends] for name, ends in found.items()
    }


FIGURE = Figure(ahead, ahead_rows, RESULT)
