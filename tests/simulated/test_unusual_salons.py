"""`ahead` in salons that are young, small, shut for long, moved or doubled: ranges that hold, or why there are none."""

from dataclasses import replace
from datetime import date, timedelta

import polars as pl
import pytest
from frames import services, work_out
from simulated.towns import KINDS, SERVICE, Story, Town, lived

from analytics.sentences import ahead as said

MENU = services(*({"service_id": SERVICE[kind], "kind": kind} for kind in KINDS))
SHUT = (date(2025, 9, 1), date(2025, 10, 31))
DAY, CLIENT = pl.col("day"), pl.col("client")


def asked(story: Story, day: date) -> pl.DataFrame:
    """What is said on a day of the twelve whole weeks after it, and hours that came."""
    rows = work_out("ahead", bookings=story.bookings(day), services=MENU, as_of=f"{day}", salon=story.salon)
    came = rows.join(story.hours_by_week(), on="week_start", how="left").with_columns(pl.col("hours").fill_null(0.0))
    return came[1:]


def inside(rows: pl.DataFrame) -> float:
    low, high = pl.col("chair_hours_low") - 1e-6, pl.col("chair_hours_high") + 1e-6
    return float(rows.select(pl.col("hours").is_between(low, high).mean()).item())


def sentence(rows: pl.DataFrame, story: Story, day: date) -> str:
    return said.ahead_sentence(rows, story.salon, day)


@pytest.mark.parametrize("months", [8, 14])
def test_a_young_salon_has_wide_ranges_and_says_that_its_season_is_not_known(months: int) -> None:
    day = date(2026, 2, 22)
    story = lived(replace(Town.drawn(31), first=day - timedelta(days=30 * months)), 31)
    rows = asked(story, day)
    assert inside(rows) >= 0.6
    assert (said.YOUNG in sentence(rows, story, day)) == (months == 8)
    spread = (rows["chair_hours_high"] - rows["chair_hours_low"]) / rows["chair_hours_expected"]
    assert spread.mean() > 0.3


def test_twenty_clients() -> None:
    rows = asked(lived(replace(Town.drawn(33), clients=20), 33), date(2026, 3, 8))
    assert inside(rows) >= 0.6
    assert (rows["chair_hours_low"] >= 0).all()


def shut_for_two_months(listed: bool) -> Story:
    story = lived(Town.drawn(51), 51)
    days = {SHUT[0] + timedelta(days=step) for step in range((SHUT[1] - SHUT[0]).days + 1)}
    hours = story.salon.hours.model_copy(update={"closed": tuple(sorted(days | set(story.salon.hours.closed)))})
    salon = story.salon.model_copy(update={"hours": hours}) if listed else story.salon
    return replace(story, salon=salon, visits=story.visits.filter(~DAY.is_between(*SHUT)))


def test_shut_for_two_months_that_are_listed() -> None:
    story = shut_for_two_months(listed=True)
    rows = asked(story, date(2025, 10, 5))
    assert rows["chair_hours_expected"][:3].to_list() == [0, 0, 0]
    assert inside(rows) >= 0.7


def test_shut_for_two_months_that_nothing_lists() -> None:
    """In the midst of it there is no range, and why is said; afterwards the weeks are those of before."""
    story = shut_for_two_months(listed=False)
    amid = asked(story, date(2025, 10, 5))
    assert amid["chair_hours_high"].null_count() == amid.height
    assert sentence(amid, story, date(2025, 10, 5)) == said.NO_RANGE
    assert inside(asked(story, date(2025, 11, 23))) >= 0.7


def test_a_salon_that_moved_and_lost_a_third_is_followed_within_ten_weeks() -> None:
    story, moved = lived(Town.drawn(51), 51), date(2025, 9, 21)
    gone = DAY.is_between(moved - timedelta(days=20), moved) | ((moved < DAY) & (CLIENT % 3 == 0))
    assert inside(asked(replace(story, visits=story.visits.filter(~gone)), date(2025, 11, 30))) >= 0.6


def test_a_salon_that_doubled_is_followed_within_ten_weeks() -> None:
    story, other = lived(Town.drawn(51), 51), lived(Town.drawn(52), 52)
    more = other.visits.filter(date(2025, 10, 1) <= DAY).with_columns(CLIENT + 100_000)
    chairs = tuple(f"Chair {number}" for number in range(1, 9))
    salon = story.salon.model_copy(update={"salon": story.salon.salon.model_copy(update={"chairs": chairs})})
    rows = asked(Story(story.town, salon, pl.concat([story.visits, more]).sort("day")), date(2025, 12, 14))
    assert inside(rows) >= 0.6
