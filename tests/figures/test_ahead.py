"""What the next twelve weeks hold."""

from datetime import date, timedelta

import polars as pl
import pytest
from frames import Row, bookings, only, rows_of, services, settings, visit, work_out

MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"}, {"service_id": "CUT", "kind": "cut"})
MONDAY = "2026-06-01"


def rhythm(client_id: str, first: str, *gaps: int, minutes: int = 90, service: str = "CUT") -> list[Row]:
    day, rows = date.fromisoformat(first), []
    for number, gap in enumerate((0, *gaps)):
        day += timedelta(days=gap)
        name = f"{client_id}{number}"
        rows += visit(name, f"{day} 10:00", minutes, (service, "60"), client_id=client_id, chair=client_id)
    return rows


def ahead(*visits: list[Row], as_of: str = MONDAY, **given: object) -> pl.DataFrame:
    return work_out("ahead", bookings=bookings(*visits), services=MENU, as_of=as_of, **given)


def crowd(number: int, gap: int, minutes: int = 90) -> list[list[Row]]:
    """Clients who came every so many days up to this month, spread over the days."""
    last = [date(2026, 5, 30) - timedelta(days=place * gap // number) for place in range(number)]
    return [
        rhythm(f"C{place}", f"{day - timedelta(days=15 * gap)}", *[gap] * 15, minutes=minutes)
        for place, day in enumerate(last)
    ]


@pytest.mark.parametrize("as_of", ["2026-06-01", "2026-06-04", "2026-06-07"])
def test_this_iso_week_and_twelve_more(as_of: str) -> None:
    weeks = ahead(rhythm("Ada", "2026-01-05", 28, 28), as_of=as_of)["week_start"].to_list()
    assert weeks == [date(2026, 6, 1) + timedelta(weeks=week) for week in range(13)]


def test_a_four_week_habit_comes_three_times_in_twelve_weeks() -> None:
    """24 clients every 4 weeks are 6 a week, 72 in the twelve whole weeks, of 1.5 hours each."""
    answer = ahead(*crowd(24, 28))[1:]
    assert answer["clients_expected"].sum() == pytest.approx(72, rel=0.1)
    assert answer["chair_hours_expected"].sum() == pytest.approx(72 * 1.5, rel=0.1)


def test_hours_are_those_the_client_s_visits_take() -> None:
    short, long = (ahead(*crowd(12, 28, minutes))["chair_hours_expected"].sum() for minutes in (30, 120))
    assert long == pytest.approx(4 * short, rel=0.05)


def test_what_is_booked_and_what_is_open() -> None:
    """Two chairs, open 45 hours a week; a booked visit of two hours, which also is to be expected."""
    hours = dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), "09:00-18:00")
    chairs = settings(hours=hours, salon={"chairs": ["Ada", "Bo"]})
    booked = visit("B", "2026-06-10 10:00", 120, ("ROOTS", "60"), client_id="Ada", chair="Ada", status="booked")
    answer = ahead(rhythm("Ada", "2026-01-05", 49, 49), booked, salon=chairs)
    assert answer["chair_hours_booked"].to_list() == [0, 2.0, *[0] * 11]
    assert answer["chair_hours_open"].to_list() == [90.0] * 13
    assert answer["clients_expected"][1] == pytest.approx(0.9, abs=0.1)
    assert answer["clients_expected"][0] == 0


def test_half_of_a_closed_week_is_made_good_around_it_until_the_salon_s_own_tell() -> None:
    days: dict[str, object] = {"closed": [f"{date(2026, 6, 8) + timedelta(days=day)}" for day in range(7)]}
    hours = dict.fromkeys(("mon", "tue", "wed", "thu", "fri", "sat"), "09:00-18:00")
    open_all, closed = (ahead(*crowd(24, 28), salon=settings(hours=each)) for each in (hours, hours | days))
    assert closed["clients_expected"][1] == closed["chair_hours_open"][1] == 0
    lost = (open_all["clients_expected"] - closed["clients_expected"]).to_list()
    assert sum(lost) == pytest.approx(lost[1] / 2, rel=0.15)
    assert all(lost[week] < 0 for week in (2, 3))


def test_the_rest_of_a_week_is_all_that_counts_of_it() -> None:
    monday, friday = (ahead(*crowd(24, 28), as_of=day) for day in ("2026-06-01", "2026-06-05"))
    assert friday["chair_hours_open"][0] == pytest.approx(monday["chair_hours_open"][0] / 3)
    assert friday["clients_expected"][0] < 0.6 * monday["clients_expected"][0]


def test_the_range_holds_what_is_expected_and_the_same_book_gives_the_same_answer() -> None:
    answer = ahead(*crowd(24, 28))
    assert answer.equals(ahead(*crowd(24, 28)))
    inside = answer.filter(pl.col("chair_hours_expected").is_between("chair_hours_low", "chair_hours_high"))
    assert inside.height == 13
    assert (answer["chair_hours_high"] > answer["chair_hours_low"]).all()


def test_an_empty_salon_expects_nobody() -> None:
    answer = ahead()
    assert answer.height == 13
    assert answer["clients_expected"].sum() == answer["chair_hours_high"].sum() == 0


def test_who_left_long_ago_is_not_expected() -> None:
    answer = ahead(*crowd(24, 28), as_of="2028-06-01")
    assert answer["clients_expected"].sum() < 3


def test_a_future_visit_marked_completed_is_neither_past_nor_booked() -> None:
    slip = visit("S", "2026-06-10 10:00", 120, ("ROOTS", "60"), client_id="Ada", chair="Ada")
    of_chairs = ("chair_hours_open", "free_share")  # a chair more
    assert ahead(*crowd(6, 28), slip).drop(of_chairs).equals(ahead(*crowd(6, 28)).drop(of_chairs))


def test_rows_are_what_the_book_holds() -> None:
    booked = visit("B", "2026-06-10 10:00", 120, ("ROOTS", "60"), client_id="Ada", chair="Ada", status="booked")
    rows = rows_of("ahead", bookings=bookings(booked), services=MENU, as_of=MONDAY)
    assert only(rows)["hours"] == 2.0


def ahead_of(*rows: list[Row], **given: object) -> pl.DataFrame:
    return work_out("ahead", bookings=bookings(*rows), services=MENU, as_of="2026-06-01", **given)


def test_asked_for_a_past_day_the_book_is_as_it_was_then() -> None:
    """A visit made by then that came later was in the book, and one made later was not."""
    made_by_then = visit("B", "2026-06-10 10:00", 120, ("CUT", "60"), client_id="Ada", booked_on="2026-05-20")
    made_later = visit("L", "2026-06-11 10:00", 120, ("CUT", "60"), client_id="Bo", booked_on="2026-06-08")
    assert ahead_of(*crowd(24, 28), made_by_then, made_later)["chair_hours_booked"][1] == 2.0


def test_a_book_without_anything_ahead_does_not_say_that_nobody_comes() -> None:
    """Each visit was booked two weeks before; whether exports hold nothing ahead or the usual, as many come."""
    past = [
        [line | {"booked_on": f"{date.fromisoformat(line['starts_at'][:10]) - timedelta(days=14)}"} for line in client]
        for client in crowd(24, 28)
    ]
    answer = ahead_of(*past)
    assert answer["clients_expected"][1] == pytest.approx(5.5, rel=0.2)
