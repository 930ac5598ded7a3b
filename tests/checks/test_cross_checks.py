"""What crosses rows and tables: each warning on a small salon that has it once and on one that has not; crashes."""

import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import polars as pl
import pytest
from frames import Row, bookings, clients, payments, product_log, products, sales, services, visit
from frames import settings as salon_of
from hypothesis import given
from hypothesis import settings as run_with
from hypothesis import strategies as st
from salons import BOOKINGS, load_unchecked, write_salon

from analytics.checks import expectations
from analytics.checks.cross_checks import calendar_gaps, prices
from analytics.definitions import findings
from analytics.definitions.tables import TABLES, Column
from analytics.intake.load import load
from analytics.settings import Settings, read_settings
from analytics.storage.book import read_book

DEMO = Path(__file__).resolve().parents[2] / "demo_data"
WEEKDAYS_OPEN = dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), "09:00-18:00")
MENU = services(
    {"service_id": "ROOTS", "kind": "root_touch_up", "price": "60"},
    {"service_id": "CUT", "kind": "cut", "price": "40"},
    {"service_id": "FREE", "kind": "other"},
)
MONDAY = date(2026, 3, 2)


def tables(**given: pl.DataFrame) -> dict[str, pl.DataFrame]:
    """The given tables beside a menu; the others are empty."""
    return {name: table.empty() for name, table in TABLES.items()} | {"services": MENU} | given


def warned(code: str | None = None, salon: Settings | None = None, **given: pl.DataFrame) -> list[Row]:
    """The findings of this code (all codes) as they are said."""
    hits = expectations.check_crossings(tables(**given), salon or salon_of(hours=WEEKDAYS_OPEN))
    return [row for row in findings.summarise(hits).to_dicts() if code in (None, row["code"])]


def counts(rows: list[Row]) -> list[tuple[int, int]]:
    """First row and count of each finding."""
    return [(row["row"], row["count"]) for row in rows]


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


# A visit's lines


def two_lines(second: Row) -> pl.DataFrame:
    return bookings(
        [{**row, **(second if row["line"] == 2 else {})} for row in visit("V1", "2026-03-02 09:00", 90, *ROOTS_AND_CUT)]
    )


ROOTS_AND_CUT = (("ROOTS", "60"), ("CUT", "40"))


def test_lines_of_one_visit_with_two_clients_are_said() -> None:
    [said] = warned(bookings=two_lines({"client_id": "Bea"}))
    assert (said["code"], said["column"], said["row"], said["count"]) == ("lines_disagree", "client_id", 2, 1)
    assert "several clients" in said["message"]


def test_many_visits_that_disagree_in_one_file_are_one_cause() -> None:
    lines = [
        {**row, "client_id": f"C{row['line']}"}
        for number in range(30)
        for row in visit(f"V{number}", "2026-03-02 09:00", 90, *ROOTS_AND_CUT)
    ]
    assert counts(warned(bookings=bookings(lines))) == [(2, 30)]


def test_lines_of_one_visit_more_than_a_day_apart_are_said() -> None:
    [said] = warned(bookings=two_lines({"starts_at": "2026-03-03 09:30"}))
    assert (said["code"], said["column"], said["count"]) == ("lines_disagree", "starts_at", 1)
    assert "more than a day apart" in said["message"]


@pytest.mark.parametrize("starts_at", ["2026-03-02 09:00", "2026-03-02 11:30", "2026-03-03 09:00"])
def test_lines_that_follow_each_other_agree(starts_at: str) -> None:
    assert warned(bookings=two_lines({"starts_at": starts_at})) == []


def test_a_refund_in_a_later_week_belongs_to_its_visit() -> None:
    refund = {"starts_at": "2026-03-12 10:00", "ends_at": "2026-03-12 10:00", "price": "-40"}
    assert warned(bookings=two_lines(refund)) == []


# Payments and visits


def paid_visits(count: int, **first: Any) -> list[Row]:
    """A payment of 40 for each of the visits V0, V1, …; the first as given."""
    rows: list[Row] = [
        {"paid_at": "2026-03-02 12:00", "booking_id": f"V{number}", "amount": "40"} for number in range(count)
    ]
    return [rows[0] | first, *rows[1:]]


def cut_visits(count: int, **rest: Any) -> pl.DataFrame:
    return bookings(*(visit(f"V{number}", "2026-03-02 09:00", 60, ("CUT", "40"), **rest) for number in range(count)))


@pytest.mark.parametrize(("amount", "says"), [("83.50", "43.50 more was paid"), ("4", "36.00 less was paid")])
def test_a_visit_that_is_not_paid_in_full_is_said(amount: str, says: str) -> None:
    [said] = warned(bookings=cut_visits(4), payments=payments(*paid_visits(4, amount=amount)))
    assert (said["code"], said["row"], said["count"]) == ("paid_differs", 2, 1)
    assert says in said["message"]


def test_cash_rounding_tips_retail_refunds_and_parts_come_out_even() -> None:
    booked = bookings(
        *(visit(f"V{n}", "2026-03-02 09:00", 60, ("CUT", "40")) for n in (0, 1)),
        visit("V2", "2026-03-02 11:00", 60, ("CUT", "40"), tip="5", discount="10"),
    )
    paid = payments(
        *paid_visits(1, amount="40.05"),
        {"paid_at": "2026-03-02 12:00", "booking_id": "V1", "amount": "50", "method": "voucher"},
        {"paid_at": "2026-03-02 12:00", "booking_id": "V1", "amount": "-10", "method": "cash"},
        {"paid_at": "2026-03-02 12:00", "booking_id": "V2", "amount": "57"},
        {"paid_at": "2026-03-02 12:00", "amount": "99"},
    )
    sold = sales(
        {"sold_at": "2026-03-02 12:00", "product_id": "P1", "quantity": "2", "price": "11", "booking_id": "V2"}
    )
    assert warned(bookings=booked, payments=paid, sales=sold) == []


@pytest.mark.parametrize(
    ("currency", "paid", "found"),
    [("SEK", "40.50", 0), ("SEK", "40.51", 1), ("EUR", "40.06", 1), ("HUF", "42", 0), ("KWD", "40.005", 0)],
)
def test_cash_is_rounded_by_the_coins_of_the_currency(currency: str, paid: str, found: int) -> None:
    salon = salon_of(salon={"currency": currency}, hours=WEEKDAYS_OPEN)
    assert len(warned(salon=salon, bookings=cut_visits(4), payments=payments(*paid_visits(4, amount=paid)))) == found


@pytest.mark.parametrize(("currency", "says"), [("JPY", "44 more"), ("KWD", "43.500 more"), ("EUR", "43.50 more")])
def test_amounts_are_said_with_the_digits_of_the_currency(currency: str, says: str) -> None:
    salon = salon_of(salon={"currency": currency}, hours=WEEKDAYS_OPEN)
    [said] = warned(salon=salon, bookings=cut_visits(4), payments=payments(*paid_visits(4, amount="83.5")))
    assert f" {says} was paid" in said["message"]


@pytest.mark.parametrize(("amount", "found"), [("40", 0), ("43", 0), ("45", 0), ("39", 1), ("46", 1)])
def test_a_tip_that_went_into_the_jar_is_not_missing(amount: str, found: int) -> None:
    paid = payments(*paid_visits(4, amount=amount))
    tipped = pl.concat([cut_visits(1, tip="5"), cut_visits(4)[1:]])
    assert len(warned(bookings=tipped, payments=paid)) == found


def test_tax_that_is_added_to_prices_is_due_as_well() -> None:
    salon = salon_of(tax={"prices": "added"}, hours=WEEKDAYS_OPEN)
    paid = [row | {"amount": "48.40"} for row in paid_visits(3)]
    assert warned(salon=salon, bookings=cut_visits(3), payments=payments(*paid)) == []
    [said] = warned(salon=salon, bookings=cut_visits(3), payments=payments(paid[0] | {"amount": "40"}, *paid[1:]))
    assert said["code"] == "paid_differs" and "8.40 less" in said["message"]


def test_payments_that_rarely_name_visits_are_not_held_against_them() -> None:
    assert warned(bookings=cut_visits(6), payments=payments(*paid_visits(3, amount="1"))) == []


def test_a_visit_without_a_payment_is_said_where_nearly_all_have_one() -> None:
    [said] = warned(bookings=cut_visits(10), payments=payments(*paid_visits(9)))
    assert (said["code"], said["row"], said["count"]) == ("visit_unpaid", 11, 1)
    assert "40.00" in said["message"]


def test_visits_without_a_payment_are_usual_where_one_in_five_has_none() -> None:
    assert warned(bookings=cut_visits(10), payments=payments(*paid_visits(8))) == []


def test_visits_before_the_first_payment_were_paid_elsewhere() -> None:
    before = bookings(
        visit("A", "2026-02-02 09:00", 60, ("CUT", "40")),
        *(visit(f"V{number}", "2026-03-02 09:00", 60, ("CUT", "40")) for number in range(20)),
        visit("Z", "2026-03-02 09:00", 60, ("CUT", "40"), status="cancelled"),
        visit("F", "2026-03-02 09:00", 60, ("FREE", "0")),
    )
    assert warned(bookings=before, payments=payments(*paid_visits(20))) == []


# Prices


def priced(*prices: str, service: str = "ROOTS", **rest: Any) -> pl.DataFrame:
    return bookings(
        *(visit(f"V{n}", "2026-03-02 09:00", 60, (service, price), **rest) for n, price in enumerate(prices))
    )


@pytest.mark.parametrize("slip", ["600", "6000", "6", "0.60"])
def test_a_price_ten_or_a_hundred_times_off_is_said(slip: str) -> None:
    [said] = warned(bookings=priced("60", "58", slip))
    assert (said["code"], said["row"], said["count"], said["value"]) == ("price_far_off", 4, 1, None)
    assert f"{float(slip):.2f}, where " in said["message"]


def test_ten_times_too_much_is_found_however_often_it_was_typed() -> None:
    assert counts(warned(bookings=priced(*["60"] * 60, *["600"] * 40))) == [(62, 40)]


@pytest.mark.parametrize("price", ["90", "30", "0", "-60", "60"])
def test_reduced_dearer_free_and_refunded_lines_are_usual(price: str) -> None:
    assert warned(bookings=priced("60", "60", price)) == []


def test_a_price_without_a_list_price_or_of_a_missed_visit_is_not_judged() -> None:
    assert warned(bookings=priced("1", "1000", service="FREE")) == []
    assert warned(bookings=priced("60", "6000", status="no_show")) == []


def test_a_price_is_held_against_the_list_of_its_day() -> None:
    menu = services(
        {"service_id": "CUT", "kind": "cut", "price": "4", "valid_from": "2020-01-01"},
        {"service_id": "CUT", "kind": "cut", "price": "40", "valid_from": "2026-01-01"},
    )
    old = visit("OLD", "2025-03-03 09:00", 60, ("CUT", "4"))
    new = visit("NEW", "2026-03-03 09:00", 60, ("CUT", "40"))
    assert warned(services=menu, bookings=bookings(old, new)) == []
    late = visit("LATE", "2026-03-03 09:00", 60, ("CUT", "4"))
    assert counts(warned(services=menu, bookings=bookings(old, new, late))) == [(4, 1)]


@run_with(deadline=None)
@given(st.lists(st.integers(50, 90), min_size=1, max_size=60), st.sampled_from([10, 100]))
def test_only_the_slip_is_far_off(charged: list[int], times: int) -> None:
    """Among prices near the list price of 60 one that slipped by a digit or two lies beyond, whatever the rest."""
    frame = priced(*map(str, [*charged, 60 * times]))
    beyond = prices.prices(tables(bookings=frame), salon_of()).filter(pl.col("times_beyond") > 1)
    assert beyond["row"].to_list() == [len(charged) + 2]


# Bowls, and what tables name


def bowl(product: str = "P1", **rest: Any) -> Row:
    return {"logged_at": "2026-03-02 09:00", "booking_id": "V1", "product_id": product, "mixed_g": "30", **rest}


SHELF = products(
    {"product_id": "P1"}, {"product_id": "D1", "kind": "developer"}, {"product_id": "A1", "kind": "additive"}
)


def test_a_bowl_of_a_visit_without_a_colour_line_is_said_once() -> None:
    """Colour and developer of one bowl are one bowl."""
    booked = bookings(visit("V1", "2026-03-02 09:00", 60, ("CUT", "40")))
    [said] = warned(bookings=booked, products=SHELF, product_log=product_log(bowl(), bowl("D1")))
    assert (said["code"], said["file"], said["row"], said["count"]) == ("bowl_without_colour", "product_log.csv", 2, 1)


def test_bowls_of_colour_visits_and_of_additives_are_usual() -> None:
    both = bookings(
        visit("V1", "2026-03-02 09:00", 60, *ROOTS_AND_CUT), visit("V2", "2026-03-02 09:00", 60, ("CUT", "40"))
    )
    log = product_log(bowl(), bowl("D1"), bowl("A1", booking_id="V2"), bowl(booking_id=None))
    assert warned(bookings=both, products=SHELF, product_log=log) == []


NAMING = {
    "payments": payments(
        {"paid_at": "2026-03-02", "booking_id": "V1", "amount": "40"},
        {"paid_at": "2026-03-02", "booking_id": "V9", "amount": "40"},
        {"paid_at": "2026-03-02", "amount": "40"},
    ),
    "product_log": product_log(bowl("A1"), bowl("A1", booking_id="V9"), bowl("A1", booking_id=None)),
    "sales": sales(
        *(
            {"sold_at": "2026-04-02", "product_id": "P1", "price": "0", "booking_id": name}
            for name in ("V1", "V9", None)
        )
    ),
}


@pytest.mark.parametrize("name", list(NAMING))
def test_a_visit_that_is_not_in_the_bookings_is_said(name: str) -> None:
    booked = bookings(visit("V1", "2026-03-02 09:00", 60, ("CUT", "40")))
    [said] = warned(bookings=booked, products=SHELF, **{name: NAMING[name]})
    assert (said["code"], said["file"], said["row"], said["count"]) == ("unknown_visit", f"{name}.csv", 3, 1)
    known = bookings(*(visit(number, "2026-03-02 09:00", 60, ("CUT", "40")) for number in ("V1", "V9")))
    assert warned("unknown_visit", bookings=known, products=SHELF, **{name: NAMING[name]}) == []


def test_a_service_of_a_bowl_that_is_not_on_the_menu_is_said() -> None:
    booked = bookings(visit("V1", "2026-03-02 09:00", 60, *ROOTS_AND_CUT))
    log = product_log(bowl(service_id="ROOTS"), bowl(service_id="PERM"), bowl(service_id="PERM"), bowl())
    [said] = warned(bookings=booked, products=SHELF, product_log=log)
    assert (said["code"], said["value"], said["row"], said["count"]) == ("service_not_listed", "PERM", 3, 2)


# Clients


def test_one_client_under_two_numbers_is_said_without_her_name() -> None:
    listed = clients(
        {"client_id": "C1", "client": "Ilse Proefdraad", "phone": "+31 6 0000 0001"},
        {"client_id": "C2", "client": "ilse  Proefdrad", "phone": "06-0000 0001"},
        {"client_id": "C3", "client": "Bram Proef", "email": "bram@example.org"},
        {"client_id": "C4", "client": "Bram Proef", "email": "Bram@example.org "},
    )
    [said] = warned(clients=listed)
    assert (said["code"], said["row"], said["count"], said["value"], said["rows"]) == (
        "client_twice",
        3,
        2,
        None,
        "3, 5",
    )
    assert not any(word in str(said) for word in ("Ilse", "ilse", "Proef", "0000", "example.org"))


def test_a_family_a_namesake_and_a_number_that_all_share_are_several_clients() -> None:
    family = [
        {"client_id": "C1", "client": "Ilse Proef", "phone": "0600000001"},
        {"client_id": "C2", "client": "Bram Proef", "phone": "0600000001"},
        {"client_id": "C3", "client": "Ilse Proef", "phone": "0600000002"},
        {"client_id": "C4", "client": "Ilse Proef"},
        {"client_id": "C5", "phone": "0600000001"},
    ]
    shared = [{"client_id": f"D{n}", "client": "Walk-in", "phone": "0000000000"} for n in range(7)]
    assert warned(clients=clients(*family, *shared)) == []


# The calendar


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


# Weeks of which a part is missing


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


# Stylists


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


# The demo, a load, and what crashes


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[dict[str, pl.DataFrame], Settings]]:
    folder = tmp_path_factory.mktemp("demo")
    shutil.copytree(DEMO / "exports", folder / "exports")
    shutil.copy(DEMO / "salon.toml", folder)
    load_unchecked(folder)
    yield read_book(folder).tables, read_settings(folder)


def test_the_demo_shows_what_was_planted_and_no_more(demo: tuple[dict[str, pl.DataFrame], Settings]) -> None:
    """Two visits nobody paid for, one paid twice, three clients who stand twice."""
    said = findings.summarise(expectations.check_crossings(*demo))
    count = said.group_by("code").agg(pl.col("count").sum()).sort("code").rows()
    assert count == [("client_twice", 3), ("paid_differs", 1), ("visit_unpaid", 2)]


def test_no_sentence_holds_a_client(demo: tuple[dict[str, pl.DataFrame], Settings]) -> None:
    said = " ".join(findings.summarise(expectations.check_crossings(*demo))["message"])
    people = demo[0]["clients"].select("client", "client_id", "phone", "email")
    assert not any(str(cell) in said for row in people.iter_rows() for cell in row if cell)


def test_a_load_keeps_the_warnings_and_uses_the_rows(tmp_path: Path) -> None:
    rows = "".join(
        f"B1,{line},C{line},Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00\n" for line in (1, 2)
    )
    folder = write_salon(tmp_path, {"bookings.csv": BOOKINGS + rows})
    settings = read_settings(folder)

    def check(loaded: dict[str, pl.DataFrame]) -> pl.DataFrame:
        return expectations.check_crossings(loaded, settings)

    report = load(folder, settings, check, lambda *_: None)
    assert report.findings["code"].to_list() == ["lines_disagree"]
    assert report.files.filter(file="bookings.csv").select("rows_used", "set_aside").row(0) == (2, 0)


def test_empty_tables_and_one_visit_pass() -> None:
    assert warned() == []
    assert warned(bookings=bookings(visit("V1", "2026-03-02 09:00", 90, ("CUT", "40")))) == []


def broken(monkeypatch: pytest.MonkeyPatch, code: str, **changes: Any) -> None:
    """The check of this code with something else in it."""
    changed = tuple(replace(each, **changes) if each.code == code else each for each in expectations.CROSS_CHECKS)
    monkeypatch.setattr(expectations, "CROSS_CHECKS", changed)


def test_rows_that_cannot_be_made_are_said_and_the_other_checks_go_on(monkeypatch: pytest.MonkeyPatch) -> None:
    def crash(*_: object) -> pl.DataFrame:
        raise ValueError("secret cell")

    broken(monkeypatch, "stylist_stops", rows=crash)
    rows = warned(bookings=two_lines({"client_id": "Bea"}))
    assert [row["code"] for row in rows] == ["check_failed", "lines_disagree"]
    assert rows[0]["message"] == "The check stylist_stops (ValueError) of bookings could not be carried out."


def test_both_checks_of_rows_that_cannot_be_made_are_said(monkeypatch: pytest.MonkeyPatch) -> None:
    lacking = bookings(visit("V1", "2026-03-02 09:00", 90, ("CUT", "40"))).drop("client_id")
    failed = warned("check_failed", bookings=lacking)
    assert {row["column"] for row in failed} == {"client_id", "starts_at"}
    assert all("lines_disagree (ColumnNotFoundError)" in row["message"] for row in failed)


def test_an_expectation_that_crashes_is_said_by_its_name(monkeypatch: pytest.MonkeyPatch) -> None:
    """Text cannot lie between numbers; Great Expectations fails on it."""
    broken(monkeypatch, "price_far_off", judged=Column("file", "number", "not a number", low=0, high=1))
    [said] = warned(bookings=priced("60"))
    assert said["code"] == "check_failed"
    assert "price_far_off (expect_column_values_to_be_between)" in said["message"]


def test_great_expectations_that_fails_as_a_whole_is_said_for_every_check(monkeypatch: pytest.MonkeyPatch) -> None:
    def crash(*_: object) -> list[Any]:
        raise RuntimeError

    monkeypatch.setattr(expectations.Expectations, "results", crash)
    assert len(warned()) == len(expectations.CROSS_CHECKS)
    hits = expectations.check_tables(tables())
    assert (set(hits["code"]), hits.height) == ({"check_failed"}, len(TABLES))


@pytest.mark.parametrize("error", [MemoryError, KeyboardInterrupt])
def test_a_full_memory_and_an_interruption_stop_the_load(
    monkeypatch: pytest.MonkeyPatch, error: type[BaseException]
) -> None:
    def crash(*_: object) -> pl.DataFrame:
        raise error

    broken(monkeypatch, "price_far_off", rows=crash)
    with pytest.raises(error):
        warned()


# Columns: every row is counted, though only different values are handed over


def test_every_row_of_one_wrong_value_is_counted_at_its_place() -> None:
    wrong = product_log(*(bowl(mixed_g=grams, left_g="5") for grams in ("30", "2000.001", "30", "2000.001", "2000")))
    hits = expectations.check_tables(tables(product_log=wrong))
    assert hits.select("code", "row", "column", "value").rows() == [
        ("out_of_range", 3, "mixed_g", "2000.001"),
        ("out_of_range", 5, "mixed_g", "2000.001"),
    ]


@run_with(deadline=None)
@given(st.lists(st.tuples(st.integers(0, 60), st.none() | st.integers(0, 60)), max_size=30))
def test_more_left_than_mixed_is_found_wherever_it_stands(grams: list[tuple[int, int | None]]) -> None:
    """The same rows as plain Python finds; what was not weighed is none of them."""
    log = product_log(*(bowl(mixed_g=str(mixed), left_g=None if left is None else str(left)) for mixed, left in grams))
    wrong = [place + 2 for place, (mixed, left) in enumerate(grams) if left is not None and left > mixed]
    judged = expectations._judged(TABLES["product_log"])["mixed_g less left_g"]
    assert log.filter(judged.made < 0)["row"].to_list() == wrong


@pytest.mark.parametrize(
    ("column", "value"), [("status", "perhaps"), ("booking_id", None), ("ends_at", datetime(2026, 3, 1))]
)
def test_what_loading_must_not_let_through_is_found(column: str, value: object) -> None:
    """An unknown word and an empty key are faults of loading itself; an end before its start is named."""
    frame = bookings(visit("V1", "2026-03-02 09:00", 90, *ROOTS_AND_CUT))
    changed = pl.when(pl.col("line") == 2).then(pl.lit(value, frame.schema[column])).otherwise(pl.col(column))
    [(code, said)] = (
        expectations.check_tables(tables(bookings=frame.with_columns(changed.alias(column))))
        .select("code", "column")
        .rows()
    )
    assert (code, said) == (("out_of_range", "starts_at") if column == "ends_at" else ("check_failed", column))


def test_a_key_that_stands_twice_is_found() -> None:
    frame = bookings(
        visit("V1", "2026-03-02 09:00", 90, ("CUT", "40")), visit("V2", "2026-03-02 09:00", 90, ("CUT", "40"))
    )
    assert expectations.check_tables(tables(bookings=frame)).is_empty()
    twice = expectations.check_tables(tables(bookings=pl.concat([frame, frame.head(1)])))
    assert twice["code"].to_list() == ["check_failed"]
