"""What comes in the rest of this week and in the next 12: chair hours to expect, what is booked, and what is open.

The salon's clock tells how much of a usual day each day brings (its opening hours, weekday, season, closed days near it
and the year's end, as the salon's own visits had them); times the level of late and the chair hours of a visit that is
what to expect. What is booked moves it by how much more or less that is than was booked that long before in the past
year: in a near week with little booked less is expected than the season alone would say. A booked visit counts as often
as those of the past year came to pass that stood in the book as many weeks before (half of the cancelled ones are taken
to have stood there still, since exports do not say when a visit was cancelled); where nothing at all is booked ahead,
exports are taken not to tell it. chair_hours_low and chair_hours_high hold 80 % of 2,000 draws with a fixed seed,
widened or narrowed by how the same reckoning missed at the month ends of the past year, and wider in weeks of a day or
two. No week holds more than is open, nor, where weeks of the past year were full (90 % and more of the open hours),
more than the fullest of them held: what does not fit goes to the weeks before and after it. chair_hours_wanted_low is
the low end before that, or that of what is booked and comes to pass where this is more. A week overflows where even
this is more than is open; it is overbooked where the book alone holds more than is open, though usually so much falls
out that it may fit (by chair_hours_over either way). It may fill up where the high end takes 95 % of what is open, and
has room where even then a quarter stays free. chair_hours_year_ago is what came in the same week a year (364 days)
before. chair_hours_booked is what the book holds, chair_hours_open the opening hours times the chairs, booked or not.
Weeks are ISO weeks; the first is this one, of which only what is left counts, today with what is booked for it. Where
nobody has come for four weeks in which the salon was open, nothing is expected but what is booked, and no range is
given.
"""

from datetime import date

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.definitions.results import DAY, HOURS, NUMBER, SHARE, TEXT, Column, Figure, Result
from analytics.records.clients.to_come import kept_shares, visits_booked
from analytics.records.clients.week_standing import with_standing
from analytics.records.clients.weeks_ahead import WEEKS, came
from analytics.records.clients.weeks_drawn import INNER
from analytics.records.clients.weeks_said import InBook, Said, weeks_of, weeks_said, year_before
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
        "standing": Column(TEXT, "overflows, overbooked, may_fill, room, ordinary or closed"),
        "free_share": Column(SHARE, "share of the open hours that stays free even at the high end; empty where closed"),
        "chair_hours_over": Column(HOURS, "what is too much: even at the low end, or in the book where overbooked"),
        "clients_until_then": Column(NUMBER, "visits to expect from today to the end of the week", "visits"),
    },
)

Array = NDArray[np.float64]
DIGITS = 6  # of hours; sums in another order differ behind these


def ahead(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, as_of: date) -> pl.DataFrame:
    """One row per ISO week, this one and 12 more; visits and hours."""
    booked, kept = visits_booked(bookings, services, settings, as_of), kept_shares(bookings, as_of)
    in_book, today = _by_week(booked, as_of), _by_week(booked.filter(pl.col("day") == as_of), as_of)
    now, likely = (_kept(part, "hours", kept) for part in (today, in_book))
    varies = kept * (1 - kept) * in_book["squares"].to_numpy()
    said = weeks_said(bookings, settings, as_of, InBook(now, likely - now, varies))
    others = np.maximum(said.drawn.expected - likely, 0) / said.reckoned.visit_hours
    told = {
        "week_start": weeks_of(as_of),
        "clients_expected": _kept(in_book, "visits", kept) + others,
        "chair_hours_expected": said.drawn.expected,
        **_ranges(said, likely - INNER * np.sqrt(varies)),
        "chair_hours_booked": in_book["hours"],
        "chair_hours_open": said.open_hours,
        "chair_hours_year_ago": year_before(came(bookings, settings), as_of),
    }
    weeks = pl.DataFrame(told, schema_overrides={"week_start": pl.Date()})
    return RESULT.shape(with_standing(weeks).with_columns(pl.col(pl.Float64).round(DIGITS)))


def ahead_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, as_of: date) -> pl.DataFrame:
    """What the book holds in these weeks: site, client_id, kind, day, hours, visits, and what of them is still open."""
    return visits_booked(bookings, services, settings, as_of)


def _by_week(booked: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """hours and visits of each week, those still open of them, and the sum of squares of the open hours."""
    week = booked.group_by(week=pl.col("day").dt.truncate("1w"), maintain_order=True)
    sums = pl.col("hours", "visits", "hours_open", "visits_open").sum()
    found = week.agg(sums, squares=(pl.col("hours_open") ** 2).sum())
    every = pl.DataFrame({"week": weeks_of(as_of)}, schema={"week": pl.Date()})
    return every.join(found, on="week", how="left", maintain_order="left").fill_null(0)


def _kept(booked: pl.DataFrame, of: str, kept: Array) -> Array:
    """Hours or visits a week that are likely to come to pass."""
    out: Array = booked[of].to_numpy() - booked[f"{of}_open"].to_numpy() * (1 - kept)
    return out


def _ranges(said: Said, kept_low: Array) -> dict[str, list[float | None]]:
    """kept_low: the low end of what is booked and comes to pass. No range where nobody came for long: how many may come
    again is not known."""
    wanted_low = np.maximum(said.drawn.wanted_low, kept_low)
    found = {"low": said.drawn.low, "high": said.drawn.high, "wanted_low": wanted_low}
    stale = said.reckoned.stale
    return {f"chair_hours_{name}": [None] * WEEKS if stale else ends.tolist() for name, ends in found.items()}


FIGURE = Figure(ahead, ahead_rows, RESULT)
