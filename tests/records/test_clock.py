"""The salon's clock: what a day counts."""

from datetime import date, timedelta

import numpy as np
import polars as pl
import pytest
from frames import bookings, settings, visit
from hypothesis import given
from hypothesis import strategies as st

from analytics.records.clock import Clock, clock, clock_of
from analytics.records.salon_days import EPOCH, day_of_year, salon_days, to_christmas

HOURS = settings(hours=dict.fromkeys(("tue", "wed", "thu", "fri", "sat"), "09:00-18:00")).hours
FIRST = date(2023, 1, 3)
SEASON = {12: 1.4, 1: 0.6, 2: 0.8}


def number(day: date) -> int:
    return (day - EPOCH).days


def span(first: date, days: int) -> np.ndarray:
    return number(first) + np.arange(days)


def made(until: date, usual: int = 20, closed: tuple[date, ...] = (), first: date = FIRST) -> pl.DataFrame:
    """So many visits each open day; more in December, fewer in January and February."""
    days = [first + timedelta(days=step) for step in range((until - first).days + 1)]
    rows = [(day, round(usual * SEASON.get(day.month, 1))) for day in days if HOURS.of(day) and day not in closed]
    return pl.DataFrame(rows, schema={"day": pl.Date(), "visits": pl.UInt32()}, orient="row")


def asked(until: date, **rest: object) -> Clock:
    return clock_of(made(until, **rest), HOURS, until)  # type: ignore[arg-type]


def week(found: Clock, first: date) -> float:
    return float(found.weights(span(first, 7)).sum())


def test_without_a_visit_a_full_week_counts_seven_by_its_open_hours() -> None:
    empty = clock_of(made(FIRST).clear(), HOURS, FIRST)
    assert empty.weights(span(FIRST, 7)).tolist() == pytest.approx([1.4, 1.4, 1.4, 1.4, 1.4, 0, 0])
    assert empty.outlook(span(FIRST, 7)) == (0.0, 0.0)
    assert empty.last_visit is None


def test_a_salon_without_season_has_an_even_clock_at_the_level_of_its_visits() -> None:
    even = made(date(2024, 6, 29)).with_columns(visits=pl.lit(20, pl.UInt32))
    found = clock_of(even, HOURS, date(2024, 6, 29))
    assert week(found, date(2023, 6, 6)) == pytest.approx(7, abs=0.1)
    assert found.visits(span(date(2023, 6, 6), 7)).sum() == pytest.approx(100, rel=0.02)


def test_weekdays_count_as_they_bring() -> None:
    saturdays = made(date(2024, 12, 31)).with_columns(visits=pl.col("visits") * (1 + (pl.col("day").dt.weekday() == 6)))
    weights = clock_of(saturdays, HOURS, date(2024, 12, 31)).weights(span(date(2024, 6, 4), 7))
    assert weights[4] / weights[0] == pytest.approx(2, rel=0.05)


def test_december_is_seen_and_each_year_sharpens_it() -> None:
    """By 1 November of the first year nothing is known of it, of the second much, of the third more."""
    clocks = [asked(date(year, 11, 1)) for year in (2023, 2024, 2025)]
    told = [week(found, date(found.as_of.year, 12, 5)) / week(found, found.as_of) for found in clocks]
    assert told[0] == pytest.approx(1, abs=0.05)
    assert told[1:] == pytest.approx([1.4, 1.4], abs=0.05)
    december = [found.outlook(span(date(found.as_of.year, 12, 5), 7)) for found in clocks]
    first, second, third = (unsure / visits for visits, unsure in december)
    assert first > 1.5 * second > 1.5 * third


def test_a_thin_january_is_seen() -> None:
    found = asked(date(2025, 11, 1))
    assert week(found, date(2026, 1, 6)) / week(found, date(2025, 11, 4)) == pytest.approx(0.6, abs=0.08)


def test_closed_days_count_nothing_and_people_come_before_and_after_them() -> None:
    """Ten per cent more in the week before and twenty in the week after a week that is shut, three times a year."""
    shut, more = [], {}
    for year in (2023, 2024, 2025, 2026):
        for first in (date(year, 4, 4), date(year, 6, 20), date(year, 9, 12)):
            monday = first - timedelta(days=first.weekday())
            shut += [monday + timedelta(days=step) for step in range(7)]
            more |= {monday + timedelta(days=step): 1.1 for step in range(-7, 0)}
            more |= {monday + timedelta(days=step): 1.2 for step in range(7, 14)}
    hours = HOURS.model_copy(update={"closed": tuple(shut)})
    seen = made(date(2025, 12, 31), closed=tuple(shut))
    seen = seen.with_columns(
        visits=(pl.col("visits") * pl.col("day").replace_strict(more, default=1.0)).round().cast(pl.UInt32)
    )
    found = clock_of(seen, hours, date(2025, 12, 31))
    monday = date(2026, 6, 15)
    assert week(found, monday) == 0
    usual = week(found, monday - timedelta(weeks=4))
    assert week(found, monday - timedelta(weeks=1)) / usual == pytest.approx(1.1, abs=0.06)
    assert week(found, monday + timedelta(weeks=1)) / usual == pytest.approx(1.2, abs=0.06)


def test_a_level_that_doubles_is_no_season() -> None:
    halves = [made(date(2024, 6, 29)), made(date(2025, 10, 25), usual=40, first=date(2024, 7, 2))]
    found = clock_of(pl.concat(halves), HOURS, date(2025, 10, 25))
    assert found.visits(span(date(2025, 10, 28), 7)).sum() == pytest.approx(200, rel=0.06)
    assert found.visits(span(date(2023, 10, 24), 7)).sum() == pytest.approx(100, rel=0.1)


def test_days_shut_though_nothing_says_so_do_not_thin_the_clock() -> None:
    shut = tuple(date(2024, 5, 6) + timedelta(days=step) for step in range(40))
    found = asked(date(2024, 8, 31), closed=shut)
    assert found.weights(span(shut[0], 40)).sum() == 0
    assert found.visits(span(date(2024, 9, 3), 7)).sum() == pytest.approx(100, rel=0.08)


def test_what_was_shut_around_the_year_s_end_is_shut_again() -> None:
    between = tuple(date(year, 12, 24) + timedelta(days=step) for year in (2023, 2024) for step in range(9))
    found = asked(date(2025, 11, 1), closed=between)
    assert found.weights(span(date(2025, 12, 24), 9)).sum() == 0
    assert found.weights(span(date(2026, 1, 2), 2)).sum() > 1.5


def test_a_closed_weekday_that_is_worked_all_the_same_is_open() -> None:
    mondays = [date(2024, 1, 1) + timedelta(weeks=number) for number in range(52)]
    extra = pl.DataFrame({"day": mondays, "visits": [10] * 52}, schema_overrides={"visits": pl.UInt32()})
    seen = pl.concat([made(date(2024, 12, 31)), extra]).sort("day")
    assert clock_of(seen, HOURS, date(2024, 12, 31)).visits(span(date(2024, 7, 1), 1)) == pytest.approx(10, rel=0.1)


def test_nothing_dated_later_is_used() -> None:
    origin = date(2024, 9, 30)
    lines = [visit(f"{day}", f"{day} 10:00", 60, ("CUT", "1")) for day in made(date(2025, 3, 1))["day"]]
    then, later = (clock(bookings(*some), settings(), origin) for some in (lines[:400], lines))
    before = [line for line in lines if line[0]["starts_at"][:10] <= f"{origin}"]
    assert np.array_equal(clock(bookings(*before), settings(), origin).weight, later.weight)
    assert not np.array_equal(then.weight, later.weight) or len(before) == 400


def test_refunds_missed_and_booked_visits_are_no_visits() -> None:
    lines = [visit(f"V{day}", f"{day} 10:00", 60, ("CUT", "1"), ("CUT", "2")) for day in made(date(2023, 3, 1))["day"]]
    others = [
        visit(f"{status}{day}", f"{day} 12:00", 60, ("CUT", price), status=status)
        for status, price in (("no_show", "1"), ("cancelled", "1"), ("booked", "1"), ("completed", "-1"))
        for day in ("2023-02-01", "2023-02-02")
    ]
    one, other = (clock(bookings(*some), settings(), date(2023, 3, 1)) for some in (lines, lines + others))
    assert np.array_equal(one.level, other.level)


def test_it_is_worked_out_once_for_the_same_tables_and_day() -> None:
    table, salon = bookings(visit("V", "2023-01-03 10:00", 60, ("CUT", "1"))), settings()
    assert clock(table, salon, date(2023, 2, 1)) is clock(table, salon, date(2023, 2, 1))
    assert clock(table, salon, date(2023, 2, 1)) is not clock(table, salon, date(2023, 2, 2))


def test_what_may_come_is_less_sure_the_further_off_and_the_less_is_known() -> None:
    def doubt(found: Clock, weeks: int) -> float:
        total, unsure = found.outlook(span(found.as_of + timedelta(weeks=weeks, days=1), 7))
        return unsure / total

    young, old = asked(date(2023, 4, 29)), asked(date(2025, 4, 26))
    assert doubt(old, 1) < doubt(old, 11) < doubt(young, 11)
    assert doubt(old, 1) < doubt(young, 1)


@given(st.lists(st.integers(0, 900), min_size=3, max_size=3).map(sorted))
def test_time_on_the_clock_adds_up_and_turns_back(steps: list[int]) -> None:
    found = STEADY
    first, middle, last = (np.array([number(FIRST) + step]) for step in steps)
    whole = found.elapsed(first, last)
    assert whole == pytest.approx(found.elapsed(first, middle) + found.elapsed(middle, last))
    day = found.day_of(found.read(last))
    assert day <= last and found.read(day) == pytest.approx(found.read(last))


STEADY = asked(date(2024, 6, 29))


def test_days_in_a_row_are_told_by_a_plain_calendar() -> None:
    days = salon_days(made(date(2024, 3, 1)), HOURS, date(2024, 3, 1))
    plain = [EPOCH + timedelta(days=int(day)) for day in days.number]
    assert days.weekday.tolist() == [day.weekday() for day in plain]
    assert day_of_year(days.number).tolist() == [day.timetuple().tm_yday for day in plain]
    christmas = [min((date(day.year - back, 12, 25) - day for back in (0, 1)), key=abs).days for day in plain]
    assert np.abs(to_christmas(days.number)).tolist() == np.abs(christmas).tolist()
    assert to_christmas(np.array([number(date(2024, 12, day)) for day in (24, 25, 31)])).tolist() == [1, 0, -6]
    assert days.week_hours == 45
