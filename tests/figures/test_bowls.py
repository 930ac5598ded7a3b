"""What is mixed and what is left in the bowl."""

import pytest
from frames import (
    agrees,
    bookings,
    days,
    only,
    product_log,
    products,
    services,
    settings,
    small_salon,
    visit,
    work_out,
)

DYE = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "9"})
MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"}, {"service_id": "CUT", "kind": "cut"})


def bowl(mixed_g: str, left_g: str | None = None, logged_at: str = "2026-03-03 10:00", **rest: str) -> dict:
    return {"logged_at": logged_at, "product_id": "DYE", "mixed_g": mixed_g, "left_g": left_g} | rest


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("bowls", period=days("2026-02-01", "2026-04-01"), **small_salon()), "bowls")


def test_a_bowl_that_was_not_weighed_is_not_an_empty_bowl() -> None:
    row = only(work_out("bowls", product_log=product_log(bowl("60"), bowl("40", "10")), products=DYE))
    assert (row["mixed_g"], row["weighed_mixed_g"], row["left_g"], row["left_share"]) == (100, 40, 10, 0.25)


def test_where_no_bowl_was_weighed_nothing_is_known_of_what_is_left() -> None:
    row = only(work_out("bowls", product_log=product_log(bowl("60")), products=DYE))
    assert (row["left_g"], row["left_share"], row["left_cost"]) == (None, None, None)


def test_a_bowl_weighed_empty_has_nothing_left() -> None:
    row = only(work_out("bowls", product_log=product_log(bowl("60", "0")), products=DYE))
    assert (row["left_g"], row["left_share"], row["left_cost"]) == (0, 0.0, 0)


def test_grams_left_cost_what_the_pack_cost_that_day() -> None:
    prices = products(
        {"product_id": "DYE", "pack_g": "60", "pack_cost": "6"},
        {"product_id": "DYE", "pack_g": "50", "pack_cost": "10", "valid_from": "2026-03-16"},
    )
    log = product_log(bowl("60", "10", "2026-03-15 23:59"), bowl("60", "10", "2026-03-16 00:00"))
    assert only(work_out("bowls", product_log=log, products=prices))["left_cost"] == 3  # 10 × 6 ÷ 60 + 10 × 10 ÷ 50


def test_a_product_the_price_list_does_not_know_has_no_cost() -> None:
    row = only(work_out("bowls", product_log=product_log(bowl("60", "10", product="Umber"))))
    assert (row["product"], row["left_share"], row["left_cost"]) == ("Umber", pytest.approx(1 / 6), None)


def test_coverage_counts_colour_lines_with_a_bowl() -> None:
    book = bookings(
        visit("V1", "2026-03-03 09:00", 90, ("ROOTS", "1"), ("CUT", "1")),
        visit("V2", "2026-03-03 11:00", 90, ("ROOTS", "1")),
        visit("V3", "2026-03-03 13:00", 90, ("ROOTS", "1")),
        visit("V4", "2026-03-03 15:00", 90, ("ROOTS", "1"), status="no_show"),
    )
    log = product_log(
        bowl("30", booking_id="V1", service_id="ROOTS"),
        bowl("30", booking_id="V1", service_id="ROOTS"),
        bowl("30", booking_id="V2"),
        bowl("30", booking_id="V3", service_id="CUT"),
    )
    row = only(work_out("bowls", bookings=book, services=MENU, product_log=log, products=DYE))
    assert (row["bowls"], row["colour_lines"], row["colour_lines_logged"]) == (4, 3, 2)


def test_a_bowl_counts_in_the_month_it_was_logged_and_a_cut_period_holds_no_more() -> None:
    log = product_log(bowl("30", logged_at="2026-02-28 23:59"), bowl("40", logged_at="2026-03-01 00:00"), bowl("50"))
    frame = work_out("bowls", product_log=log, products=DYE, period=days("2026-02-01", "2026-03-02"))
    assert frame.select("month", "mixed_g").rows() == [("2026-02", 30), ("2026-03", 40)]


@pytest.mark.parametrize(("currency", "cost"), [("JPY", "2"), ("EUR", "1.67"), ("KWD", "1.667")])
def test_costs_are_rounded_to_the_currency(currency: str, cost: str) -> None:
    """10 g of a pack of 60 g for 10: 1.6667."""
    prices = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "10"})
    salon = settings(salon={"currency": currency})
    row = only(work_out("bowls", product_log=product_log(bowl("60", "10")), products=prices, salon=salon))
    assert f"{row['left_cost'].normalize():f}" == cost


def test_half_a_cent_is_not_lost_in_many_thirds() -> None:
    """1,515 bowls leave 1 g each of a pack of 60 g for 0.02: 1,515 × 0.02 ÷ 60 = 0.505, that is 0.51."""
    prices = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "0.02"})
    row = only(work_out("bowls", product_log=product_log(*[bowl("60", "1")] * 1515), products=prices))
    assert f"{row['left_cost']:.2f}" == "0.51"
