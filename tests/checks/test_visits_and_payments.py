"""Checks across the lines of a visit and across visits and payments."""

from typing import Any

import polars as pl
import pytest
from cross_checked import ROOTS_AND_CUT, WEEKDAYS_OPEN, counts, two_lines, warned
from frames import Row, bookings, payments, sales, visit
from frames import settings as salon_of


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
