"""The salon's clock: how much of a usual day each day brings, worked out from its own visits up to a day.

A full week of the salon, with nothing shut near it and the season neither thick nor thin, counts seven days; a closed
day counts none. Clients with a steady habit come at steady gaps on this clock, and a salon whose trade neither grows
nor shrinks has as many visits on each of its days. methods/operational_time says what a day is judged by,
methods/penalised_counts how much of it is believed: with a few months of history the clock follows opening hours and
weekdays and little else, and each year more sharpens it.

Closed days are those of salon.toml, and past days on which nobody came though many would have (records/salon_days).
"""

from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.methods import operational_time, penalised_counts
from analytics.methods.penalised_counts import Fit, Group
from analytics.records.chairs.stays import VISIT
from analytics.records.memo import memoised
from analytics.records.salon_days import EPOCH, SalonDays, day_of_year, salon_days, to_christmas
from analytics.settings import Hours, Settings

Array = NDArray[np.float64]
Whole = NDArray[np.int64]
LOOKED_BACK = 2200  # days: what was six years ago says little of now, and a slip in a date makes a book of decades
LONGEST_SPELL = 24  # closed days in a row, four weeks of six, up to which clients are taken to come around them
STALE_DAYS = 28.0  # of the clock without a visit, after which it looks as if the salon had been shut, or exports ended
DIGITS = 9  # sums in another order differ behind these
# prior spread of the effects on the log scale, how many effects it is worth, and their tails: a weekday is up to half
# more or less than its hours, a thick month a quarter more, the level drifts slowly (no source; as the demo's salon)
PRIORS: dict[str, tuple[float, ...]] = {
    "weekdays": (0.3, 3.0),
    "waves": (0.12, 4.0),
    "year_end": (0.15, 4.0),
    "near_shut": (0.15, 4.0),
    "drift": (0.03, 20.0, 2.0),  # and now and then a jump: a colleague comes or goes, the salon moves
}
NEAR_SHUT = list(PRIORS).index("near_shut")
# how many more come in the two weeks before and the three after a week that is shut, until the salon's own closed days
# tell: half of it is made good (no source)
MADE_GOOD = np.array([0.1, 0.05, 0.2, 0.1, 0.05])


@dataclass(frozen=True)
class Clock:
    """One entry per day from `first` (since 1970) on, up to two years after `as_of`.

    weight: how much of a usual day it brings. wish: how much it would if nothing were closed for some days or weeks; of
    longer spells nothing, since that is a time by itself. shut: days closed for so long. level: visits a day of the
    clock; from `as_of` on as it was last.
    last_visit: the latest day with a visit. fit and design: what weight and level were read from; fit is None where
    nobody came yet. drift: standard deviation of what the logarithm of the level does in 28 days.
    """

    as_of: date
    first: int
    weight: Array
    wish: Array
    shut: NDArray[np.bool_]
    level: Array
    last_visit: date | None
    fit: Fit | None
    design: Array
    drift: float

    def weights(self, days: Whole) -> Array:
        """days: since 1970. What each brings; beyond the ends as the last day at that end."""
        out: Array = self.weight[self._places(days)]
        return out

    def wishes(self, days: Whole) -> Array:
        """days: since 1970. How much of a usual day each would bring if nothing were closed."""
        out: Array = self.wish[self._places(days)]
        return out

    def wished(self, days: Whole) -> Array:
        """days: since 1970. As `read`, if nothing were closed."""
        places = self._places(days)
        out: Array = np.cumsum(self.wish)[places] + (days - self.first - places)
        return out

    def read(self, days: Whole) -> Array:
        """days: since 1970. The clock at the end of each, in days of its own since it began; beyond the ends days count
        one."""
        places = self._places(days)
        out: Array = np.cumsum(self.weight)[places] + (days - self.first - places)
        return out

    def elapsed(self, since: Whole, until: Whole) -> Array:
        """Days of the clock after `since` up to and with `until` (both in days since 1970)."""
        return self.read(until) - self.read(since)

    def day_of(self, reading: Array) -> Whole:
        """The first day, since 1970, by whose end the clock reads so much; the last one where it never does."""
        place = np.searchsorted(np.cumsum(self.weight), reading - 1e-9)
        out: Whole = np.minimum(place, len(self.weight) - 1) + self.first
        return out

    def visits(self, days: Whole) -> Array:
        """days: since 1970. Visits to be expected on each."""
        places = self._places(days)
        out: Array = self.weight[places] * self.level[places]
        return out

    def nobody_since(self) -> date | None:
        """The latest day with a visit, where more than STALE_DAYS of the clock have passed without one."""
        if self.last_visit is None:
            return None
        last, today = (np.array([(day - EPOCH).days]) for day in (self.last_visit, self.as_of))
        return self.last_visit if float(self.elapsed(last, today)[0]) > STALE_DAYS else None

    def outlook(self, days: Whole) -> tuple[float, float]:
        """days: since 1970, together one span. The visits to be expected on them, and the standard deviation of what
        may come: by what is uncertain of clock and level, by how the level may drift until then, and by chance."""
        each = self.visits(days)
        total = float(each.sum())
        if self.fit is None or not total:
            return total, 0.0
        lean = each @ self.design[self._places(days)] / total
        ahead = max(float(each @ (days - (self.as_of - EPOCH).days)) / total, 0.0)
        unsure = float(lean @ self.fit.covariance @ lean) + self.drift**2 * ahead / operational_time.DRIFT_DAYS
        return total, float(np.sqrt(total**2 * unsure + self.fit.dispersion * total))

    def _places(self, days: Whole) -> Whole:
        out: Whole = np.clip(days - self.first, 0, len(self.weight) - 1)
        return out


def clock(bookings: pl.DataFrame, settings: Settings, as_of: date) -> Clock:
    """From the visits that came up to and with `as_of` alone; worked out once for the same tables and day."""
    return _clock(bookings, settings, as_of.isoformat())


@memoised
def _clock(bookings: pl.DataFrame, settings: Settings, as_of: str) -> Clock:
    day = date.fromisoformat(as_of)
    return clock_of(visits_a_day(bookings, day), settings.hours, day)


def visits_a_day(bookings: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """One row per day with a visit that came, up to `as_of`: day, visits. Refunds are no visits."""
    day, refund = pl.col("starts_at").dt.date(), (pl.col("price") < 0).fill_null(False)
    came = bookings.filter((pl.col("status") == "completed") & (day <= as_of) & ~refund)
    return came.select(*VISIT, day=day).unique().group_by("day").agg(visits=pl.len()).sort("day")


def clock_of(seen: pl.DataFrame, hours: Hours, as_of: date) -> Clock:
    """seen: day, visits, up to `as_of`, in order of day. Days after it are not looked at, nor are those long before."""
    seen = seen.filter(pl.col("day") > as_of - timedelta(days=LOOKED_BACK))
    days = salon_days(seen, hours, as_of)
    last = int((as_of - EPOCH).days - days.number[0])
    design, groups = _design(days, last)
    usual = days.hours * np.exp(operational_time.near_shut(days.lost) @ MADE_GOOD)
    last_visit = seen["day"].max() if len(seen) else None
    fit, known = None, days.known
    if days.visits[known].any():
        weeks = (days.number + 3) // 7
        blocks = weeks[known] - weeks[known][0]
        fit = penalised_counts.fit(days.visits[known], usual[known], design[known], blocks, groups)
    weight, wish, level = _read_off(fit, design, groups, days, usual)
    closed, shut = _spells(days, np.inf), _spells(days, LONGEST_SPELL)
    wish = np.where(closed & ~shut, 0.0, wish)
    drift = fit.spreads[-1] if fit else PRIORS["drift"][0]
    return Clock(as_of, int(days.number[0]), weight, wish, shut, level, last_visit, fit, design, drift)  # type: ignore[arg-type]


def _spells(days: SalonDays, longest: float) -> NDArray[np.bool_]:
    """Days that would be open in another week and are not, without those of spells of more such days in a row."""
    shut = (days.usual_hours > 0) & (days.hours == 0)
    row = np.cumsum(days.hours > 0)
    out: NDArray[np.bool_] = shut & (np.bincount(row, weights=shut)[row] <= longest)
    return out


def _design(days: SalonDays, last: int) -> tuple[Array, tuple[Group, ...]]:
    """The columns a day is judged by, and the groups of them; the last group is the level's drift."""
    year_end = operational_time.year_end(to_christmas(days.number))
    parts = [
        operational_time.weekdays(days.weekday),
        operational_time.waves(day_of_year(days.number), year_end),
        year_end,
        operational_time.near_shut(days.lost),
        operational_time.drift(np.arange(len(days.number)), last),
    ]
    edges = np.cumsum([1, *(part.shape[1] for part in parts)])
    spans = [slice(int(start), int(end)) for start, end in pairwise(edges)]
    groups = tuple(Group(span, *prior) for span, prior in zip(spans, PRIORS.values(), strict=True))
    return np.concatenate([np.ones((len(days.number), 1)), *parts], axis=1), groups


def _read_off(
    fit: Fit | None, design: Array, groups: tuple[Group, ...], days: SalonDays, usual: Array
) -> tuple[Array, Array, Array]:
    """Weight, wish and level of each day; the weight of a full week without season is seven. usual: what each day would
    bring by its hours and what is shut near it."""
    effects = fit.effects if fit else np.zeros(design.shape[1])
    level, calendar, week = np.zeros_like(effects), effects.copy(), groups[0].columns
    calendar[0] = calendar[groups[-1].columns] = 0
    level[[0]], level[groups[-1].columns] = effects[0], effects[groups[-1].columns]
    rates = usual * np.exp(design @ calendar)
    calendar[groups[NEAR_SHUT].columns] = 0
    wishes = days.usual_hours * np.exp(design @ calendar)
    full_week = float((days.usual_hours * np.exp(design[:, week] @ effects[week]))[:7].sum())
    scale = 7 / full_week if full_week else 0.0
    levels = np.exp(design @ level) / scale if fit and scale else np.zeros(len(rates))
    return np.round(rates * scale, DIGITS), np.round(wishes * scale, DIGITS), np.round(levels, DIGITS)
