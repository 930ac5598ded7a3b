"""What was charged and the tax in it, by month and rate."""

from decimal import Decimal

import polars as pl
import pytest
from frames import (
    agrees,
    bookings,
    days,
    only,
    payments,
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
from hypothesis import settings as effort
from hypothesis import strategies as st

MENU = services(
    {"service_id": "ROOTS", "tax_rate": "20"},
    {"service_id": "CUT", "tax_rate": "9"},
    {"service_id": "ODD", "tax_rate": "17.5"},
)
EACH = ["gross", "net", "tax"]


def sums(frame: pl.DataFrame) -> list[str]:
    row = only(frame)
    return [f"{row[name].normalize():f}" for name in EACH]


def taxed(*visits: list[dict], **regime: str) -> pl.DataFrame:
    currency = regime.pop("currency", "EUR")
    salon = settings(salon={"currency": currency}, tax=regime)
    return work_out("tax", bookings=bookings(*visits), services=MENU, salon=salon)


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("tax", period=days("2026-02-01", "2026-04-01"), **small_salon()), "tax")


def test_tax_included_and_tax_added() -> None:
    work = visit("V1", "2026-03-03 09:00", 60, ("ROOTS", "120"))
    assert sums(taxed(work, prices="included")) == ["120", "100", "20"]
    assert sums(taxed(work, prices="added")) == ["144", "120", "24"]


def test_tips_are_inside_the_tax_only_where_the_settings_say() -> None:
    work = visit("V1", "2026-03-03 09:00", 60, ("ROOTS", "120"), tip="12")
    for tips, expected in (("outside", ["120", "100", "20"]), ("inside", ["132", "110", "22"])):
        salon = settings(accounting={"tips": tips})
        assert sums(work_out("tax", bookings=bookings(work), services=MENU, salon=salon)) == expected


def test_single_purpose_vouchers_are_taxed_when_they_are_sold() -> None:
    """60 of a voucher of 240 used for work of 120, all at 20 %: 240 − 60 + 120 = 300, 50 of it tax."""
    paid = payments(
        {"paid_at": "2026-03-02", "amount": "240"},
        {"paid_at": "2026-03-03", "booking_id": "V1", "amount": "60", "method": "voucher"},
        {"paid_at": "2026-03-03", "booking_id": "V1", "amount": "60"},
    )
    work = bookings(visit("V1", "2026-03-03 09:00", 60, ("ROOTS", "120")))
    given = {"bookings": work, "services": MENU, "payments": paid}
    single = settings(accounting={"vouchers": "single_purpose", "voucher_tax_rate": 20})
    assert sums(work_out("tax", **given, salon=single)) == ["300", "250", "50"]
    assert sums(work_out("tax", **given)) == ["120", "100", "20"]
    assert rows_of("tax", **given, salon=single)["supply"].to_list().count("vouchers_used") == 1


def test_rounding_by_visit_and_by_line() -> None:
    """Three lines of 0.10 at 20 % added: 0.02 each; three of 0.12: 0.024 each, 0.072 together."""
    work = visit("V1", "2026-03-03 09:00", 60, ("ROOTS", "0.12"), ("ROOTS", "0.12"), ("ROOTS", "0.12"))
    assert sums(taxed(work, prices="added", round_per="line")) == ["0.42", "0.36", "0.06"]
    assert sums(taxed(work, prices="added", round_per="booking")) == ["0.43", "0.36", "0.07"]


def test_visits_are_rounded_apart() -> None:
    work = [visit(f"V{n}", "2026-03-03 09:00", 60, ("ROOTS", "0.12")) for n in range(3)]
    assert sums(taxed(*work, prices="added", round_per="booking")) == ["0.42", "0.36", "0.06"]


def test_the_rates_of_a_visit_are_rounded_apart() -> None:
    work = visit("V1", "2026-03-03 09:00", 60, ("ROOTS", "120"), ("CUT", "109"))
    assert taxed(work).select("tax_rate", "tax").rows() == [(Decimal(9), Decimal(9)), (Decimal(20), Decimal(20))]


def test_the_roundings_of_two_rates_do_not_mix() -> None:
    """0.12 at 20 % added is 0.024, 0.05 at 9 % is 0.0045: 0.02 and nothing; both together would have been 0.03."""
    work = visit("V1", "2026-03-03 09:00", 60, ("ROOTS", "0.12"), ("CUT", "0.05"))
    assert [f"{tax:.2f}" for tax in taxed(work, prices="added").sort("tax_rate")["tax"]] == ["0.00", "0.02"]


def test_a_refund_mirrors_its_sale_to_the_cent() -> None:
    """0.15 at 20 % included holds 0.025: half a cent, up for the sale and down for the refund."""
    sale = visit("V1", "2026-03-03 09:00", 60, ("ROOTS", "0.15"))
    refund = visit("V2", "2026-03-04 09:00", 0, ("ROOTS", "-0.15"))
    assert sums(taxed(sale)) == ["0.15", "0.12", "0.03"]
    assert sums(taxed(refund)) == ["-0.15", "-0.12", "-0.03"]
    assert sums(taxed(sale, refund)) == ["0", "0", "0"]


@pytest.mark.parametrize(
    ("currency", "tax"), [("JPY", "149"), ("EUR", "148.94"), ("KWD", "148.936")]
)  # 1000 × 17.5 ÷ 117.5 = 148.93617
def test_tax_is_rounded_to_the_currency(currency: str, tax: str) -> None:
    work = visit("V1", "2026-03-03 09:00", 60, ("ODD", "1000"))
    assert sums(taxed(work, currency=currency))[2] == tax


def test_each_day_has_the_rate_of_its_menu() -> None:
    menu = services(
        {"service_id": "CUT", "tax_rate": "21"},
        {"service_id": "CUT", "tax_rate": "9", "valid_from": "2026-03-16"},
    )
    book = bookings(
        visit("V1", "2026-03-15 09:00", 60, ("CUT", "121")), visit("V2", "2026-03-16 09:00", 60, ("CUT", "109"))
    )
    assert work_out("tax", bookings=book, services=menu)["net"].to_list() == [100, 100]


def test_only_completed_lines_less_their_discount_and_without_tips_are_charged() -> None:
    rows = [
        visit(status, "2026-03-03 09:00", 60, ("ROOTS", "150"), status=status, discount="30", tip="7")
        for status in ("completed", "booked", "cancelled", "no_show")
    ]
    assert sums(taxed(*rows)) == ["120", "100", "20"]


def test_retail_takes_its_own_rate_else_the_products_else_the_default() -> None:
    listed = products({"product_id": "SHAM", "tax_rate": "9"}, {"product_id": "MASK"})
    sold = sales(
        {"sold_at": "2026-03-03", "product_id": "SHAM", "price": "1.06", "tax_rate": "6"},
        {"sold_at": "2026-03-03", "product_id": "SHAM", "price": "1.09"},
        {"sold_at": "2026-03-03", "product_id": "MASK", "price": "1.21"},
    )
    frame = work_out("tax", sales=sold, products=listed)
    assert [f"{rate:.0f}" for rate in frame["tax_rate"]] == ["6", "9", "21"]
    assert frame["net"].to_list() == [1, 1, 1]


def test_retail_is_charged_by_quantity_less_its_discount() -> None:
    sold = sales({"sold_at": "2026-03-03", "product_id": "SHAM", "quantity": "3", "price": "50", "discount": "29"})
    assert sums(work_out("tax", sales=sold)) == ["121", "100", "21"]


def test_a_visit_on_the_last_evening_of_the_month_is_that_months() -> None:
    late = bookings(visit("V1", "2026-02-28 23:30", None, ("ROOTS", "120"), ends_at="2026-03-01 00:30"))
    frame = work_out("tax", bookings=late, services=MENU, period=days("2026-02-01", "2026-04-01"))
    assert frame["month"].to_list() == ["2026-02"]


def test_a_menu_of_another_salon_of_the_group_does_not_tax_this_one() -> None:
    menu = services(
        {"service_id": "CUT", "tax_rate": "21", "site": "North"},
        {"service_id": "CUT", "tax_rate": "9", "site": "South"},
    )
    book = bookings(
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "121"), site="North"),
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "109"), site="South"),
    )
    assert work_out("tax", bookings=book, services=menu)["net"].to_list() == [100, 100]


line = st.tuples(st.integers(0, 3), st.sampled_from(["ROOTS", "CUT", "ODD"]), st.integers(-9_999, 99_999))


@effort(max_examples=10, deadline=None)
@given(
    st.lists(line, min_size=1, max_size=12),
    st.sampled_from([("EUR", 2), ("JPY", 0), ("KWD", 3)]),
    st.sampled_from(["included", "added"]),
    st.sampled_from(["booking", "line"]),
)
def test_every_level_adds_up_to_the_last_digit(
    lines: list, currency: tuple[str, int], prices: str, round_per: str
) -> None:
    """Net and tax make the gross of each line and each rate, in whole minor units, within one unit of the exact tax."""
    code, digits = currency
    visits: dict[int, list] = {}
    for number, service, units in lines:
        visits.setdefault(number, []).append((service, str(Decimal(units).scaleb(-digits))))
    book = bookings(*[visit(f"V{n}", "2026-03-03 09:00", 60, *parts) for n, parts in visits.items()])
    salon = settings(salon={"currency": code}, tax={"prices": prices, "round_per": round_per})
    given = {"bookings": book, "services": MENU, "salon": salon}
    rows, frame = rows_of("tax", **given), work_out("tax", **given)
    for level in (rows, frame):
        assert (level["net"] + level["tax"]).to_list() == level["gross"].to_list()
        assert all(amount == round(amount, digits) for name in EACH for amount in level[name])
    assert [rows[name].sum() for name in EACH] == [frame[name].sum() for name in EACH]
    charged = book["price"].sum()
    assert frame["gross" if prices == "included" else "net"].sum() == charged
    for row in rows.iter_rows(named=True):
        top, base = (row["gross"], 100 + row["tax_rate"]) if prices == "included" else (row["net"], Decimal(100))
        assert abs(row["tax"] - top * row["tax_rate"] / base) < Decimal(1).scaleb(-digits)
