"""Deposits: what was paid before a visit, and what became of it."""

from decimal import Decimal
from typing import Any

import pytest
from frames import bookings, days, only, payments, services, settings, visit, work_out

MENU = services({"service_id": "CUT", "tax_rate": "21"}, {"service_id": "LOW", "tax_rate": "9"})
BOTH = days("2026-09-01", "2026-11-01")
OTHER = {"paid_at": "2026-09-01", "booking_id": "V0", "amount": "0"}
AHEAD = {"paid_at": "2026-09-20", "booking_id": "V1", "amount": "60.50"}
REST = {"paid_at": "2026-10-03", "booking_id": "V1", "amount": "60.50"}


def answer(
    name: str, *paid: dict[str, Any], status: str = "completed", salon: dict[str, Any] | None = None, **more: Any
) -> Any:
    """A visit of 121.00 at 21 % on 3 October, in September and October."""
    book = more.pop("book", bookings(visit("V1", "2026-10-03 09:00", 60, ("CUT", "121"), status=status)))
    given = {"bookings": book, "services": MENU, "payments": payments(OTHER, *paid), "period": BOTH, "cover": BOTH}
    return work_out(name, **given, salon=settings(**(salon or {})), **more)


def of_months(frame: Any, *columns: str) -> dict[str, tuple[Any, ...]]:
    return {row["month"]: tuple(row[column] for column in columns) for row in frame.to_dicts()}


@pytest.mark.parametrize(
    ("chosen", "september", "october"),
    [
        ({}, ("60.50", "10.50"), ("60.50", "10.50")),
        ({"accounting": {"deposits": "on_receipt"}}, ("60.50", "10.50"), ("60.50", "10.50")),
        ({"accounting": {"deposits": "on_service"}}, None, ("121", "21")),
    ],
)
def test_taxed_when_received_or_with_the_visit(chosen: dict[str, Any], september: Any, october: Any) -> None:
    """Directive 2006/112/EC art. 65 and C-549/11: of 60.50 received in September for a visit at 21 % that is known,
    10.50 is chargeable then; with the visit 21.00 − 10.50 is left."""
    found = of_months(answer("tax", AHEAD, REST, salon=chosen), "gross", "tax")
    wanted = {"2026-09": september, "2026-10": october}
    assert found == {month: tuple(map(Decimal, said)) for month, said in wanted.items() if said}


def test_where_tax_is_added_it_falls_due_with_the_visit_unless_the_settings_say_otherwise() -> None:
    """121.00 is 146.41 with tax. On receipt, the tax is in what was paid: 60.50 holds 10.50."""
    paid = (AHEAD, REST | {"amount": "85.91"})
    added = {"tax": {"prices": "added"}}
    assert of_months(answer("tax", *paid, salon=added), "tax") == {"2026-10": (Decimal("25.41"),)}
    told = added | {"accounting": {"deposits": "on_receipt"}}
    assert of_months(answer("tax", *paid, salon=told), "tax") == {
        "2026-09": (Decimal("10.50"),),
        "2026-10": (Decimal("14.91"),),
    }
    assert answer("differences", *paid, salon=told).is_empty()


def test_owed_until_the_visit_and_released_with_it() -> None:
    found = of_months(
        answer("vouchers", AHEAD, REST),
        "opening",
        "deposits_received",
        "deposits_used",
        "owed",
        "tax_in_owed",
        "deposits_liability",
    )
    assert found == {
        "2026-09": (0, Decimal("60.50"), 0, Decimal("60.50"), Decimal("10.50"), 50),
        "2026-10": (Decimal("60.50"), 0, Decimal("60.50"), 0, 0, 0),
    }
    sums = of_months(
        answer("reconciliation", AHEAD, REST), "deposits_received", "deposits_used", "received", "difference"
    )
    assert sums == {
        "2026-09": (Decimal("60.50"), 0, Decimal("60.50"), 0),
        "2026-10": (0, Decimal("60.50"), Decimal("60.50"), 0),
    }
    assert of_months(answer("revenue", AHEAD, REST), "gross") == {"2026-10": (121,)}


@pytest.mark.parametrize(
    ("missed", "kept", "october_tax", "owed", "revenue"),
    [
        ("returned", "outside", None, "60.50", {}),
        ("kept", "outside", "-10.50", "0", {"outside the tax": ("60.50", "60.50")}),
        ("kept", "inside", "0", "0", {"taxed": ("60.50", "50")}),
    ],
)
def test_after_a_no_show_it_is_owed_or_kept(
    missed: str, kept: str, october_tax: str | None, owed: str, revenue: dict[str, Any]
) -> None:
    """Kept as compensation the tax goes back (C-277/05), kept as a price it stays (C-295/17); both from memory."""
    salon = {"accounting": {"missed_deposits": missed, "kept_deposits": kept}}
    tax = of_months(answer("tax", AHEAD, status="no_show", salon=salon), "tax")
    assert tax["2026-09"] == (Decimal("10.50"),)
    assert tax.get("2026-10") == (None if october_tax is None else (Decimal(october_tax),))
    row = only(answer("deposits", AHEAD, status="no_show", salon=salon))
    assert (row["state"], row["received"], row["kept"] + row["owed"], row["owed"]) == (
        "no_show",
        Decimal("60.50"),
        Decimal("60.50"),
        Decimal(owed),
    )
    earned = answer("revenue", AHEAD, status="no_show", salon=salon).to_dicts()
    assert {one["treatment"]: (one["gross"], one["net"]) for one in earned} == {
        how: tuple(map(Decimal, amounts)) for how, amounts in revenue.items()
    }
    assert answer("differences", AHEAD, status="no_show", salon=salon).is_empty()


@pytest.mark.parametrize("missed", ["returned", "kept"])
def test_what_is_paid_back_after_a_no_show_is_neither_owed_nor_kept(missed: str) -> None:
    back = {"paid_at": "2026-10-05", "booking_id": "V1", "amount": "-60.50"}
    salon = {"accounting": {"missed_deposits": missed}}
    row = only(answer("deposits", AHEAD, back, status="no_show", salon=salon))
    assert (row["returned"], row["kept"], row["owed"], row["liability"]) == (Decimal("60.50"), 0, 0, 0)
    assert of_months(answer("tax", AHEAD, back, status="no_show", salon=salon), "tax")["2026-10"] == (
        Decimal("-10.50"),
    )


def test_paid_back_before_the_visit_and_never_more_than_was_paid() -> None:
    back = {"paid_at": "2026-09-25", "booking_id": "V1", "amount": "-100"}
    row = only(answer("deposits", AHEAD, back, status="cancelled"))
    assert (row["received"], row["returned"], row["owed"]) == (Decimal("60.50"), Decimal("60.50"), 0)
    (left,) = answer("differences", AHEAD, back, status="cancelled").to_dicts()
    assert left["difference"] == Decimal("-39.50")


def test_more_than_the_visit_was_due_is_still_owed() -> None:
    row = only(answer("deposits", AHEAD | {"amount": "150"}))
    assert (row["used"], row["owed"]) == (121, 29)
    assert answer("differences", AHEAD | {"amount": "150"}).is_empty()


def test_a_visit_of_two_rates_splits_its_deposit() -> None:
    """109 at 9 % and 121 at 21 %: of 23.00 paid before, 10.90 and 12.10, with 0.90 and 2.10 of tax in them."""
    book = bookings(visit("V1", "2026-10-03 09:00", 60, ("LOW", "109"), ("CUT", "121"), status="booked"))
    frame = answer("tax", AHEAD | {"amount": "23"}, book=book)
    assert frame.select("tax_rate", "gross", "tax").rows() == [
        (9, Decimal("10.90"), Decimal("0.90")),
        (21, Decimal("12.10"), Decimal("2.10")),
    ]


def test_what_the_export_calls_a_deposit_is_one_on_the_day_and_without_a_visit() -> None:
    """On the visit's own day it is used at once. Without a visit it has no rate yet: it is owed and not taxed, since
    what it is for must be known (C-419/02, from memory)."""
    same_day = answer("deposits", REST | {"purpose": "deposit"}, REST)
    assert only(same_day)["used"] == Decimal("60.50")
    alone = {"paid_at": "2026-09-20", "amount": "30", "purpose": "deposit"}
    row = only(answer("deposits", alone, REST | {"amount": "121"}))
    assert (row["booking_id"], row["owed"], row["tax_in_owed"]) == (None, 30, 0)
    sums = of_months(
        answer("reconciliation", alone, REST | {"amount": "121"}), "vouchers_sold", "deposits_received", "difference"
    )
    assert sums["2026-09"] == (0, 30, 0)


def test_part_of_the_price_paid_twice_before_the_visit() -> None:
    """20.01 and 20.01 at 21 %: 3.47 and, of 40.02, 6.95: the cent that two roundings would lose is in the second."""
    paid = [AHEAD | {"amount": "20.01"}, AHEAD | {"paid_at": "2026-09-21", "amount": "20.01"}]
    assert of_months(answer("tax", *paid, status="booked"), "tax") == {"2026-09": (Decimal("6.95"),)}
