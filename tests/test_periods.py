"""Days, months, weeks, opening hours and clock changes."""

from contextlib import suppress
from datetime import date, datetime, timedelta

import polars as pl
import pytest
from frames import days, settings
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.methods.intervals import hours
from analytics.periods import (
    Period,
    add_months,
    in_spans,
    month_name,
    month_spans,
    next_month,
    open_days,
    opening_spans,
    parse_day,
    to_instant,
    week_start,
)
from analytics.stops import WorkStopped

AMSTERDAM = "Europe/Amsterdam"
MARCH = Period.month("2026-03")


def instants(zone: str, *walls: str) -> list[str]:
    frame = pl.DataFrame({"wall": [datetime.fromisoformat(wall) for wall in walls]})
    return frame.select(to_instant(pl.col("wall"), zone).dt.strftime("%d %H:%M"))["wall"].to_list()


def open_hours(period: Period, zone: str = AMSTERDAM, **week: object) -> float:
    spans = opening_spans(settings(hours=week).hours, period, zone)
    return spans.select(hours(pl.col("opens"), pl.col("closes")).sum()).item()


def test_a_month_is_half_open() -> None:
    assert (MARCH.start, MARCH.end) == (date(2026, 3, 1), date(2026, 4, 1))
    assert Period.month("2026-12").end == date(2027, 1, 1)


@pytest.mark.parametrize("text", ["2026-13", "2026-00", "2026-3", "March", "", "0000-01", "2026-03-01", "２０２６-03"])
def test_what_is_no_month_stops_the_work(text: str) -> None:
    with pytest.raises(WorkStopped, match="is not a month"):
        Period.month(text)


def test_the_last_month_there_is_stops_in_words_or_works() -> None:
    with suppress(WorkStopped):
        assert Period.month("9999-12").start == date(9999, 12, 1)


@pytest.mark.parametrize("text", ["2026-02-29", "2026-3-1", "01-03-2026", "today", "", "20260301", "2026-03-01T09:00"])
def test_what_is_no_day_stops_the_work(text: str) -> None:
    with pytest.raises(WorkStopped, match="is not a day"):
        parse_day(text)


def test_days_are_read() -> None:
    assert parse_day("2024-02-29") == date(2024, 2, 29)


@pytest.mark.parametrize(
    ("day", "months", "there"),
    [("2026-01-31", 1, "2026-02-01"), ("2026-12-05", 1, "2027-01-01"), ("2026-03-15", -12, "2025-03-01")],
)
def test_months_are_added_from_first_to_first(day: str, months: int, there: str) -> None:
    assert add_months(date.fromisoformat(day), months) == date.fromisoformat(there)


def test_next_month_and_names() -> None:
    assert next_month(date(2026, 1, 31)) == date(2026, 2, 1)
    assert month_name(date(2026, 3, 14)) == "2026-03"


def test_weeks_begin_on_monday() -> None:
    assert week_start(date(2026, 3, 29)) == date(2026, 3, 23)
    assert week_start(date(2026, 3, 23)) == date(2026, 3, 23)


def test_months_touched() -> None:
    assert days("2025-12-31", "2026-02-02").months() == ["2025-12", "2026-01", "2026-02"]
    assert days("2025-12-31", "2026-02-01").months() == ["2025-12", "2026-01"]
    assert days("2026-02-01", "2026-02-01").months() == []


def test_cut_to_what_is_in_both() -> None:
    assert MARCH.cut(days("2026-03-20", "2026-05-01")) == days("2026-03-20", "2026-04-01")
    assert MARCH.cut(days("2026-05-01", "2026-06-01")).empty


def test_a_part_month_is_cut_or_not_over() -> None:
    assert not MARCH.is_part("2026-03")
    assert not MARCH.is_part("2026-03", date(2026, 4, 1))
    assert MARCH.is_part("2026-03", date(2026, 3, 31))
    assert days("2026-03-02", "2026-04-01").is_part("2026-03")
    assert days("2026-03-01", "2026-03-31").is_part("2026-03")


@pytest.mark.parametrize(
    ("part", "months", "same"),
    [
        (MARCH, 1, days("2026-02-01", "2026-03-01")),
        (Period.month("2026-02"), 1, days("2026-01-01", "2026-02-01")),
        (days("2026-03-10", "2026-03-15"), 1, days("2026-02-10", "2026-02-15")),
        (days("2026-03-10", "2026-03-15"), 12, days("2025-03-10", "2025-03-15")),
        (days("2026-03-20", "2026-04-01"), 1, days("2026-02-20", "2026-03-01")),
        (days("2026-02-20", "2026-03-01"), 1, days("2026-01-20", "2026-01-29")),
    ],
)
def test_the_same_days_of_earlier_months(part: Period, months: int, same: Period) -> None:
    assert part.months_before(months) == same


def test_days_that_an_earlier_month_does_not_have_are_none() -> None:
    assert days("2026-03-29", "2026-04-01").months_before(1).empty
    assert days("2026-03-29", "2026-04-01").same_days(1, days("2026-01-01", "2026-04-01"), date(2026, 5, 1)) == {}


def test_same_days_are_those_gone_by_and_covered() -> None:
    period, cover = days("2026-02-01", "2026-04-01"), days("2026-02-01", "2026-04-01")
    assert period.same_days(1, cover, date(2026, 3, 10)) == {"2026-03": days("2026-02-01", "2026-02-11")}


def test_rows_in_spans_take_the_name_of_the_span() -> None:
    rows = pl.DataFrame({"at": [datetime(2026, 2, 9), datetime(2026, 2, 10), datetime(2026, 2, 11)]})
    found = in_spans(rows, "at", {"2026-03": days("2026-02-10", "2026-02-11")})
    assert found.rows() == [(datetime(2026, 2, 10), "2026-03")]


def test_a_period_holds_its_first_day_and_not_its_last() -> None:
    moments = [datetime(2026, 2, 28, 23, 59), datetime(2026, 3, 1), datetime(2026, 3, 31, 23, 59), datetime(2026, 4, 1)]
    held = pl.DataFrame({"at": moments}).select(MARCH.holds(pl.col("at")))["at"]
    assert held.to_list() == [False, True, True, False]


def test_local_times_become_instants() -> None:
    assert instants(AMSTERDAM, "2026-01-05 09:00", "2026-07-05 09:00") == ["05 08:00", "05 07:00"]


def test_a_skipped_time_follows_the_clock_before() -> None:
    """29 March 2026: 02:00–03:00 does not exist in Amsterdam; 02:30 by the winter clock is 01:30 UTC."""
    assert instants(AMSTERDAM, "2026-03-29 01:59", "2026-03-29 02:30", "2026-03-29 03:00") == [
        "29 00:59",
        "29 01:30",
        "29 01:00",
    ]


def test_a_time_that_stands_twice_is_the_first() -> None:
    assert instants(AMSTERDAM, "2026-10-25 02:30", "2026-10-25 03:00") == ["25 00:30", "25 02:00"]


@pytest.mark.parametrize(("sunday", "length"), [("2026-03-29", 5.0), ("2026-10-25", 7.0), ("2026-03-22", 6.0)])
def test_opening_hours_over_a_clock_change(sunday: str, length: float) -> None:
    day = date.fromisoformat(sunday)
    assert open_hours(Period(day, day + timedelta(days=1)), sun="00:00-06:00") == length


def test_several_spans_and_closed_days() -> None:
    """March 2026 has five Mondays; the second is closed."""
    assert open_hours(MARCH, mon="09:00-12:30, 13:30-18:00", closed=[date(2026, 3, 9)]) == 4 * 8.0


def test_a_span_over_midnight_is_cut_to_the_period() -> None:
    """Saturday 22:00–06:00: six hours fall on Sunday, two on Saturday."""
    assert open_hours(days("2026-03-08", "2026-03-09"), sat="22:00-06:00") == 6.0
    assert open_hours(days("2026-03-07", "2026-03-08"), sat="22:00-06:00") == 2.0
    assert open_hours(days("2026-03-07", "2026-03-09"), sat="22:00-06:00") == 8.0


def test_open_days_leave_closed_days_out() -> None:
    week = settings(hours={"mon": "09:00-18:00", "closed": [date(2026, 3, 9), date(2026, 3, 10)]}).hours
    assert open_days(week, MARCH) == 4
    assert open_days(week, days("2026-03-03", "2026-03-03")) == 0


def test_months_are_cut_to_the_period() -> None:
    spans = month_spans(days("2026-01-31", "2026-03-01"), "UTC")
    length = spans.select("month", hours(pl.col("opens"), pl.col("closes")).alias("h")).rows()
    assert length == [("2026-01", 24.0), ("2026-02", 28 * 24.0)]
    assert month_spans(days("2026-03-01", "2026-03-01"), "UTC").is_empty()


some_day = st.dates(date(2000, 1, 1), date(2040, 1, 1))
periods = st.builds(Period, some_day, some_day)


@effort(max_examples=100, deadline=None)
@given(periods, periods, periods)
def test_cutting_does_not_depend_on_the_order(one: Period, two: Period, three: Period) -> None:
    assert one.cut(two) == two.cut(one)
    cut, other = one.cut(two).cut(three), one.cut(two.cut(three))
    assert cut == other or (cut.empty and other.empty)


@effort(max_examples=100, deadline=None)
@given(st.lists(some_day, min_size=3, max_size=3))
def test_months_of_adjoining_periods_join(three: list[date]) -> None:
    first, middle, last = sorted(three)
    joined = [*Period(first, middle).months(), *Period(middle, last).months()]
    assert list(dict.fromkeys(joined)) == Period(first, last).months()


@effort(max_examples=30, deadline=None)
@given(some_day, st.integers(0, 40), st.integers(0, 40))
def test_opening_hours_of_adjoining_periods_add_up(first: date, one: int, two: int) -> None:
    middle = first + timedelta(days=one)
    last = middle + timedelta(days=two)
    week = {"mon": "09:00-18:00", "sat": "20:00-04:00", "sun": "22:00-02:00"}
    parts = open_hours(Period(first, middle), **week) + open_hours(Period(middle, last), **week)
    assert parts == pytest.approx(open_hours(Period(first, last), **week))


def test_the_last_months_of_a_period_are_counted_back_from_its_end() -> None:
    year = days("2025-01-01", "2026-04-01")
    assert year.last_months(12) == days("2025-04-01", "2026-04-01")
    assert days("2025-01-01", "2026-03-15").last_months(12) == days("2025-03-01", "2026-03-15")
    assert MARCH.last_months(12) == MARCH
    assert Period.nothing().last_months(12).empty
