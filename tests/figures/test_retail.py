"""What is sold over the counter, what it leaves, and in how many visits."""

from decimal import Decimal

import polars as pl
import pytest
from frames import (
    agrees,
    bookings,
    days,
    only,
    products,
    rows_of,
    sales,
    services,
    settings,
    small_salon,
    visit,
    work_out,
)
from hypothesis import given
from hypothesis import settings as tried
from hypothesis import strategies as st

MENU = services({"service_id": "CUT", "kind": "cut"}, {"service_id": "ROOTS", "kind": "root_touch_up"})
SHAM = products(
    {"product_id": "SHAM", "kind": "retail", "pack_g": "250", "pack_cost": "5"},
    {"product_id": "SHAM", "kind": "retail", "pack_g": "250", "pack_cost": "6", "valid_from": "2026-03-16"},
)


def sale(sold_at: str, price: str = "12.10", quantity: str = "1", **rest: str) -> dict:
    return {"sold_at": sold_at, "product_id": "SHAM", "price": price, "quantity": quantity} | rest


def retail(*sold: dict, **given: object) -> pl.DataFrame:
    return work_out("retail", **{"products": SHAM, "services": MENU, "sales": sales(*sold)} | given)


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("retail", period=days("2026-02-01", "2026-04-01"), **small_salon()), "retail")


def test_a_piece_costs_what_its_pack_cost_that_day() -> None:
    row = only(retail(sale("2026-03-15 18:00", quantity="2"), sale("2026-03-16 09:00")))
    assert (row["units"], row["net"], row["cost"], row["margin"]) == (3, 30, 16, 14)
    assert row["margin_share"] == pytest.approx(14 / 30)


@pytest.mark.parametrize(("price", "quantity"), [("12.10", "-1"), ("-12.10", "1")])
def test_a_refund_takes_back_piece_money_and_cost(price: str, quantity: str) -> None:
    row = only(retail(sale("2026-03-03", quantity="2"), sale("2026-03-04", price, quantity)))
    assert (row["units"], row["net"], row["cost"]) == (1, 10, 5)


def test_all_brought_back_leaves_nothing_to_divide_by() -> None:
    row = only(retail(sale("2026-03-03"), sale("2026-03-04", quantity="-1")))
    assert (row["units"], row["net"], row["margin"], row["margin_share"]) == (0, 0, 0, None)


def test_a_product_that_is_not_listed_has_no_margin() -> None:
    row = only(retail(sale("2026-03-03", product_id="BRUSH", product="Brush")))
    assert (row["product"], row["net"], row["cost"], row["margin"], row["margin_share"]) == (
        "Brush", 10, None, None, None
    )  # fmt: skip


def test_visits_with_a_sale_are_those_a_sale_names_by_number_or_by_client_and_day() -> None:
    """V1 by number, twice; V2 by client and day; V3 brought it back; Dana was not in for a visit when she bought."""
    seen = [
        visit(f"V{number}", f"2026-03-0{number} 10:00", 30, ("CUT", "40"), client_id=client)
        for number, client in enumerate(("Ada", "Bo", "Cleo", "Dana"), start=1)
    ]
    frame = retail(
        sale("2026-03-01 10:30", booking_id="V1"),
        sale("2026-03-01 10:31", booking_id="V1"),
        sale("2026-03-02 10:31", client_id="Bo"),
        sale("2026-03-03 10:31", booking_id="V3"),
        sale("2026-03-03 10:35", booking_id="V3", quantity="-1"),
        sale("2026-03-05 10:35", client_id="Dana"),
        bookings=bookings(*seen),
    )
    row = only(frame)
    assert (row["units"], row["visits"], row["visits_with_sale"]) == (4, 4, 2)


def test_prices_without_tax_and_the_currency_of_the_salon() -> None:
    salon = settings(salon={"currency": "JPY"}, tax={"prices": "added"})
    row = only(retail(sale("2026-03-03", price="1210", quantity="2"), salon=salon))
    assert (row["net"], row["gross"], row["cost"]) == (2420, 2928, 10)  # 2420 × 21 % = 508.2


def test_half_a_piece_of_a_cent_is_rounded_once() -> None:
    cheap = products({"product_id": "SHAM", "kind": "retail", "pack_cost": "0.005"})
    assert only(retail(*[sale("2026-03-03")] * 3, products=cheap))["cost"] == Decimal("0.02")  # 0.015


def test_a_month_without_a_sale_has_no_row() -> None:
    assert retail(sale("2026-04-01 00:00")).is_empty()


SOLD = st.builds(
    sale,
    st.builds("2026-03-{:02} 10:00".format, st.integers(1, 31)),
    st.decimals("-50", "50", places=2).map(str),
    st.integers(-2, 5).map(str),
    product_id=st.sampled_from(("SHAM", "OIL")),
)


@tried(max_examples=15, deadline=None)
@given(st.lists(SOLD, max_size=12))
def test_the_rows_add_up_to_the_figure(sold: list[dict]) -> None:
    frame = retail(*sold)
    rows = rows_of("retail", products=SHAM, sales=sales(*sold))
    for name in ("units", "gross", "net"):
        assert frame[name].sum() == rows[name].sum()
    listed = frame.drop_nulls("margin")
    assert (listed["net"] - listed["cost"] == listed["margin"]).all()


def test_all_products_of_a_month_together() -> None:
    """10 + 20 net; of the oil no cost is known, so the margin is the shampoo's: 5 of its 10."""
    frame = retail(sale("2026-03-03"), sale("2026-03-04", "24.20", product_id="OIL"))
    together = ["month_units", "month_net", "month_margin", "month_margin_share", "sale_share"]
    assert frame.select(together).unique().rows() == [(2, 30, 5, 0.5, None)]


def test_the_share_of_visits_with_a_sale() -> None:
    visits = [visit(f"V{n}", f"2026-03-0{n} 09:00", 30, ("CUT", "40"), client_id=f"C{n}") for n in (1, 2, 3, 4)]
    row = only(retail(sale("2026-03-01 09:30", booking_id="V1"), bookings=bookings(*visits)))
    assert (row["visits"], row["sale_share"]) == (4, 0.25)


def test_a_month_in_which_as_much_was_brought_back_has_no_margin_share() -> None:
    row = only(retail(sale("2026-03-03"), sale("2026-03-04", quantity="-1")))
    assert (row["month_net"], row["month_margin"], row["month_margin_share"]) == (0, 0, None)
