"""Invented diaries for the checks of the calendar: booking lines per day of salons with seasons, leave and holidays."""

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
import polars as pl

from analytics.definitions.tables import TABLES

WEEKDAY_SHARE = np.array([0.6, 0.9, 1.0, 1.1, 1.3, 1.2, 0.0])
# January thin, the weeks before summer and December full
MONTH_SHARE = np.array([0.75, 0.85, 1.0, 1.0, 1.05, 1.15, 0.9, 0.75, 1.0, 1.0, 1.05, 1.35])
PUBLIC_HOLIDAYS = ((1, 1), (4, 27), (5, 1), (5, 14), (12, 25), (12, 26))

MISSED = 0.6  # of the work of a stylist who is away; the rest goes to another or to other weeks
LINES, FILLED = 1.8, 0.65  # lines of a visit; the share of the places in a diary that are taken


@dataclass(frozen=True)
class Diary:
    """first: the first day. lines: booking lines per day. closed: the days that salon.toml says are closed."""

    first: date
    lines: np.ndarray
    closed: list[date]

    @property
    def days(self) -> list[date]:
        return [self.first + timedelta(days=step) for step in range(len(self.lines))]


def draw(seed: int, lines_a_week: float | None = None) -> Diary:
    """A salon of one to three years and one to eight stylists, each with her weeks of leave and days of illness.

    Four salons in five shut for a week in summer, and list it; one in two shuts between the years, and one in two of
    those lists it. Public holidays are listed by one in two.
    """
    rng = np.random.default_rng(seed)
    first = date(2023, 1, 2) + timedelta(days=int(rng.integers(0, 364)))
    length = int(rng.integers(364, 3 * 364))
    days = [first + timedelta(days=step) for step in range(length)]
    a_week = lines_a_week or float(np.exp(rng.uniform(np.log(5), np.log(300))))
    stylists = int(np.clip(a_week // 35 + rng.integers(0, 2), 1, 8))
    at_work = _at_work(rng, stylists, length)
    shut, closed = _shut(rng, days)
    weekday = WEEKDAY_SHARE * (rng.random(7) > np.array([0.5, 0.1, 0, 0, 0, 0.1, 1]))
    season = 1 + (MONTH_SHARE - 1) * rng.uniform(0.4, 1.4)
    growth = np.linspace(1, rng.uniform(0.7, 1.5), length)
    mean = np.array([weekday[day.weekday()] * season[day.month - 1] for day in days]) * growth * at_work
    mean *= a_week / 7 / mean.mean()
    mean[[day in shut for day in days]] = 0
    luck = np.clip(FILLED * rng.gamma(60, 1 / 60, length), 0, 1)  # a day has its own
    visits = rng.binomial(rng.poisson(0.2 * mean / LINES / FILLED) + _whole(rng, 0.8 * mean / LINES / FILLED), luck)
    return Diary(first, visits + rng.binomial(visits, 0.6) + rng.binomial(visits, 0.2), closed)


def _whole(rng: np.random.Generator, numbers: np.ndarray) -> np.ndarray:
    """Whole numbers with these means."""
    return np.floor(numbers + rng.random(len(numbers))).astype(int)


def _at_work(rng: np.random.Generator, stylists: int, length: int) -> np.ndarray:
    """The share of the stylists at work each day: three single weeks and a fortnight in summer of leave a year, never
    more than one in three away (one of two or three), and four times two days of illness. The only stylist of a salon
    is on leave when it is shut. One in three of the larger salons was joined by one of them later."""
    away = np.zeros((stylists, length + 364))
    for year in range(0, length, 364):
        weeks = [(int(rng.integers(0, 364)), 6) for _ in range(3)] + [(int(rng.integers(150, 240)), 13)]
        for each in away if stylists > 1 else ():
            for start, lasts in weeks:
                span = slice(year + start, year + start + lasts)
                if away[:, span].sum(axis=0).max() < max(1, stylists // 3):
                    each[span] = 1
            weeks = [(int(rng.integers(0, 364)), lasts) for _, lasts in weeks]
        for each in away:
            for start in rng.integers(0, 364, 4):
                each[year + start : year + start + 2] = 1
    if stylists > 2 and rng.random() < 1 / 3:
        away[0, : int(rng.integers(0, length))] = 1
    return 1 - (MISSED if stylists > 1 else 1) * away[:, :length].mean(axis=0)


def _shut(rng: np.random.Generator, days: list[date]) -> tuple[set[date], list[date]]:
    shut: set[date] = set()
    unlisted: set[date] = set()
    lists_holidays, shuts_summer, shuts_christmas, lists_christmas = rng.random(4) < (0.5, 0.8, 0.5, 0.5)
    for year in range(days[0].year, days[-1].year + 1):
        holidays = {date(year, month, day) for month, day in PUBLIC_HOLIDAYS}
        summer = date(year, 7, 10) + timedelta(days=int(rng.integers(0, 35)))
        weeks = {summer + timedelta(days=step) for step in range(7)} if shuts_summer else set()
        between = {date(year, 12, 24) + timedelta(days=step) for step in range(9)} if shuts_christmas else set()
        shut |= holidays | weeks | between
        unlisted |= (set() if lists_holidays else holidays) | (set() if lists_christmas else between)
    return shut, sorted(shut - unlisted)


def cut(diary: Diary, rng: np.random.Generator, keep: float) -> tuple[Diary, date]:
    """The diary with one week, not among its first five or last three, cut to a share of its lines; its Monday."""
    lines = diary.lines.copy()
    monday = (7 - diary.first.weekday()) % 7
    while True:
        start = monday + 7 * int(rng.integers(5, len(lines) // 7 - 3))
        week = lines[start : start + 7]
        if week.sum() >= 40:
            lines[start : start + 7] = rng.binomial(week, keep)
            return Diary(diary.first, lines, diary.closed), diary.first + timedelta(days=start)


def bookings(diary: Diary, chair: str = "Chair 1", site: str = "") -> pl.DataFrame:
    """The diary as a loaded table: completed lines of visits of one line each."""
    days = np.repeat(np.array(diary.days, dtype="datetime64[us]"), diary.lines)
    count = len(days)
    known = {
        "site": pl.lit(site),
        "booking_id": pl.int_range(count).cast(pl.String),
        "line": pl.lit(1),
        "starts_at": pl.Series(days) + pl.duration(hours=10),
        "status": pl.lit("completed"),
        "chair": pl.lit(chair),
        "client_id": pl.lit("C"),
        "file": pl.lit("bookings.csv"),
        "row": pl.int_range(count) + 2,
    }
    schema = TABLES["bookings"].schema
    empty = {name: pl.lit(None) for name in schema if name not in known}
    return pl.select(pl.int_range(count).alias("_")).select(
        (known | empty)[name].cast(kind).alias(name) for name, kind in schema.items()
    )
