"""When each client is likely to come again, and whether she still will: root visits -> habits of the clients."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import NamedTuple

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.methods import dropping_out, return_times, weekdays
from analytics.records.clients.root_visits import CLIENT

AHEAD_DAYS = 350
COVERED = 0.8
ROUNDING = 1e-5  # of sums in single precision
USUAL_LEVELS = (0.1, 0.5, 0.9)
LEVELS_WEIGHT = 150.0  # returns' worth of trust in what the chances themselves say
QUARTER_DAYS = 91
USUAL_STOPPING = (1.0, 29.0)  # one visit in thirty was the last, until the salon's own visits tell
Array = NDArray[np.float64]
Chances = NDArray[np.float32]


@dataclass(frozen=True)
class Habits:
    """clients: one row per client, in the order of the arrays: site, client_id, kind, last_on, days_since, gaps.

    chance_of_return: that she is still a client. ahead: probability that she comes in 1, 2, … AHEAD_DAYS days, given
    that she is and has not come yet; the last day holds what lies further. levels: how much of `ahead` lies before the
    low end, the median and the high end of what is expected. rhythms, nodes, stopping: what the salon's and each
    client's gaps said of what comes after the next visit; none where there are no clients.
    """

    as_of: date
    clients: pl.DataFrame
    chance_of_return: Array
    ahead: Chances
    levels: tuple[float, float, float]
    rhythms: return_times.Rhythms | None = None
    nodes: Chances | None = None
    stopping: tuple[float, float] = USUAL_STOPPING

    def within(self, days: int) -> Array:
        """Chance that she comes within so many days."""
        out: Array = self.chance_of_return * self.ahead[:, :days].sum(axis=1, dtype=np.float64)
        return out

    def chance_later(self, days: int) -> Array:
        """That she is still a client, in so many days, if she has not come by then (by Bayes' rule)."""
        came = self.within(days)
        out: Array = (self.chance_of_return - came) / np.maximum(1 - came, 1e-12)
        return out.clip(0, 1)

    def again(self, days: int) -> Chances:
        """Per client, then for a client who has only just come for the first time: chance of a gap of 1 … days days."""
        if self.rhythms is None or self.nodes is None:
            return np.zeros((1, days), np.float32)
        new = self.rhythms.prior.mean(axis=0, keepdims=True)
        out: Chances = np.concatenate([self.nodes, new]) @ self.rhythms.gap[1 : days + 1].T
        return out

    def stops(self) -> Array:
        """Per client, then for a new one: chance that the next visit is the last."""
        times = np.append(self.clients["gaps"].to_numpy() + 1, 0)
        return dropping_out.stopped(times, *self.stopping)

    def expected(self) -> pl.DataFrame:
        """site, client_id, expected_on (median), expected_low_on and expected_high_on (80 %), chance_of_return and
        chance_next_week."""
        reached = np.cumsum(self.ahead, axis=1)
        names = ("expected_low_on", "expected_on", "expected_high_on")
        days = {name: _first_day(reached, level) + 1 for name, level in zip(names, self.levels, strict=True)}
        return (
            self.clients.select(CLIENT)
            .with_columns(**days, chance_of_return=self.chance_of_return, chance_next_week=self.chance_later(7))
            .with_columns(*((pl.lit(self.as_of) + pl.duration(days=name)).alias(name) for name in names))
            .with_columns(pl.col("chance_of_return", "chance_next_week").cast(pl.Float64).round(6))
        )


class _Seen(NamedTuple):
    """What was known on a day: the clients, their gaps, and how their visits fell on weekdays."""

    as_of: date
    kinds: pl.Series
    clients: pl.DataFrame
    waits: return_times.Waits
    weekdays: Array


def habits(visits: pl.DataFrame, as_of: date, closed: tuple[date, ...] = (), *, ranges: bool = True) -> Habits:
    """visits: site, client_id, kind and day of each visit up to `as_of`, one per client and day.

    ranges: look at the past year for where to cut ranges, which takes time.
    """
    kinds = visits["kind"].unique().sort()
    now = _seen(visits, as_of, kinds)
    if not len(now.clients):
        return Habits(as_of, now.clients, np.zeros(0), np.zeros((0, AHEAD_DAYS), np.float32), USUAL_LEVELS)
    times = now.waits.gaps
    rhythms = return_times.fit(now.waits, len(kinds), dropping_out.stopped(times, *USUAL_STOPPING))
    nodes = rhythms.nodes(now.waits)
    outlasts = rhythms.still_out(nodes, now.waits)
    a, b = dropping_out.fit(times, outlasts)
    ahead = _ahead(now, rhythms, nodes, closed)
    levels = _levels(visits, now, rhythms, closed, ahead) if ranges else USUAL_LEVELS
    chance = dropping_out.still_client(times, outlasts, a, b)
    return Habits(as_of, now.clients, chance, ahead, levels, rhythms, nodes, (a, b))


def _seen(visits: pl.DataFrame, as_of: date, kinds: pl.Series) -> _Seen:
    known = visits.filter(pl.col("day") <= as_of)
    clients = _clients(known, as_of)
    rows = known.join(clients.select("who", *CLIENT), on=CLIENT).sort("who", "day")
    counts = np.zeros((len(clients), 7))
    np.add.at(counts, (rows["who"].to_numpy(), rows["day"].dt.weekday().to_numpy() - 1), 1)
    return _Seen(as_of, kinds, clients, _waits(rows, clients, kinds), counts)


def _clients(visits: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """One row per client, numbered by her history, so that sums don't depend on names or on the order of rows."""
    day = pl.col("day")
    back = (day.max() - day).dt.total_days()
    return (
        visits.sort("day")
        .group_by(CLIENT, maintain_order=True)
        .agg(
            pl.col("kind").last(),
            last_on=day.last(),
            gaps=pl.len().cast(pl.Int64) - 1,
            reach=back.max(),
            sum=(back**2).sum(),
        )
        .sort("last_on", "gaps", "reach", "sum", "kind", *CLIENT)
        .with_columns(days_since=(pl.lit(as_of) - pl.col("last_on")).dt.total_days())
        .with_row_index("who")
        .drop("reach", "sum")
    )


def _waits(rows: pl.DataFrame, clients: pl.DataFrame, kinds: pl.Series) -> return_times.Waits:
    gaps = rows.with_columns(gap=pl.col("day").diff().dt.total_days().over("who")).drop_nulls("gap")
    kind = clients["kind"].replace_strict(kinds, range(len(kinds)), return_dtype=pl.Int64)
    return return_times.Waits(
        gaps["who"].to_numpy().astype(np.int64),
        gaps["gap"].to_numpy(),
        kind.to_numpy(),
        clients["days_since"].to_numpy(),
    )


def _ahead(seen: _Seen, rhythms: return_times.Rhythms, nodes: NDArray[np.float32], closed: tuple[date, ...]) -> Chances:
    """Probability of each day ahead: her rhythm, her weekdays, and no day on which the salon is closed."""
    days = (seen.as_of.weekday() + np.arange(1, AHEAD_DAYS + 1)) % 7
    favoured = weekdays.leanings(seen.weekdays)[:, days].astype(np.float32)
    ahead = rhythms.ahead(nodes, seen.waits, AHEAD_DAYS) * favoured
    for day in sorted(closed):
        place = (day - seen.as_of).days - 1
        if 0 <= place < AHEAD_DAYS - 1:  # what falls on a closed day moves to the next that isn't
            ahead[:, place + 1] += ahead[:, place]
            ahead[:, place] = 0
    out: Chances = ahead / ahead.sum(axis=1, keepdims=True)
    return out


def _first_day(reached: Chances, level: float) -> NDArray[np.int64]:
    """Place of the first day by which so much is reached."""
    days: NDArray[np.int64] = np.minimum((reached < level - ROUNDING).sum(axis=1), reached.shape[1] - 1)
    return days


def _levels(
    visits: pl.DataFrame, now: _Seen, rhythms: return_times.Rhythms, closed: tuple[date, ...], ahead: Chances
) -> tuple[float, float, float]:
    """Where to cut `ahead`, so that 8 in 10 came within their range when the past year is looked at the same way.

    A day holds a lump of probability, so that ranges of whole days hold 80 % only on average over clients; and seasons
    and drifts that no rhythm explains show in what came. Four days of the past year are replayed (with each client's
    gaps up to then; how gaps spread over clients is taken as known now); what was reached the day before a client came
    and on the day itself says where the cuts should have been. With few such clients the cuts stay near what the
    chances themselves say.
    """
    before, by_then = [np.zeros(0)], [np.zeros(0)]
    for quarter in range(1, 5):
        day = now.as_of - timedelta(days=QUARTER_DAYS * quarter)
        came = visits.filter(pl.col("day") > day).group_by(CLIENT).agg(came_on=pl.col("day").min())
        seen = _seen(visits.join(came, on=CLIENT, how="semi"), day, now.kinds)
        if not len(seen.clients):
            continue
        reached = np.cumsum(_ahead(seen, rhythms, rhythms.nodes(seen.waits), closed), axis=1)
        after = seen.clients.join(came, on=CLIENT, how="left", maintain_order="left")["came_on"]
        place = np.minimum((after.to_physical() - (day - date(1970, 1, 1)).days).to_numpy() - 1, AHEAD_DAYS - 1)
        rows = np.arange(len(reached))
        by_then.append(reached[rows, place])
        before.append(np.where(place > 0, reached[rows, place - 1], 0))
    low, high = np.concatenate(by_then), np.concatenate(before)
    usual = _usual_levels(ahead)
    weight = len(low) / (len(low) + LEVELS_WEIGHT)
    if not weight:
        return usual
    found = [_quantile(low, 0.1), _quantile((low + high) / 2, 0.5), _quantile(high, 0.9)]
    first, middle, last = (weight * one + (1 - weight) * other for one, other in zip(found, usual, strict=True))
    return float(first), float(middle), float(last)


def _quantile(values: Array, share: float) -> float:
    """As numpy's own, whose import of masked arrays would cost every start of the command a twentieth of a second."""
    return float(np.interp(share * (len(values) - 1), np.arange(len(values)), np.sort(values)))


def _usual_levels(ahead: Chances) -> tuple[float, float, float]:
    """Where to cut for ranges that hold 80 % on average, if the chances are right."""
    reached = np.cumsum(ahead, axis=1)
    rows = np.arange(len(ahead))
    least, most = 0.0, 1.0
    for _ in range(10):
        level = (least + most) / 2
        low, high = _first_day(reached, (1 - level) / 2), _first_day(reached, (1 + level) / 2)
        held = (reached[rows, high] - reached[rows, low] + ahead[rows, low]).mean()
        least, most = (level, most) if held < COVERED else (least, level)
    return (1 - most) / 2, 0.5, (1 + most) / 2
