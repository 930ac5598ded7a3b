"""Checks of prices, bowls, names that other tables must have, and clients who stand twice."""

import polars as pl
import pytest
from cross_checked import ROOTS_AND_CUT, bowl, counts, priced, tables, warned
from frames import bookings, clients, payments, product_log, products, sales, services, visit
from frames import settings as salon_of
from hypothesis import given
from hypothesis import settings as run_with
from hypothesis import strategies as st

from analytics.checks.cross_checks import prices


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
