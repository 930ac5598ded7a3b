"""What was due and what was paid, side by side."""

from decimal import Decimal

import polars as pl
from frames import Row, bookings, days, payments, products, sales, services, small_salon, visit, work_out

MENU = services({"service_id": "CUT", "tax_rate": "21"})
CUT = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "121"), tip="9"))


def sides(*paid: Row, **given: object) -> list[tuple[str, str, Decimal, Decimal]]:
    rows = payments(*({"paid_at": "2026-03-03 10:00"} | row for row in paid))
    return work_out("due_and_paid", bookings=CUT, services=MENU, payments=rows, **given).rows()


def test_worked_by_hand() -> None:
    """A cut of 121 with 9 of tips is paid with 100 by card and 30 in cash; 50 more by card buy a voucher."""
    visit_paid = {"booking_id": "V1", "amount": "100"}, {"booking_id": "V1", "amount": "30", "method": "cash"}
    assert sides(*visit_paid, {"amount": "50"}) == [
        ("due", "charged_gross", 121, 180),
        ("due", "tips", 9, 180),
        ("due", "vouchers_sold", 50, 180),
        ("paid", "card", 150, 180),
        ("paid", "cash", 30, 180),
    ]


def test_a_refund_is_taken_off_and_a_part_that_comes_to_nothing_is_left_out() -> None:
    assert sides({"booking_id": "V1", "amount": "130"}, {"booking_id": "V1", "amount": "-130"})[2:] == [
        ("paid", "card", 0, 0)
    ]


def test_what_is_bought_with_a_voucher_is_paid_with_it() -> None:
    oil = sales({"sold_at": "2026-03-03 10:00", "booking_id": "V1", "product_id": "OIL", "price": "12"})
    found = sides(
        {"booking_id": "V1", "amount": "142", "method": "voucher"}, sales=oil, products=products({"product_id": "OIL"})
    )
    assert found == [
        ("due", "charged_gross", 121, 142),
        ("due", "retail_gross", 12, 142),
        ("due", "tips", 9, 142),
        ("paid", "voucher", 142, 142),
    ]


def test_a_cut_period_holds_its_first_day_and_not_its_last() -> None:
    assert sides({"amount": "1"}, period=days("2026-03-01", "2026-03-03")) == []
    assert len(sides({"amount": "1"}, period=days("2026-03-03", "2026-03-04"))) > 0


def test_paid_less_due_is_the_difference_of_the_reconciliation() -> None:
    """A property of any salon: here of the one worked by hand, over both its months."""
    period = days("2026-02-01", "2026-04-01")
    found = work_out("due_and_paid", period=period, **small_salon())
    due, paid = (found.filter(side=side)["amount"].sum() for side in ("due", "paid"))
    assert paid - due == work_out("reconciliation", period=period, **small_salon())["difference"].sum()
    for side, total in (("due", due), ("paid", paid)):
        assert set(found.filter(pl.col("side") == side)["side_amount"]) == {total}
