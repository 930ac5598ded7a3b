"""What each service brings an hour, and the price at which it would clear a cost or a target."""

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
    """30 minutes: 20 × 0.5 = 10 net, 12.50 with 25 % tax; the target 22.50 or 28.13 (28.125 rounds up)."""
    included, added = row(cut("03-03", 30)), row(cut("03-03", 30), salon=settings(costs=COSTS, tax={"prices": "added"}))
    assert (included["price_to_clear_cost"], included["price_to_clear_target"]) == (Decimal("12.5"), Decimal("28.13"))
    assert (added["price_to_clear_cost"], added["price_to_clear_target"]) == (10, Decimal("22.5"))


def test_without_costs_or_a_target_no_price_is_named() -> None:
    answer = row(cut("03-03", 30), salon=settings())
    named = [
        "cost_per_open_hour",
        "clears_cost",
        "price_to_clear_cost",
        "target_per_chair_hour",
        "price_to_clear_target",
    ]
    assert [answer[name] for name in named] == [None] * 5


def test_product_is_paid_before_the_cost_is_cleared() -> None:
    """An hour brings 80 net of 100; the bowl costs 61, so 19 are left of the 20 that an open hour costs."""
    log = product_log({"logged_at": "2026-03-03", "booking_id": "03-03", "product_id": "DYE", "mixed_g": "61"})
    shelf = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "60"})
    answer = row(cut("03-03", 60), product_log=log, products=shelf)
    assert (answer["product_cost_per_line"], answer["after_product_per_chair_hour"]) == (61, 19)
    assert (answer["clears_cost"], answer["lines_logged"]) == (False, 1)
    assert answer["price_to_clear_cost"] == Decimal("101.25")  # (20 + 61) × 1.25


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
    """250 minutes at 20 an hour are 83.3333, with 25 % tax 104.1667."""
    salon = settings(costs=COSTS, salon={"currency": currency})
    assert row(cut("03-03", 250), salon=salon)["price_to_clear_cost"] == Decimal(price)


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
