"""What each visit was due and paid, and why a day does not agree."""

from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from frames import Row, bookings, payments, sales, services, settings, visit

from analytics.definitions.tables import TABLES
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.unsettled import CAUSES

MENU = services({"service_id": "CUT", "tax_rate": "21"})
V1 = visit("V1", "2026-03-03 09:00", 60, ("CUT", "60"))
OTHER = {"paid_at": "2026-03-01 10:00", "booking_id": "V0", "amount": "0"}  # so that payments are known to name visits


def found(visits: list[list[Row]], paid: list[Row], sold: list[Row] | None = None) -> list[Row]:
    tables = {"bookings": bookings(*visits), "payments": payments(*paid), "sales": sales(*(sold or []))}
    keep = ["due", "paid", "difference", "cause", "left", "visit_on", "booking_id"]
    return money_rows(tables).differences.select(keep).to_dicts()


def money_rows(tables: dict[str, pl.DataFrame]) -> MoneyRows:
    empty = {name: table.empty() for name, table in TABLES.items()}
    return MoneyRows({**empty, "services": MENU, **tables}, settings())


def pay(amount: str, at: str = "2026-03-03 10:00", visit_id: str | None = "V1", **rest: Any) -> Row:
    return {"paid_at": at, "booking_id": visit_id, "amount": amount, **rest}


@pytest.mark.parametrize(
    ("paid", "cause", "differences", "left"),
    [
        ([], "not_paid", ["-60"], "-60"),
        ([pay("60"), pay("60", "2026-03-03 10:01")], "paid_twice", ["60"], "60"),
        ([pay("60"), pay("60", "2026-03-05 10:01")], "paid_twice", ["60"], "60"),
        ([pay("59.40")], "other_amount", ["-0.60"], "-0.60"),
        ([pay("30"), pay("29")], "other_amount", ["-1"], "-1"),
        ([pay("60", "2026-03-05 10:00")], "other_day", ["-60", "60"], "0"),
        ([pay("60"), pay("10", visit_id="V77")], "unknown_visit", ["10"], "10"),
    ],
)
def test_each_difference_has_its_cause(paid: list[Row], cause: str, differences: list[str], left: str) -> None:
    rows = found([V1], [OTHER, *paid])
    assert {row["cause"] for row in rows} == {cause}
    assert [row["difference"] for row in rows] == [Decimal(text) for text in differences]
    assert {row["left"] for row in rows} == {Decimal(left)}
    assert cause in CAUSES


def test_money_for_a_visit_that_was_not_completed() -> None:
    missed = visit("V1", "2026-03-03 09:00", 60, ("CUT", "60"), status="no_show")
    (row,) = found([missed], [pay("20")])
    assert (row["cause"], row["difference"], str(row["visit_on"])) == ("not_completed", 20, "2026-03-03")


@pytest.mark.parametrize("status", ["booked", "completed", "no_show", "cancelled"])
def test_a_deposit_is_no_difference_whatever_became_of_its_visit(status: str) -> None:
    """20 before the visit, and where it happened the rest on its day."""
    ahead = visit("V1", "2026-03-03 09:00", 60, ("CUT", "60"), status=status)
    rest = [pay("40")] if status == "completed" else []
    assert found([ahead], [pay("20", "2026-03-01 10:00"), *rest]) == []


def test_a_deposit_beside_the_whole_price_is_paid_too_much() -> None:
    (row,) = found([V1], [pay("20", "2026-03-01 10:00"), pay("60")])
    assert (row["cause"], row["due"], row["paid"], row["left"]) == ("other_amount", 40, 60, 20)


def test_an_item_over_the_counter_that_was_not_paid() -> None:
    sold = [{"sold_at": "2026-03-03", "product_id": "SHAM", "price": "20"}]
    (row,) = found([V1], [pay("60")], sold)
    assert (row["cause"], row["booking_id"], row["difference"]) == ("counter", None, -20)


def test_an_item_given_back_and_not_paid_back_is_no_voucher_sold() -> None:
    """5.00 of an item came back unpaid: a difference. Paid back beside a voucher of 10 sold, only that is sold."""
    back = [{"sold_at": "2026-03-03", "product_id": "SHAM", "price": "-5"}]
    (row,) = found([V1], [pay("60")], back)
    assert (row["cause"], row["difference"]) == ("counter", 5)
    assert found([V1], [pay("60"), pay("10", visit_id=None), pay("-5", visit_id=None)], back) == []


def test_without_visits_in_payments_the_day_is_compared_as_a_whole() -> None:
    (row,) = found([V1], [pay("59", visit_id=None)])
    assert (row["cause"], row["difference"], row["left"]) == ("whole_day", -1, -1)


def test_what_agrees_is_no_difference() -> None:
    tip = visit("V1", "2026-03-03 09:00", 60, ("CUT", "60"), tip="5")
    sold = [{"sold_at": "2026-03-03", "product_id": "SHAM", "price": "20", "booking_id": "V1"}]
    assert found([tip], [pay("45"), pay("40", method="voucher")], sold) == []


def test_each_site_is_settled_for_itself() -> None:
    """A voucher sold in one salon does not pay for the item that another one did not cash."""
    sold = sales({"sold_at": "2026-03-03", "product_id": "SHAM", "price": "20", "site": "North"})
    named = [pay("0", site=site) for site in ("North", "South")]
    paid = payments(*named, pay("50", visit_id=None, site="South"))
    rows = money_rows({"sales": sold, "payments": paid}).settlements.filter(pl.col("booking_id").is_null())
    assert rows.select("site", "vouchers_sold", "difference").rows() == [("North", 0, -20), ("South", 50, 0)]
