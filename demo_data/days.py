"""Days, opening hours and the seasons of the invented salon."""

import tomllib
from datetime import date, datetime, time, timedelta
from functools import cache
from pathlib import Path
from random import Random

HERE = Path(__file__).parent
# The settings are read rather than repeated, so that the diary can never disagree with the hours that are shipped.
SETTINGS = tomllib.loads((HERE / "salon.toml").read_text(encoding="utf-8"))
SEED = 20231101
# Visits start to be simulated well before the book opens, so that its first day looks like any other day.
WARM_UP_DAY = date(2023, 5, 2)
FIRST_DAY = date(2023, 11, 1)
LAST_DAY = date(2026, 10, 31)
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
CHAIRS: tuple[str, ...] = tuple(SETTINGS["salon"]["chairs"])
CLOSED = frozenset(date.fromisoformat(text) for text in SETTINGS["hours"]["closed"])
NEW_CLIENT_WEIGHT = (0.6, 0.7, 1.0, 1.1, 1.3, 1.2, 0.6, 0.7, 1.2, 1.1, 1.2, 1.3)


def random_for(part: str) -> Random:
    """A generator of its own for each part, so that changing one part leaves the others as they were."""
    return Random(f"{SEED} {part}")


@cache
def open_span(day: date) -> tuple[int, int] | None:
    """Opening and closing time as minutes of the day, or None on a closed day."""
    span = SETTINGS["hours"].get(WEEKDAYS[day.weekday()])
    if span is None or day in CLOSED:
        return None
    opens, closes = (time.fromisoformat(text) for text in span.split("-"))
    return opens.hour * 60 + opens.minute, closes.hour * 60 + closes.minute


def at_minute(day: date, minute: int) -> datetime:
    return datetime.combine(day, time()) + timedelta(minutes=minute)


def days_from(first: date, last: date) -> list[date]:
    return [first + timedelta(days=count) for count in range((last - first).days + 1)]


def days_after(day: date, count: float) -> date:
    return day + timedelta(days=round(count))


def next_open_day(day: date) -> date:
    while open_span(day) is None:
        day += timedelta(days=1)
    return day


def between(day: date, first: tuple[int, int], last: tuple[int, int]) -> bool:
    return first <= (day.month, day.day) <= last


def _around_new_year(wish: date, rng: Random, chance: float, shift: int) -> date:
    if chance >= 0.55:
        return wish + timedelta(days=shift + 12)
    year = wish.year if wish.month == 12 else wish.year - 1
    return date(year, 12, 23) - timedelta(days=rng.randint(0, 15))


def seasoned(wish: date, rng: Random) -> date:
    """Move a wished-for day as people do: before Christmas, before the summer, past the thin weeks."""
    chance, shift = rng.random(), rng.randint(6, 20)
    moved_by = 0
    if between(wish, (12, 24), (12, 31)) or between(wish, (1, 1), (1, 12)):
        return _around_new_year(wish, rng, chance, shift)
    if between(wish, (1, 13), (2, 25)) and chance < 0.40:
        moved_by = shift + 8
    elif between(wish, (7, 1), (7, 16)) and chance < 0.45:
        moved_by = -rng.randint(8, 24)
    elif between(wish, (7, 17), (8, 25)) and chance < 0.50:
        moved_by = shift + 14
    elif between(wish, (10, 12), (10, 20)) and chance < 0.20:
        moved_by = shift
    return wish + timedelta(days=moved_by)
