"""What each service contributes to an hour, and the price at which it would carry its hours or reach a target."""

from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from frames import (
    Row,
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
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.settings import Costs

TWO_MONTHS = days("2026-02-01", "2026-04-01")
MENU = services({"service_id": "CUT", "kind": "cut", "tax_rate": "25", "price": "100"})
# 9 h on 26 days of March: 234 h of the one chair.
COSTS = {"per_month": 4680, "target_per_chair_hour": 45}


def row(*visits: list, salon: Any = None, menu: pl.DataFrame = MENU, **more: Any) -> Row:
    given = {"bookings": bookings(*visits), "services": menu, "salon": salon or settings(costs=COSTS)} | more
    return only(work_out("prices", **given))


def cut(day: str, minutes: int, price: str = "100", **rest: Any) -> list:
    return visit(day, f"2026-{day} 09:00", minutes, ("CUT", price), **rest)


def test_equals_the_answer_worked_by_hand() -> None:
    small = small_salon()
    costs = {"costs": Costs(per_month=Decimal(7200), target_per_chair_hour=Decimal(60))}
    small["salon"] = small["salon"].model_copy(update=costs)
    agrees(work_out("prices", period=TWO_MONTHS, **small), "prices")


def test_the_cost_of_an_open_hour_is_that_of_whole_months_however_the_period_is_cut() -> None:
    assert row(cut("03-03", 60))["cost_per_open_hour"] == 20
    assert row(cut("03-03", 60), period=days("2026-03-01", "2026-03-08"))["cost_per_open_hour"] == 20


def test_tax_is_added_to_the_price_where_prices_include_it() -> None:
    """One line of 30 minutes bears all 4,680, 5,850 with 25 % tax; the target 22.50 or 28.13 (28.125 rounds up)."""
    included, added = row(cut("03-03", 30)), row(cut("03-03", 30), salon=settings(costs=COSTS, tax={"prices": "added"}))
    assert (included["price_to_clear_cost"], included["price_to_clear_target"]) == (5850, Decimal("28.13"))
    assert (added["price_to_clear_cost"], added["price_to_clear_target"]) == (4680, Decimal("22.5"))


def test_without_costs_or_a_target_no_price_is_named() -> None:
    answer = row(cut("03-03", 30), salon=settings())
    named = [
        *("cost_per_open_hour", "cost_per_taken_hour", "covers_open_hour", "carries_taken_hour"),
        *("price_to_clear_cost", "target_per_chair_hour", "price_to_clear_target", "reaches_target"),
    ]
    assert [answer[name] for name in named] == [None] * len(named)


def test_product_is_paid_before_the_cost_is_cleared() -> None:
    """An hour brings 80 net of 100; the bowl costs 61, so 19 are left of the 20 that an open hour costs.

    The one hour taken bears all 4,680, and (4,680 + 61) × 1.25 would have to be charged for it.
    """
    log = product_log({"logged_at": "2026-03-03", "booking_id": "03-03", "product_id": "DYE", "mixed_g": "61"})
    shelf = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "60"})
    answer = row(cut("03-03", 60), product_log=log, products=shelf)
    assert (answer["product_cost_per_line"], answer["after_product_per_chair_hour"]) == (61, 19)
    assert (answer["covers_open_hour"], answer["carries_taken_hour"], answer["lines_logged"]) == (False, False, 1)
    assert answer["price_to_clear_cost"] == Decimal("5926.25")


ROOTS = services(
    {"service_id": "ROOTS", "kind": "root_touch_up", "tax_rate": "25", "price": "100"}, MENU.row(0, named=True)
)
BOWL = {"logged_at": "2026-03-03", "service_id": "ROOTS", "product_id": "DYE", "mixed_g": "60"}  # costs 9.00


def logged(*bowls: Row) -> dict[str, Any]:
    """Four hours of roots at 80 net, in four visits, with these bowls."""
    visits = [visit(f"V{n}", f"2026-03-0{n} 09:00", 60, ("ROOTS", "100")) for n in (3, 4, 5, 6)]
    shelf = {"product_log": product_log(*[BOWL | bowl for bowl in bowls]), "products": products({"product_id": "DYE"})}
    return row(*visits, menu=ROOTS, **shelf)


def test_product_of_lines_that_were_not_logged_is_as_of_those_that_were() -> None:
    """Two of four lines logged at 9.00 and 18.00: 6.75 a line as logged, 13.50 in all; 80 − 13.50 are left of each."""
    answer = logged({"booking_id": "V3"}, {"booking_id": "V4", "mixed_g": "120"})
    assert (answer["lines_logged"], answer["logged_share"]) == (2, 0.5)
    assert (answer["product_cost_per_line"], answer["product_cost_per_line_in_all"]) == (6.75, 13.5)
    assert (answer["after_product_per_chair_hour"], answer["contribution_per_chair_hour"]) == (73.25, 66.5)
    assert answer["contribution_per_month"] == pytest.approx(66.5 * 4 / 31 * 30.4375)
    assert answer["price_to_clear_target"] == Decimal("73.13")  # (45 + 13.50) × 1.25 = 73.125


def test_bowls_of_no_known_visit_are_paid_and_scale_nothing() -> None:
    """One line logged at 9.00; 40.50 more for no known visit: 49.50 ÷ 4 is more than 9.00 a line, so that is taken."""
    answer = logged({"booking_id": "V3"}, {"booking_id": None, "mixed_g": "270"})
    assert (answer["product_cost_per_line"], answer["product_cost_per_line_in_all"]) == (12.375, 12.375)
    none = logged({"booking_id": None})
    assert (none["logged_share"], none["product_cost_per_line_in_all"]) == (0, 2.25)


def test_a_cut_with_a_bowl_in_the_log_is_not_scaled() -> None:
    """One cut of two had a bowl by mistake: 9.00 for both, not for each."""
    book = bookings(cut("03-03", 60), cut("03-04", 60))
    log = product_log(BOWL | {"booking_id": "03-03", "service_id": "CUT"})
    given = {"services": MENU, "product_log": log, "products": products({"product_id": "DYE"})}
    answer = only(work_out("prices", bookings=book, **given))
    assert (answer["product_cost_per_line_in_all"], answer["logged_share"]) == (4.5, None)


def test_the_emptier_the_salon_the_dearer_a_taken_hour_and_an_open_one_costs_the_same() -> None:
    full = row(cut("03-03", 120), cut("03-04", 120))
    slack = row(cut("03-03", 120))
    assert (full["cost_per_taken_hour"], slack["cost_per_taken_hour"]) == (1170, 2340)
    assert full["cost_per_open_hour"] == slack["cost_per_open_hour"] == 20


def test_services_are_ranked_by_what_a_chair_hour_contributes() -> None:
    """Half an hour at 40 net is 80 an hour, an hour at 60 is 60, and what brought nothing back comes last."""
    menu = services(*[{"service_id": name, "kind": "cut", "tax_rate": "0"} for name in ("A", "B", "C")])
    prices = (("A", "60", 60), ("B", "40", 30), ("C", "0", 60))
    book = [visit(name, f"2026-03-0{n} 09:00", long, (name, price)) for n, (name, price, long) in enumerate(prices, 3)]
    frame = work_out("prices", bookings=bookings(*book), services=menu)
    assert dict(frame.select("service_id", "rank").iter_rows()) == {"A": 2, "B": 1, "C": 3}


def test_typical_minutes_are_the_median_and_minutes_per_line_the_average() -> None:
    answer = row(cut("03-03", 30), cut("03-04", 40), cut("03-05", 80))
    assert (answer["typical_minutes"], answer["minutes_per_line"]) == (pytest.approx(40), pytest.approx(50))


def test_only_the_last_12_months_count_as_now() -> None:
    book = bookings(
        visit("V1", "2025-03-31 09:00", 60, ("CUT", "50")), visit("V2", "2025-04-01 09:00", 60, ("CUT", "100"))
    )
    answer = only(work_out("prices", bookings=book, services=MENU, period=days("2024-01-01", "2026-04-01")))
    assert (answer["lines"], answer["net_per_line"]) == (1, 80)


def test_a_month_that_is_not_over_has_the_days_gone_by() -> None:
    """Two lines in ten days are 2 ÷ 10 × 30.4375 a month."""
    assert row(cut("03-03", 30), cut("03-10", 30), as_of="2026-03-10")["lines_per_month"] == pytest.approx(6.0875)


def test_the_price_is_the_one_of_the_menu_today_else_the_average_charged() -> None:
    new = services(
        {"service_id": "CUT", "kind": "cut", "price": "100"},
        {"service_id": "CUT", "kind": "cut", "price": "110", "valid_from": "2026-03-31"},
    )
    assert row(cut("03-03", 30), menu=new)["price"] == 110
    assert row(cut("03-03", 30), cut("03-04", 30, "90"), menu=services({"service_id": "CUT"}))["price"] == 95


@pytest.mark.parametrize(("currency", "price"), [("JPY", "104"), ("KWD", "104.167")])
def test_currencies_without_cents_and_with_mils(currency: str, price: str) -> None:
    """250 minutes at a target of 20 an hour are 83.3333, with 25 % tax 104.1667."""
    salon = settings(costs={"target_per_chair_hour": 20}, salon={"currency": currency})
    assert row(cut("03-03", 250), salon=salon)["price_to_clear_target"] == Decimal(price)


def test_brings_what_the_chairs_figure_says_of_the_same_days() -> None:
    small = small_salon()
    same = ["service_id", "net_per_chair_hour", "after_product_per_chair_hour"]
    assert work_out("prices", **small).select(same).equals(work_out("chairs", **small).select(same))


@effort(max_examples=12, deadline=None)
@given(st.integers(1, 300), st.integers(0, 5000), st.sampled_from(["included", "added"]))
def test_at_the_price_that_clears_a_target_an_hour_brings_the_target(minutes: int, tenths_g: int, prices: str) -> None:
    """Charged again at that price, each hour after product brings 45 within what half a cent makes of an hour."""
    log = product_log(
        {"logged_at": "2026-03-03", "booking_id": "03-03", "product_id": "DYE", "mixed_g": str(tenths_g / 10)}
    )
    given = {
        "product_log": log,
        "products": products({"product_id": "DYE"}),
        "salon": settings(costs=COSTS, tax={"prices": prices}),
    }
    asked = row(cut("03-03", minutes), **given)["price_to_clear_target"]
    brought = row(cut("03-03", minutes, str(asked)), **given)["after_product_per_chair_hour"]
    assert brought == pytest.approx(45, abs=0.011 * 60 / minutes)


sold = st.tuples(st.integers(0, 2), st.integers(5, 300), st.integers(0, 99999), st.booleans())


@effort(max_examples=12, deadline=None)
@given(st.lists(sold, min_size=1, max_size=8), st.sampled_from(["included", "added"]), st.sampled_from([0, 9, 21]))
def test_a_year_at_the_prices_that_clear_the_cost_pays_product_and_costs(lines: list, prices: str, rate: int) -> None:
    """Every line at its service's price brings the month's 4,680 and all product, within half a cent a line."""
    names = ("ROOTS", "FOILS", "CUT")
    kinds = ("root_touch_up", "lightening", "cut")
    menu = services(*[{"service_id": n, "kind": k, "tax_rate": rate} for n, k in zip(names, kinds, strict=True)])
    book = [
        visit(f"V{n}", f"2026-03-{n + 2:02} 09:00", minutes, (names[which], str(Decimal(cents) / 100)), chair=str(n))
        for n, (which, minutes, cents, _) in enumerate(lines)
    ]
    log = [
        {"logged_at": "2026-03-03", "booking_id": f"V{n}", "product_id": "DYE", "mixed_g": "37"}
        for n, (*_, was_logged) in enumerate(lines)
        if was_logged
    ]
    shelf = {"product_log": product_log(*log), "products": products({"product_id": "DYE"})}
    salon = settings(costs=COSTS, tax={"prices": prices})
    frame = work_out("prices", bookings=bookings(*book), services=menu, salon=salon, **shelf)
    with_tax = 1 + rate / 100 if prices == "included" else 1
    left = sum(
        one["lines"] * (float(one["price_to_clear_cost"]) / with_tax - one["product_cost_per_line_in_all"])
        for one in frame.iter_rows(named=True)
    )
    assert left == pytest.approx(4680, abs=0.0051 * len(lines))
