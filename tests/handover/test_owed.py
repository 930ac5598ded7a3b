"""Deposits and vouchers in the folder: sheet, CSV, journal, ledger and PDF say one number."""

from decimal import Decimal
from typing import Any

import pytest
from frames import bookings, payments, services, settings, table, visit
from handover.desk import csv_rows, csv_total, handover_of, pdf_words, salon_of, total
from handover.test_postings import balances

from analytics.handover.accountant.package import Handover

MENU = services({"service_id": "CUT", "tax_rate": "21"}, {"service_id": "LOW", "tax_rate": "9"})
BOOK = (
    visit("V1", "2026-10-03 09:00", 60, ("CUT", "121")),
    visit("V2", "2026-10-05 09:00", 60, ("CUT", "60.50"), status="no_show"),
    visit("V3", "2026-09-10 09:00", 60, ("CUT", "60")),
    visit("V4", "2026-10-08 09:00", 60, ("LOW", "20")),
    visit("V5", "2026-10-30 09:00", 60, ("LOW", "0")),
)
PAID = (
    {"paid_at": "2026-09-20", "booking_id": "V1", "amount": "60.50"},
    {"paid_at": "2026-10-03", "booking_id": "V1", "amount": "60.50"},
    {"paid_at": "2026-09-21", "booking_id": "V2", "amount": "30.25"},
    {"paid_at": "2026-09-03", "amount": "80"},
    {"paid_at": "2026-09-10", "booking_id": "V3", "amount": "60", "method": "voucher"},
    {"paid_at": "2026-10-08", "booking_id": "V4", "amount": "20", "method": "voucher"},
)
LISTED = [{"number": "A1", "sold_on": "2026-09-03", "face": "100", "paid": "80", "expires_on": "2026-10-20"}]


def quarter(period: str, **accounting: Any) -> Handover:
    """121.00 in October half paid in September; 30.25 for a visit that was missed; 80 paid for a voucher of 100."""
    tables = {"bookings": bookings(*BOOK), "payments": payments(*PAID), "vouchers": table("vouchers", LISTED)}
    chosen = settings(accounting=accounting)
    return handover_of(salon_of(chosen, services=MENU, as_of="2026-11-01", **tables), period)


def account(made: Handover, name: str) -> Decimal:
    """What an account of the ledger comes to, by the other program."""
    sums, _, errors = balances(made.texts["journal.beancount"])
    assert (errors, sum(sums.values())) == ([], 0)
    return sums.get(name, Decimal(0))


@pytest.mark.parametrize(
    ("deposits", "september", "tax"), [("on_receipt", "75.00", "15.75"), ("on_service", "90.75", "0")]
)
def test_a_deposit_over_the_end_of_a_quarter(deposits: str, september: str, tax: str) -> None:
    """60.50 and 30.25 at 21 %, received on 20 and 21 September: 10.50 and 5.25 of tax, 50.00 and 25.00 owed beside it
    (Directive 2006/112/EC art. 65; a contract liability by IFRS 15.106, from memory). V3's own tax is 8.33."""
    made = quarter("2026-Q3", deposits=deposits)
    assert -account(made, "Liabilities:Deposits-owed") == Decimal(september) == total(made, "deposits", "liability")
    assert csv_total(made, "deposits.csv", "liability") == Decimal(september)
    assert csv_rows(made, "vouchers.csv")[-1]["deposits_liability"] == september
    assert total(made, "tax", "tax") == Decimal(tax) + Decimal("8.33") == -account(made, "Liabilities:Tax-owed")
    assert "Assets:Unreconciled-differences" not in balances(made.texts["journal.beancount"])[0]
    assert made.verdict.difference == 0
    words = pdf_words(made.files["statement.pdf"])
    assert "Deposits owed €90.75" in words and f"Deposits liability €{september}" in words
    after = quarter("2026-Q4", deposits=deposits)
    released = {"on_receipt": "50.00", "on_service": "60.50"}[deposits]
    items = {(row["day"], row["item"]): (row["debit"], row["credit"]) for row in csv_rows(after, "journal.csv")}
    assert items["2026-10-03", "Deposits used"] == (released, "")
    assert items["2026-10-03", "Services at 21 %"] == ("", "100.00")
    both = total(made, "tax", "tax") + total(after, "tax", "tax")
    assert both == Decimal("8.33") + 21 + Decimal("1.32") + (Decimal("5.25") if deposits == "on_receipt" else 0)


@pytest.mark.parametrize(("how", "income", "tax"), [("outside", "30.25", "-5.25"), ("inside", "25.00", "0.00")])
def test_a_deposit_that_is_kept(how: str, income: str, tax: str) -> None:
    """30.25 kept on 5 October: a compensation, its 5.25 of tax taken back (C-277/05), or a price, 25.00 without it
    (C-295/17); both from memory. Nothing is owed any more."""
    made = quarter("2026-Q4", missed_deposits="kept", kept_deposits=how)
    assert -account(made, "Income:Deposits-kept") == Decimal(income)
    day = [row for row in csv_rows(made, "journal.csv") if row["day"] == "2026-10-05"]
    by_account = {row["account"]: Decimal(row["debit"] or 0) - Decimal(row["credit"] or 0) for row in day}
    assert by_account == {
        "Deposits owed": 25, "Deposits kept": -Decimal(income), **({"Tax owed": -Decimal(tax)} if Decimal(tax) else {})
    }  # fmt: skip
    (row,) = (row for row in csv_rows(made, "deposits.csv") if row["booking_id"] == "V2")
    assert (row["state"], row["kept"], row["owed"]) == ("no-show", "30.25", "0.00")
    assert total(made, "deposits", "owed") == 0
    kept = next(row for row in csv_rows(made, "revenue.csv") if row["supply"] == "deposits kept")
    assert (kept["gross"], kept["net"], kept["treatment"] == "taxed") == ("30.25", income, how == "inside")
    assert f"After a no-show they are kept, {how} the tax." in made.texts["cover.csv"]
    assert "Deposits kept €30.25" in pdf_words(made.files["statement.pdf"])


def test_a_voucher_below_face_used_in_two_parts_and_expired() -> None:
    """80 paid for 100. 60 of it buy work of 60 in September: 48 of the 80, at 21 % 8.33 of tax. 20 in October: 16, at
    9 % 1.32. The other 16 expire on the 21st and are earned without tax (Directive 2006/112/EC art. 73a and IFRS 15
    B44 to B47, from memory)."""
    made, after = quarter("2026-Q3"), quarter("2026-Q4")
    assert -account(made, "Liabilities:Vouchers-owed") == 32 == total(made, "voucher_register", "liability")
    assert csv_rows(made, "vouchers.csv")[-1]["vouchers_liability"] == "32.00"
    assert "Vouchers owed €32.00" in pdf_words(made.files["statement.pdf"])
    (stood,) = (row for row in csv_rows(after, "balances.csv") if row["account"] == "Vouchers owed")
    assert (stood["opening"], stood["debit"], stood["credit"], stood["closing"]) == ("-32.00", "32.00", "0.00", "0.00")
    items = {(row["day"], row["item"]): (row["debit"], row["credit"]) for row in csv_rows(made, "journal.csv")}
    assert items["2026-09-10", "Vouchers used"] == ("48.00", "")
    assert items["2026-09-10", "Vouchers below their face at 21 %"] == ("9.92", "")
    assert items["2026-09-10", "Tax at 21 %"] == ("", "8.33")
    assert "Vouchers never used €16.00" in pdf_words(after.files["statement.pdf"])
    assert account(after, "Liabilities:Vouchers-owed") == 32
    assert -account(after, "Income:Vouchers-not-used") == 16
    (row,) = csv_rows(after, "voucher_register.csv")
    assert (row["used_value"], row["unused"], row["owed"], row["left"]) == ("64.00", "16.00", "0.00", "0.00")
    assert total(made, "revenue", "gross") == 48


def test_more_used_than_was_owed_is_a_difference_to_clear_and_no_debt_below_nothing() -> None:
    used = payments({"paid_at": "2026-10-08", "booking_id": "V4", "amount": "20", "method": "voucher"})
    salon = salon_of(bookings=bookings(BOOK[3]), services=MENU, payments=used, as_of="2026-11-01")
    made = handover_of(salon, "2026-Q4")
    assert (account(made, "Liabilities:Vouchers-owed"), account(made, "Assets:Unreconciled-differences")) == (0, 20)
    assert (total(made, "vouchers", "vouchers_beyond"), csv_rows(made, "vouchers.csv")[-1]["owed"]) == (20, "0.00")
