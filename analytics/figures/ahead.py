"""What the next 12 weeks hold: clients and chair hours to expect, what is booked, and what is open.

For every client the probability of a visit in each week is added up, times the chair hours such a visit takes for her:
visits of all kinds, her second and third within the 12 weeks too. It comes from drawing the weeks 200 times over with a
fixed seed: clients without a booking come by their habit (worked out as for `roots`, from visits of any kind) and by
their chance of return; booked visits come to pass as often as bookings of the past year did, and the habit goes on
after the last of them; clients not known yet come as often as in the last half year. A visit's hours are the client's
mean, pulled toward her kind's by how few she has, and scatter as visits have. What falls on a closed day moves to the
next open day. chair_hours_low and chair_hours_high hold 80 % of the draws, which are moved and spread by how the same
reckoning, three times over the past year, missed what then happened: seasons, holidays and drifts show there.
chair_hours_booked is what the book holds, chair_hours_open the opening hours times the chairs, booked or not; a week
with more expected than open overflows. Weeks are ISO weeks; the first is this one, of which only what is left counts,
today with what is booked for it.
"""

from datetime import date, timedelta

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.definitions.results import RESULTS
from analytics.periods import Period, week_start
from analytics.records.chairs.open_hours import hours_by_chair
from analytics.records.clients.to_come import KEPT_BEFORE_ANY, kept_share, next_open_days, visits_booked, visits_made
from analytics.records.clients.weeks_ahead import SEED, WEEKS, draw_ahead
from analytics.settings import Settings

RUNS, PAST_RUNS = 200, 20
PAST_DAYS = (84, 182, 273)  # how long ago the same reckoning is tried
LEAST_HISTORY = 180  # days of the book before that
MISS_WEIGHT = 12.0  # weeks' worth of trust that the reckoning is right
USUAL_MISS = 0.03  # and how far it is off by then
Array = NDArray[np.float64]


def ahead(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, as_of: date) -> pl.DataFrame:
    """One row per ISO week, 12 from this one; visits and hours."""
    made = visits_made(bookings, services, settings, as_of)
    booked = visits_booked(bookings, services, settings, as_of)
    open_days, kept = next_open_days(settings, as_of), kept_share(bookings, as_of)
    draws = draw_ahead(made, booked, as_of, open_days, kept=kept, runs=RUNS)
    moved = draws.hours * _misses(made, settings, as_of, draws.hours.shape)
    low, high = np.quantile(moved, [0.1, 0.9], axis=0)
    first = week_start(as_of)
    weeks = [first + timedelta(weeks=week) for week in range(WEEKS)]
    told = {
        "week_start": weeks,
        "clients_expected": draws.visits.mean(axis=0),
        "chair_hours_expected": moved.mean(axis=0),
        "chair_hours_low": low,
        "chair_hours_high": high,
    }
    week = pl.col("day").dt.truncate("1w")
    in_book = booked.group_by(week_start=week).agg(chair_hours_booked=pl.col("hours").sum())
    return RESULTS["ahead"].shape(
        pl.DataFrame(told, schema_overrides={"week_start": pl.Date()})
        .join(in_book, on="week_start", how="left")
        .join(_open(bookings, settings, weeks, as_of), on="week_start", how="left")
        .with_columns(pl.col("chair_hours_booked", "chair_hours_open").fill_null(0.0))
        .sort("week_start")
    )


def ahead_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, as_of: date) -> pl.DataFrame:
    """What the book holds in these weeks: site, client_id, kind, day, hours."""
    return visits_booked(bookings, services, settings, as_of)


def _open(bookings: pl.DataFrame, settings: Settings, weeks: list[date], as_of: date) -> pl.DataFrame:
    spans = {f"{week}": Period(max(week, as_of), week + timedelta(weeks=1)) for week in weeks}
    return (
        hours_by_chair(bookings, settings, spans)
        .group_by("month")
        .agg(chair_hours_open=pl.col("open_hours").sum())
        .select("chair_hours_open", week_start=pl.col("month").str.to_date())
    )


def _misses(made: pl.DataFrame, settings: Settings, as_of: date, shape: tuple[int, ...]) -> Array:
    """A factor per run and week: how far, and how differently, the reckoning missed weeks of the past year.

    The spread is what the scatter of the draws does not explain by itself.
    """
    past = [_missed(made, settings, as_of - timedelta(days=ago)) for ago in PAST_DAYS]
    logs, scatter = np.concatenate([np.zeros((2, 0)), *past], axis=1)
    weight = len(logs) + MISS_WEIGHT
    middle = logs.sum() / weight
    unexplained = ((logs - middle) ** 2 - scatter).sum() + USUAL_MISS**2 * MISS_WEIGHT
    spread = np.sqrt(max(unexplained, 0) / weight)
    factors: Array = np.exp(middle + spread * np.random.default_rng(SEED + 1).standard_normal(shape))
    return factors


def _missed(made: pl.DataFrame, settings: Settings, day: date) -> Array:
    """Whole weeks after the day: logarithms of hours that came ÷ hours reckoned, and the draws' relative variance."""
    known = made.filter(pl.col("day") <= day)
    begun, last = made["day"].min(), made["day"].max()
    if begun is None or last is None or begun > day - timedelta(days=LEAST_HISTORY):  # type: ignore[operator]
        return np.zeros((2, 0))
    drawn = draw_ahead(known, known.clear(), day, next_open_days(settings, day), kept=KEPT_BEFORE_ANY, runs=PAST_RUNS)
    weeks = pl.DataFrame(
        {
            "week": [week_start(day) + timedelta(weeks=week) for week in range(WEEKS)],
            "reckoned": drawn.hours.mean(axis=0),
            "variance": drawn.hours.var(axis=0),
        }
    )
    came = made.filter(pl.col("day") > day).group_by(week=pl.col("day").dt.truncate("1w")).agg(pl.col("hours").sum())
    whole = weeks.join(came, on="week").filter(
        (pl.col("week") > day) & (pl.col("week") + pl.duration(days=6) <= last) & (pl.col("reckoned") > 0)
    )
    ratio = whole.select((pl.col("hours") / pl.col("reckoned")).log(), pl.col("variance") / pl.col("reckoned") ** 2)
    return ratio.to_numpy().T
