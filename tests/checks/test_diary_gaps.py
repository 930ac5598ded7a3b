"""Checks of the calendar: gaps, short weeks, silent months, stylists who stop."""

from datetime import date, timedelta
from typing import Any

import polars as pl
import pytest
from cross_checked import WEEKDAYS_OPEN, tables, warned
from frames import Row, bookings, payments, visit
from frames import settings as salon_of
from hypothesis import given
from hypothesis import settings as run_with
from hypothesis import strategies as st

from analytics.checks.cross_checks import calendar_gaps

MONDAY = date(2026, 3, 2)


def one_a_day(days: list[date], stylist: str = "Mila", status: str = "completed", prefix: str = "V") -> list[list[Row]]:
    """A visit at ten on each of these days."""
    return [
        visit(f"{prefix}{day}", f"{day} 10:00", 60, ("CUT", "40"), stylist=stylist, status=status, client_id=f"C{day}")
        for day in days
    ]


def weekdays(first: date, count: int) -> list[date]:
    """So many days from this one on, Saturdays and Sundays left out."""
    days = (first + timedelta(days=step) for step in range(2 * count + 7))
    return [day for day in days if day.weekday() < 5][:count]


def calendar_with_gap(empty: int) -> tuple[list[date], str]:
    """Twenty weekdays with a visit, so many without, twenty more; and the first and last day without."""
    days = weekdays(MONDAY, 40 + empty)
    return days[:20] + days[20 + empty :], f"{days[20]} to {days[19 + empty]}"


def test_seven_open_days_without_a_visit_look_like_a_missing_export() -> None:
    days, gap = calendar_with_gap(7)
    [said] = warned(bookings=bookings(*one_a_day(days)))
    assert (said["code"], said["value"], said["row"], said["count"]) == ("calendar_gap", gap, 21, 1)
    assert "7 open days" in said["message"] and "closed" in said["what_to_do"]


@run_with(deadline=None)
@given(st.integers(0, 20))
def test_a_gap_is_seven_open_days_and_more(empty: int) -> None:
    days, _ = calendar_with_gap(empty)
    runs = calendar_gaps.calendar_runs(tables(bookings=bookings(*one_a_day(days))), salon_of(hours=WEEKDAYS_OPEN))
    assert runs["empty_days"].to_list() == ([empty] if empty else [])
    assert runs["days_beyond"].to_list() == ([empty] if empty else [])


def test_two_gaps_are_two_causes() -> None:
    days = weekdays(MONDAY, 60)
    rows = warned(bookings=bookings(*one_a_day(days[:15] + days[25:35] + days[45:])))
    assert [row["value"] for row in rows] == [f"{days[15]} to {days[24]}", f"{days[35]} to {days[44]}"]


def test_six_open_days_closed_days_and_cancelled_visits_are_no_gap() -> None:
    short, _ = calendar_with_gap(6)
    assert warned(bookings=bookings(*one_a_day(short))) == []
    days, _ = calendar_with_gap(10)
    shut = sorted({str(day) for day in weekdays(MONDAY, 50)} - {str(day) for day in days})
    closed = salon_of(hours=WEEKDAYS_OPEN | {"closed": shut})
    assert warned(salon=closed, bookings=bookings(*one_a_day(days))) == []
    cancelled = one_a_day([weekdays(MONDAY, 26)[25]], status="cancelled", prefix="X")
    assert warned(bookings=bookings(*one_a_day(days), *cancelled)) == []


def test_a_slip_in_the_year_and_bookings_far_ahead_are_no_gap() -> None:
    days = weekdays(MONDAY, 30)
    slips = [date(1926, 3, 2), *days, date(2126, 3, 3)]
    ahead = one_a_day([days[-1] + timedelta(days=step) for step in (30, 60, 90)], status="booked")
    assert warned(bookings=bookings(*one_a_day(slips), *ahead)) == []


def test_a_salon_that_works_one_day_a_week_may_leave_a_week_out() -> None:
    mondays = [MONDAY + timedelta(weeks=week) for week in range(30) if week not in (10, 11)]
    assert warned(bookings=bookings(*one_a_day(mondays))) == []


def test_the_calendar_of_each_salon_of_a_group_is_its_own() -> None:
    days, gap = calendar_with_gap(8)
    north = [row | {"site": "North"} for rows in one_a_day(days) for row in rows]
    south = [row | {"site": "South"} for rows in one_a_day(weekdays(MONDAY, 50)) for row in rows]
    assert [row["value"] for row in warned(bookings=bookings(north, south))] == [f"{gap} in North"]


def ten_a_day(days: list[date], left: dict[date, int] | None = None, **rest: Any) -> pl.DataFrame:
    """Ten visits on each of these days, or so many as are left of them."""
    visits = ((day, number) for day in days for number in range((left or {}).get(day, 10)))
    return bookings(
        *(visit(f"V{day}{n}", f"{day} {10 + n // 2}:00", 60, ("CUT", "40"), **rest) for day, n in visits),
    )


TWENTY_WEEKS = weekdays(MONDAY, 100)


CUT_WEEK = dict.fromkeys(weekdays(MONDAY + timedelta(weeks=10), 5), 0)


TUESDAY = MONDAY + timedelta(weeks=10, days=1)


def test_a_week_of_which_one_day_stands_is_said_with_its_lines() -> None:
    [said] = warned(bookings=ten_a_day(TWENTY_WEEKS, CUT_WEEK | {TUESDAY: 10}))
    assert (said["code"], said["value"], said["row"], said["count"]) == (
        "short_week",
        "2026-05-11 to 2026-05-17",
        511,
        1,
    )
    assert "10 booking lines where about 50 are usual" in said["message"]


def test_a_week_of_which_nothing_stands_is_said_after_the_line_before_it() -> None:
    [said] = warned(bookings=ten_a_day(TWENTY_WEEKS, CUT_WEEK))
    assert (said["code"], said["row"]) == ("short_week", 501) and "there are 0 booking lines" in said["message"]


def test_short_weeks_that_follow_each_other_are_one_cause() -> None:
    month = {day + timedelta(weeks=step): 0 for day in CUT_WEEK for step in range(3)}
    stands = {TUESDAY + timedelta(weeks=step): 10 for step in range(3)}
    [said] = warned(bookings=ten_a_day(TWENTY_WEEKS, month | stands))
    assert said["value"] == "2026-05-11 to 2026-05-31"
    assert "30 booking lines where about 150 are usual" in said["message"]


def test_two_of_five_days_and_closed_days_are_no_short_week() -> None:
    assert warned(bookings=ten_a_day(TWENTY_WEEKS, CUT_WEEK | {TUESDAY: 10, TUESDAY + timedelta(days=2): 10})) == []
    closed = salon_of(hours=WEEKDAYS_OPEN | {"closed": [str(day) for day in CUT_WEEK if day != TUESDAY]})
    assert warned(salon=closed, bookings=ten_a_day(TWENTY_WEEKS, CUT_WEEK | {TUESDAY: 10})) == []


def test_a_fortnight_without_a_visit_is_said_once_and_what_is_left_beside_it_too() -> None:
    fortnight = CUT_WEEK | {day + timedelta(weeks=1): 0 for day in CUT_WEEK}
    assert [row["code"] for row in warned(bookings=ten_a_day(TWENTY_WEEKS, fortnight))] == ["calendar_gap"]
    third = {day + timedelta(weeks=2): 2 for day in CUT_WEEK}
    said = warned(bookings=ten_a_day(TWENTY_WEEKS, fortnight | third))
    assert [(row["code"], row["value"][:10]) for row in said] == [
        ("calendar_gap", "2026-05-11"),
        ("short_week", "2026-05-25"),
    ]


def test_the_first_and_last_week_and_those_around_christmas_are_not_judged() -> None:
    ends = dict.fromkeys(TWENTY_WEEKS[:5] + TWENTY_WEEKS[-5:], 1)
    assert warned(bookings=ten_a_day(TWENTY_WEEKS, ends)) == []
    winter = weekdays(date(2026, 10, 5), 100)
    shut = {day: 0 for day in winter if date(2026, 12, 22) <= day <= date(2027, 1, 6)}
    assert warned(bookings=ten_a_day(winter, shut)) == []


def test_a_short_week_of_one_salon_of_a_group_is_its_own() -> None:
    south = ten_a_day(TWENTY_WEEKS, site="South")
    north = ten_a_day(TWENTY_WEEKS, CUT_WEEK | {TUESDAY: 3}, site="North")
    assert [row["value"] for row in warned(bookings=pl.concat([north, south]))] == ["2026-05-11 to 2026-05-17 in North"]


def test_a_month_without_payments_is_said_with_what_is_usual() -> None:
    days = weekdays(MONDAY, 120)
    paid = [{"paid_at": str(day), "amount": "40"} for day in days if day.month != 6 for _ in range(5)]
    [said] = warned(bookings=ten_a_day(days), payments=payments(*paid))
    assert (said["code"], said["value"], said["count"]) == ("silent_month", "2026-06", 1)
    assert "has 0 payments where about 110 are usual" in said["message"]


def test_visits_of_a_month_without_payments_are_one_cause() -> None:
    days = weekdays(MONDAY, 240)
    paid = [
        {"paid_at": str(day), "amount": "40", "booking_id": f"V{day}{n}"}
        for day in days
        if day.month != 6 and day != MONDAY + timedelta(weeks=2)
        for n in range(10)
    ]
    said = warned(bookings=ten_a_day(days), payments=payments(*paid))
    assert [(row["code"], row["row"], row["count"]) for row in said] == [
        ("visit_unpaid", 102, 10),
        ("silent_month", 652, 1),
    ]


def two_stylists(visits: int, silent: int, **ahead: Any) -> pl.DataFrame:
    """Mila works on; Joris has so many visits, the last of them so many days before the end of the book."""
    end = date(2026, 12, 1)  # the last day but four on which Mila works
    last = end - timedelta(days=silent)
    joris = [last - timedelta(days=step) for step in range(2 * visits) if (last - timedelta(days=step)).weekday() < 5]
    mila = weekdays(date(2026, 1, 5), 241)
    return bookings(
        *one_a_day(mila), *one_a_day(joris[:visits], "Joris", prefix="J"), *([ahead["visit"]] if ahead else [])
    )


def test_a_stylist_who_stops_is_named_with_her_last_day() -> None:
    [said] = warned(bookings=two_stylists(40, 42))
    assert (said["code"], said["value"], said["count"]) == ("stylist_stops", "Joris", 1)
    assert "Joris, on 2026-10-20, but 6 weeks of the book follow" in said["message"]


@pytest.mark.parametrize(("visits", "silent"), [(40, 41), (39, 42), (60, 0)])
def test_a_stylist_of_few_visits_or_away_for_less_than_six_weeks_has_not_stopped(visits: int, silent: int) -> None:
    assert warned(bookings=two_stylists(visits, silent)) == []


def test_a_stylist_with_visits_ahead_has_not_stopped() -> None:
    ahead = visit("AHEAD", "2027-01-04 10:00", 60, ("CUT", "40"), stylist="Joris", status="booked")
    assert warned(bookings=two_stylists(40, 42, visit=ahead)) == []
    off = [row | {"status": "cancelled"} for row in ahead]
    assert [row["value"] for row in warned(bookings=two_stylists(40, 42, visit=off))] == ["Joris"]


def test_one_who_comes_in_now_and_then_has_not_stopped() -> None:
    days = [date(2026, 1, 5) + timedelta(weeks=3 * step) for step in range(14)]
    helper = [
        visit(f"H{day}{hour}", f"{day} {hour}:00", 60, ("CUT", "40"), stylist="Noor")
        for day in days
        for hour in (10, 12, 14)
    ]
    assert warned(bookings=bookings(*one_a_day(weekdays(date(2026, 1, 5), 300)), *helper)) == []
