"""Visits that may come, drawn many times over from what is known on a day: how many and how many chair hours a week."""

from dataclasses import dataclass
from datetime import date

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.methods.renewal import Visits, drawn, following
from analytics.periods import week_start
from analytics.records.clients.rhythm import Habits, habits
from analytics.records.clients.root_visits import CLIENT

WEEKS = 12
SEED = 20_240_501
NEW_DAYS = 182  # new clients come as often as in the last half year
SETTLED_DAYS = 120  # in the first months of a book everybody looks new
FEW_VISITS = 3.0  # visits' worth of pull of a client's chair hours toward her kind's
Array = NDArray[np.float64]
HOURS_BEFORE_ANY = 1.0


@dataclass(frozen=True)
class Drawn:
    """visits and hours per run and week."""

    visits: Array
    hours: Array


def draw_ahead(
    made: pl.DataFrame, booked: pl.DataFrame, as_of: date, open_day: NDArray[np.int64], *, kept: float, runs: int
) -> Drawn:
    """made: site, client_id, kind, day, hours of each visit up to `as_of`, one per client and day. booked: the same of
    what lies ahead in the book. open_day: for each day after `as_of` the next open one, as days ahead. kept: the share
    of booked visits that come to pass."""
    draws = np.random.default_rng(SEED)
    days = len(open_day)
    habit = habits(made.drop("hours"), as_of, ranges=False)
    place = habit.clients.select(*CLIENT, whose=pl.int_range(pl.len()))
    new = len(place)  # the row of new clients
    ahead = booked.join(place, on=CLIENT, how="left").with_columns(
        pl.col("whose").fill_null(new), after=(pl.col("day") - as_of).dt.total_days()
    )
    came = _booked(ahead, runs, kept, draws)
    last = ahead.filter(pl.col("after") < days).group_by(*CLIENT).agg(pl.col("whose").first(), pl.col("after").max())
    starts = _every_run(last["whose"].to_numpy(), last["after"].to_numpy(), runs)
    free = np.setdiff1d(np.arange(new), ahead["whose"].to_numpy())
    first = _next(habit, free, days, runs, draws) + _new(made, as_of, days, runs, draws)
    gaps, stops = habit.again(days), habit.stops()
    walked_in = first + following(first, gaps, stops, draws) + following(starts, gaps, stops, draws)
    walked_in = walked_in._replace(day=open_day[walked_in.day - 1])
    hours = _hours(made, habit, walked_in, draws)
    return _by_week(came, walked_in, hours, as_of, runs)


def _every_run(whose: NDArray[np.int64], day: NDArray[np.int64], runs: int) -> Visits:
    return Visits(np.repeat(np.arange(runs), len(whose)), np.tile(whose, runs), np.tile(day, runs))


def _booked(ahead: pl.DataFrame, runs: int, kept: float, draws: np.random.Generator) -> tuple[Visits, Array]:
    """Booked visits that come to pass, with their booked hours."""
    every = _every_run(ahead["whose"].to_numpy(), ahead["after"].to_numpy(), runs)
    come = draws.random(len(every.day)) < kept
    hours = np.tile(ahead["hours"].to_numpy(), runs)[come]
    return Visits(every.run[come], every.whose[come], every.day[come]), hours


def _next(habit: Habits, free: NDArray[np.int64], days: int, runs: int, draws: np.random.Generator) -> Visits:
    """The next visit of each client who has none booked."""
    if not len(free):
        return Visits(*(np.zeros(0, np.int64) for _ in range(3)))
    chances = habit.ahead[:, :days] * habit.chance_of_return[:, None].astype(np.float32)
    every = _every_run(free, free, runs)
    day = drawn(chances, every.whose, draws)
    come = day <= days
    return Visits(every.run[come], every.whose[come], day[come])


def _new(made: pl.DataFrame, as_of: date, days: int, runs: int, draws: np.random.Generator) -> Visits:
    """First visits of clients who are not known yet, as often as of late."""
    if made.is_empty():
        return Visits(*(np.zeros(0, np.int64) for _ in range(3)))
    firsts = np.array([(day - as_of).days for day in made.group_by(CLIENT).agg(pl.col("day").min())["day"]])
    new = len(firsts)  # the row of new clients follows those of all others
    since = max(-NEW_DAYS, int(firsts.min()) + SETTLED_DAYS)
    if since >= 0:
        return Visits(*(np.zeros(0, np.int64) for _ in range(3)))
    number = draws.poisson(float((firsts > since).sum()) / -since * days, runs)
    total = int(number.sum())
    return Visits(np.repeat(np.arange(runs), number), np.full(total, new), draws.integers(1, days + 1, total))


def _hours(made: pl.DataFrame, habit: Habits, visits: Visits, draws: np.random.Generator) -> Array:
    """Chair hours of each visit drawn: the client's mean, pulled toward her kind's, times how visits scatter."""
    if made.is_empty():
        return np.full(len(visits.day), HOURS_BEFORE_ANY)
    kinds = made.group_by("kind").agg(of_kind=pl.col("hours").mean())
    own = made.group_by(CLIENT).agg(pl.col("hours").sum(), n=pl.len())
    usual = (
        habit.clients.join(kinds, on="kind", how="left", maintain_order="left")
        .join(own, on=CLIENT, how="left", maintain_order="left")
        .select(*CLIENT, usual=(pl.col("hours") + FEW_VISITS * pl.col("of_kind")) / (pl.col("n") + FEW_VISITS))
    )
    scatter = made.sort("day", "hours", "kind").join(usual, on=CLIENT, how="left", maintain_order="left")
    ratios = scatter.select(pl.col("hours") / pl.col("usual"))["hours"].fill_nan(1.0).to_numpy()
    firsts = made.sort("day").group_by(CLIENT).agg(pl.col("hours").first())["hours"].to_numpy()
    each = np.append(usual["usual"].to_numpy(), firsts.mean())
    out: Array = each[visits.whose] * ratios[draws.integers(0, len(ratios), len(visits.day))]
    return out


def _by_week(booked: tuple[Visits, Array], walked_in: Visits, hours: Array, as_of: date, runs: int) -> Drawn:
    before = (as_of - week_start(as_of)).days
    every, lengths = booked[0] + walked_in, np.concatenate([booked[1], hours])
    week = (every.day + before) // 7
    inside = week < WEEKS
    cell = every.run[inside] * WEEKS + week[inside]
    visits = np.bincount(cell, minlength=runs * WEEKS).astype(np.float64).reshape(runs, WEEKS)
    total = np.bincount(cell, weights=lengths[inside], minlength=runs * WEEKS).reshape(runs, WEEKS)
    return Drawn(visits, total.astype(np.float64))
