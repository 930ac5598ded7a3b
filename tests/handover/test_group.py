"""A group of salons: every sheet tells them apart, each is balanced for itself, and they add up."""

from decimal import Decimal

import polars as pl
import pytest
from frames import bookings, payments, services, visit
from handover.desk import csv_rows, handover_of, pdf_words, salon_of, sheet, total

from analytics.handover.accountant.package import Handover

MENU = services({"service_id": "CUT", "tax_rate": "21"})


@pytest.fixture(scope="module")
def made() -> Handover:
    """North: 121 paid by card, a voucher of 50 sold. South: 60.50, of it 20 with a voucher and 40 in cash."""
    book = bookings(
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "121"), site="North"),
        visit("V1", "2026-03-03 10:00", 60, ("CUT", "60.50"), site="South", tip="2"),
    )
    paid = [("V1", "121", "card", "North"), (None, "50", "cash", "North"), ("V1", "20", "voucher", "South")]
    paid.append(("V1", "40", "cash", "South"))
    money = payments(
        *(
            {"paid_at": "2026-03-03 11:00", "booking_id": visited, "amount": amount, "method": method, "site": site}
            for visited, amount, method, site in paid
        )
    )
    return handover_of(salon_of(bookings=book, services=MENU, payments=money))


def test_each_site_has_its_own_rows(made: Handover) -> None:
    for name in ("revenue", "tax", "payments_by_method", "reconciliation", "vouchers", "journal"):
        assert set(sheet(made, name)["site"]) == {"North", "South"}, name
    ties = {row["site"]: row["difference"] for row in csv_rows(made, "reconciliation.csv")}
    assert ties == {"North": "0.00", "South": "-2.50"}
    assert [(row["site"], row["booking_id"]) for row in csv_rows(made, "differences.csv")] == [("South", "V1")]


def test_each_entry_balances_and_they_add_up(made: Handover) -> None:
    sides = pl.col("debit", "credit").fill_null(0).sum()
    sums = sheet(made, "journal").group_by("entry", "site").agg(sides)
    assert sums.height == 2 and sums.filter(pl.col("debit") != pl.col("credit")).is_empty()
    assert total(made, "tax", "tax") == Decimal("31.50")
    assert total(made, "vouchers", "vouchers_sold") - total(made, "vouchers", "vouchers_used") == 30


def test_the_statement_adds_the_vouchers_of_all_sites(made: Handover) -> None:
    """North owes 50; South took in 20 that were sold elsewhere, so that 30 are owed in all."""
    owed = {row["site"]: row["owed"] for row in csv_rows(made, "vouchers.csv")}
    assert owed == {"North": "50.00", "South": "-20.00"}
    words = pdf_words(made.files["statement.pdf"])
    assert "Vouchers sold €50.00 Vouchers used €20.00 Vouchers owed €30.00" in words
    assert [(row["site"], row["left"]) for row in csv_rows(made, "voucher_register.csv")] == [("North", "30.00")]
