"""Double entry: a day worked by hand, balance whatever the salon, a ledger that another program reads."""

from collections import defaultdict
from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from beancount import loader
from beancount.core import data as entry_types
from frames import bookings, payments, services, settings, small_salon, visit
from handover.desk import csv_rows, csv_total, handover_of, salon_of, total

from analytics.handover.accountant.journal import entries, item_words
from analytics.handover.accountant.ledger import account_names, quoted
from analytics.handover.accountant.package import Handover
from analytics.settings import Accounts


def small(**more: Any) -> Handover:
    salon = small_salon()
    chosen = salon.pop("salon").model_copy(update=more)
    return handover_of(salon_of(chosen, **salon))


def test_a_day_worked_by_hand() -> None:
    """3 March of expected/: V2 by card, V3 in cash, V4 with a voucher, a shampoo over the counter."""
    rows = [row for row in csv_rows(small(), "journal.csv") if row["transaction_id"] == "2026-03-03 day"]
    assert {(row["item"], row["debit"], row["credit"]) for row in rows} == {
        ("Received, card", "145.30", ""),
        ("Received, cash", "52.10", ""),
        ("Vouchers used beyond those owed", "40.00", ""),
        ("Fees", "1.45", ""),
        ("Fees taken off, card", "", "1.45"),
        ("Services at 21 %", "", "120.08"),
        ("Services at 9 %", "", "73.40"),
        ("Retail at 21 %", "", "10.00"),
        ("Tax at 21 %", "", "27.32"),
        ("Tax at 9 %", "", "6.60"),
    }


def test_what_does_not_tie_goes_to_the_open_items_and_a_refund_the_other_way() -> None:
    rows = {(row["day"], row["item"]): (row["debit"], row["credit"]) for row in csv_rows(small(), "journal.csv")}
    assert rows["2026-03-17", "Difference to clear"] == ("0.40", "")
    assert rows["2026-03-20", "Received, card"] == ("", "10.00")
    assert rows["2026-03-20", "Services at 21 %"] == ("8.26", "")
    assert rows["2026-03-10", "Vouchers sold"] == ("", "50.00")


def test_one_entry_per_day_and_site() -> None:
    book = bookings(
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "60"), site="North"),
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "40"), site="South"),
        visit("V2", "2026-03-04 09:00", 60, ("CUT", "40"), site="South"),
    )
    made = handover_of(salon_of(bookings=book, services=services({"service_id": "CUT"})))
    rows = csv_rows(made, "journal.csv")
    assert [(row["day"], row["site"]) for row in rows if row["item"] == "Services at 21 %"] == [
        ("2026-03-03", "North"),
        ("2026-03-03", "South"),
        ("2026-03-04", "South"),
    ]
    assert len({row["entry"] for row in rows}) == 3


def test_accounts_are_called_as_the_settings_say() -> None:
    rows = csv_rows(small(accounts=Accounts(cash="1000", services="8000 Revenue")), "journal.csv")
    assert {"1000", "8000 Revenue", "Card payments"} <= {row["account"] for row in rows}


def test_an_entry_that_does_not_balance_is_never_written() -> None:
    """A cent that is put in on one side only."""
    made = small()
    crooked = made.gathered.money.paid.with_columns(amount=pl.col("amount") + Decimal("0.01"))
    vars(made.gathered.money)["paid"] = crooked
    with pytest.raises(AssertionError, match="does not balance"):
        made.gathered.figure("journal", made.period)


def balances(text: str) -> tuple[dict[str, Decimal], list[Any], list[Any]]:
    """What each account comes to by the other program, its transactions, and what it complained of."""
    read, errors, _ = loader.load_string(text)
    sums: dict[str, Decimal] = defaultdict(Decimal)
    transactions = [entry for entry in read if isinstance(entry, entry_types.Transaction)]
    for entry in transactions:
        for posting in entry.postings:
            sums[posting.account] += posting.units.number
    return sums, transactions, errors


def test_another_program_reads_the_ledger_and_it_balances() -> None:
    made = small()
    sums, transactions, errors = balances(made.texts["journal.beancount"])
    assert errors == []
    assert sum(sums.values()) == 0
    assert len(transactions) == 8  # five days, two deliveries, the stock of the month
    assert -sums["Liabilities:Tax-owed"] == total(made, "tax", "tax") == Decimal("46.69")
    assert -sums["Income:Services"] - sums["Income:Retail"] == total(made, "revenue", "net")
    assert sums["Liabilities:Vouchers-owed"] == -50  # sold on 10 March; the 40 used on the 3rd are no part of them
    assert sums["Assets:Unreconciled-differences"] == Decimal("40.40")


def test_the_ledger_of_currencies_without_and_with_three_decimals() -> None:
    for currency, price, tax in (("JPY", "1100", "100"), ("KWD", "1.100", "0.100")):
        salon = salon_of(
            settings(salon={"currency": currency}),
            bookings=bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", price))),
            services=services({"service_id": "CUT", "tax_rate": "10"}),
            payments=payments({"paid_at": "2026-03-03", "booking_id": "V1", "amount": price}),
        )
        text = handover_of(salon).texts["journal.beancount"]
        sums, _, errors = balances(text)
        assert errors == []
        assert (-sums["Liabilities:Tax-owed"], sums["Assets:Card-payments"]) == (Decimal(tax), Decimal(price))
        assert f"  Assets:Card-payments  {price} {currency}\n" in text


def test_an_empty_period_is_an_empty_ledger() -> None:
    made = handover_of(salon_of())
    assert balances(made.texts["journal.beancount"]) == ({}, [], [])
    assert csv_total(made, "journal.csv", "debit") == 0


@pytest.mark.parametrize("called", ['Cash "box"\n2026-01-01 open', "=SUM(A1)", "現金", "*", "  8000  ", "x" * 80])
def test_any_name_makes_an_account(called: str) -> None:
    """Names that would be syntax in the ledger; the salon and a site are called so too."""
    book = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "60"), site=called))
    chosen = settings(salon={"name": called}, accounts={"open_items": called, "services": called})
    made = handover_of(salon_of(chosen, bookings=book, services=services({"service_id": "CUT"})))
    sums, transactions, errors = balances(made.texts["journal.beancount"])
    assert errors == []
    assert (sum(sums.values()), len(transactions)) == (0, 1)
    assert transactions[0].payee == " ".join(called.split())


def test_accounts_called_alike_are_one_and_those_that_only_look_alike_are_two() -> None:
    names = account_names(Accounts(cash="Till", card="Till", bank="Bank 1", other="Bank-1"))
    assert names["cash"] == names["card"] == "Assets:Till"
    assert (names["bank"], names["other"]) == ("Assets:Bank-1", "Assets:Bank-1-2")


def test_quotation_marks_and_backslashes_are_escaped() -> None:
    assert quoted('a "b" \\ c\nd') == '"a \\"b\\" \\\\ c d"'


def test_items_in_words() -> None:
    assert item_words("revenue:tips:5.5") == "Service charges at 5.5 %"
    assert item_words("taken:bank") == "Received, bank transfer"


def test_entries_keep_the_postings() -> None:
    made = small()
    shown = entries(made.postings, made.corrections, made.period.start, made.salon.settings.accounts)
    signed = (pl.col("debit").fill_null(0) - pl.col("credit").fill_null(0)).sum()
    assert shown.group_by("entry").agg(left=signed)["left"].to_list() == [0] * 8
