"""From a total to the rows of the exports: with nothing but a reader of CSV files, as a spreadsheet has one."""

import csv
import io
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

import polars as pl
import pytest
from frames import bookings, payments, products, sales, services, settings, small_salon, table, visit
from handover.desk import all_text, csv_rows, csv_total, handover_of, salon_of, sheet
from handover.test_random_salons import Drawn, regimes, sold, visits
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st
from salons import load_unchecked, write_salon

from analytics.handover.accountant.package import Handover
from analytics.handover.accountant.period_names import named_period
from analytics.periods import Period
from analytics.salon import open_salon

Lines = list[dict[str, str]]


def small() -> Handover:
    salon = small_salon()
    return handover_of(salon_of(salon.pop("salon"), **salon))


def added(lines: Lines, column: str, **wanted: str) -> Decimal:
    """What a filtered column comes to."""
    rows = [row for row in lines if all(row[name] == value for name, value in wanted.items())]
    return sum((Decimal(row[column] or 0) for row in rows), Decimal(0))


def test_from_every_box_of_the_tax_table_to_its_lines() -> None:
    made = small()
    lines = csv_rows(made, "lines.csv")
    for box in csv_rows(made, "tax.csv"):
        at_this_rate = {"tax_percentage": box["tax_rate"], "treatment": box["treatment"]}
        assert added(lines, "gross_amount", **at_this_rate) == Decimal(box["gross"])
        assert added(lines, "tax_base", **at_this_rate) == Decimal(box["net"])
        assert added(lines, "tax_amount", **at_this_rate) == Decimal(box["tax"])


def test_from_every_line_of_the_journal_to_the_lines_of_its_reference() -> None:
    made = small()
    lines = csv_rows(made, "lines.csv")
    for row in csv_rows(made, "journal.csv"):
        of_it = {"transaction_id": row["transaction_id"], "account_id": row["account"], "item": row["item"]}
        moved = added(lines, "debit_amount", **of_it) - added(lines, "credit_amount", **of_it)
        assert moved == Decimal(row["debit"] or 0) - Decimal(row["credit"] or 0)


def test_from_a_line_to_the_row_of_the_export(tmp_path: Path) -> None:
    """Prices of service lines and amounts of payments, as they stand in the row that the line names."""
    write_salon(
        tmp_path,
        {
            "bookings.csv": "booking_id,line,client_id,starts_at,ends_at,status,service_id,price\n"
            "B1,1,C1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00\n"
            "B9,1,C1,2026-03-99 10:00,2026-03-03 11:30,completed,S1,60.00\n"
            "B2,1,C2,2026-03-04 10:00,2026-03-04 11:30,completed,S2,30.00\n",
            "payments.csv": "paid_at,booking_id,method,amount\n"
            "2026-03-03 11:30,B1,card,60.00\n2026-03-04 11:30,B2,voucher,30.00\n",
        },
    )
    load_unchecked(tmp_path)
    made = Handover(open_salon(tmp_path, date(2026, 4, 1)), named_period("2026-03"))
    files = {
        name: list(csv.reader(io.StringIO((tmp_path / "exports" / name).read_text(encoding="utf-8"))))
        for name in ("bookings.csv", "payments.csv")
    }
    lines = csv_rows(made, "lines.csv")
    told = [(row["file"], int(row["row"]), row["gross_amount"] or row["payment_amount"]) for row in lines if row["row"]]
    shown = {(file, row): amount for file, row, amount in told if amount}
    assert shown == {
        ("bookings.csv", 2): "60.00",
        ("bookings.csv", 4): "30.00",
        ("payments.csv", 2): "60.00",
        ("payments.csv", 3): "30.00",
    }
    assert all(amount in files[file][row - 1] for (file, row), amount in shown.items())


def test_the_control_totals_agree() -> None:
    made = small()
    controls = csv_rows(made, "controls.csv")
    assert {row["difference"] for row in controls} == {"0.00"}
    assert {"Tax, tax", "Payments by method", "Product bought", "Tax owed, debit less credit"} <= {
        row["what"] for row in controls
    }


@effort(max_examples=15, deadline=None)
@given(visits, sold, regimes)
def test_the_control_totals_agree_whatever_the_salon(
    drawn: list[Any], vouchers: list[Any], regime: dict[str, str]
) -> None:
    made = Drawn(drawn, vouchers, regime).handed_over()
    assert sheet(made, "controls")["difference"].abs().sum() == 0
    assert csv_total(made, "lines.csv", "debit_amount") == csv_total(made, "lines.csv", "credit_amount")


DIARY = "day,client,stylist,starts_at,minutes,status,service_id,price\n" + "".join(
    f"2026-03-0{day},Zuzanna Verzonnen,Mila,2026-03-0{day} 10:00,60,completed,S1,{price}\n"
    for day, price in ((3, "60.00"), (4, "-10.00"))
)


def test_a_visit_without_a_number_is_not_called_after_its_client(tmp_path: Path) -> None:
    """Loading puts a number together of day, client and stylist; in the folder the visit has that of its row."""
    write_salon(
        tmp_path, {"bookings.csv": DIARY, "payments.csv": "paid_at,booking_id,method,amount\n2026-03-03,B7,card,9\n"}
    )
    load_unchecked(tmp_path)
    made = Handover(open_salon(tmp_path, date(2026, 4, 1)), named_period("2026-03"))
    text = all_text(made.files).casefold()
    assert "zuzanna" not in text and "verzonnen" not in text
    assert {row["source_document_id"] for row in csv_rows(made, "lines.csv")} >= {"bookings.csv row 2"}
    assert [row["booking_id"] for row in csv_rows(made, "refunds.csv")] == ["bookings.csv row 3"]


STOCK_MOVES = [
    {"moved_at": "2026-03-02", "product_id": "DYE", "movement": "delivery", "packs": 10, "expires_on": "2026-03-31"},
    {"moved_at": "2026-03-09", "product_id": "DYE", "movement": "returned", "packs": 1},
    {"moved_at": "2026-04-20", "product_id": "DYE", "movement": "discarded", "packs": 4},
]
SOLD = {"sold_at": "2026-03-05 10:00", "product_id": "BRUSH", "price": "12.10"}
BRUSH = {"moved_at": "2025-02-01", "product_id": "BRUSH", "movement": "delivery", "packs": 2, "unit_cost": "6"}


def stocked(period: str, **more: Any) -> Handover:
    listed = products(
        {"product_id": "DYE"}, {"product_id": "BRUSH", "kind": "retail", "pack_g": "90", "pack_cost": "6"}
    )
    return handover_of(
        salon_of(stock_moves=table("stock_moves", [BRUSH, *STOCK_MOVES]), sales=sales(SOLD), products=listed, **more),
        period,
    )


def test_stock_in_the_journal_worked_by_hand() -> None:
    """IAS 2.9, 2.34. Two brushes of 6.00 lay still for a year by the end of February: 12.00 written down. In March ten
    packs of 9.00 come and one goes back; one brush sells, so that its 6.00 leaves and the other 6.00 is reversed; nine
    packs expire, 81.00. In April four are thrown away, and 36.00 of the write-down goes with them."""
    amounts: dict[str, list[tuple[str, ...]]] = {}
    for period in ("2026-02", "2026-03", "2026-04"):
        rows = csv_rows(stocked(period), "journal.csv")
        amounts[period] = [
            (row["day"], row["item"], row["account"], row["debit"] or "-" + row["credit"])
            for row in rows
            if "stock" in row["transaction_id"] or "bought" in row["transaction_id"]
        ]
    assert amounts["2026-02"] == [
        ("2026-02-28", "Stock written down", "Stock written down", "12.00"),
        ("2026-02-28", "Stock written down", "Stock", "-12.00"),
    ]
    assert set(amounts["2026-03"]) == {
        ("2026-03-02", "Product bought", "Stock", "90.00"),
        ("2026-03-02", "Product bought", "Suppliers", "-90.00"),
        ("2026-03-09", "Product sent back", "Suppliers", "9.00"),
        ("2026-03-09", "Product sent back", "Stock", "-9.00"),
        ("2026-03-31", "Retail sold, at cost", "Cost of retail", "6.00"),
        ("2026-03-31", "Retail sold, at cost", "Stock", "-6.00"),
        ("2026-03-31", "Stock written down", "Stock written down", "81.00"),
        ("2026-03-31", "Stock written down", "Stock", "-81.00"),
        ("2026-03-31", "Write-down of stock that has left", "Stock", "6.00"),
        ("2026-03-31", "Write-down of stock that has left", "Stock written down", "-6.00"),
        ("2026-03-31", "Write-down reversed", "Stock", "6.00"),
        ("2026-03-31", "Write-down reversed", "Stock written down", "-6.00"),
    }
    assert set(amounts["2026-04"]) == {
        ("2026-04-30", "Product thrown away", "Stock lost", "36.00"),
        ("2026-04-30", "Product thrown away", "Stock", "-36.00"),
        ("2026-04-30", "Write-down of stock that has left", "Stock", "36.00"),
        ("2026-04-30", "Write-down of stock that has left", "Stock written down", "-36.00"),
    }


@pytest.mark.parametrize("currency", ["EUR", "JPY", "KWD"])
def test_the_account_of_stock_moves_as_the_sheet_says(currency: str) -> None:
    made = stocked("2026-Q1", salon=settings(salon={"currency": currency}))
    months = sheet(made, "stock")
    lines = csv_rows(made, "lines.csv")
    moved = added(lines, "debit_amount", account_id="Stock") - added(lines, "credit_amount", account_id="Stock")
    assert moved == months["carrying"][-1] - months["opening"][0]  # nothing was written down before
    assert months["carrying"][-1] == sheet(made, "closing_stock")["carrying"].sum() == 6
    reasons = {row["reason"]: row["closing"] for row in csv_rows(made, "write_downs.csv") if row["month"] == "2026-03"}
    assert {reason: Decimal(amount) for reason, amount in reasons.items() if Decimal(amount)} == {"expired": 81}


MOVED = st.lists(
    st.tuples(
        st.integers(1, 90),
        st.sampled_from(["DYE", "BRUSH"]),
        st.sampled_from(["delivery", "delivery", "returned", "discarded", "count"]),
        st.integers(0, 5),
        st.integers(5, 60),
    ),
    min_size=1,
    max_size=8,
)


@effort(max_examples=15, deadline=None)
@given(MOVED, st.sampled_from(["EUR", "JPY", "KWD"]), st.sampled_from(["average", "fifo"]))
def test_opening_and_movements_are_closing_whatever_moved(moved: list[Any], currency: str, valuation: str) -> None:
    """The account of stock comes to what stands there, at the lower of cost and what it brings."""
    first = date(2025, 12, 31)
    rows = [
        {"moved_at": str(first + timedelta(days=day)), "product_id": product, "movement": what, "packs": packs / 3}
        | {"expires_on": str(first + timedelta(days=day + good)), "unit_cost": "7.77"}
        for day, product, what, packs, good in moved
    ]
    listed = products(
        {"product_id": "DYE"}, {"product_id": "BRUSH", "kind": "retail", "pack_g": "90", "pack_cost": "6"}
    )
    tried = sales(SOLD | {"price": "5"}, SOLD | {"sold_at": "2026-02-05 10:00", "price": "4"})
    chosen = settings(salon={"currency": currency}, stock={"valuation": valuation, "unsaleable_after_days": 20})
    made = handover_of(
        salon_of(chosen, stock_moves=table("stock_moves", rows), sales=tried, products=listed), "2026-Q1"
    )
    moved_there = sheet(made, "journal").filter(pl.col("account") == "Stock")
    change = (moved_there["debit"].fill_null(0).sum() or 0) - (moved_there["credit"].fill_null(0).sum() or 0)
    assert change == sheet(made, "stock")["carrying"][-1]
    assert sheet(made, "controls")["difference"].abs().sum() == 0
    assert sheet(made, "closing_stock")["carrying"].sum() == sheet(made, "stock")["carrying"][-1]


def test_a_period_within_a_month_holds_what_was_bought_in_it_and_no_months_end() -> None:
    whole = stocked("2026-03")
    rows = csv_rows(Handover(whole.salon, Period(date(2026, 3, 5), date(2026, 3, 20))), "journal.csv")
    assert {row["item"] for row in rows if row["transaction_id"][11:] != "day"} == {"Product sent back"}


def test_a_group_says_in_each_reference_whose_it_is() -> None:
    book = bookings(
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "60"), site="North"),
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "40"), site="South"),
    )
    paid = payments({"paid_at": "2026-03-03", "booking_id": "V1", "amount": "60", "site": "North"})
    made = handover_of(salon_of(bookings=book, services=services({"service_id": "CUT"}), payments=paid))
    references = [row["transaction_id"] for row in csv_rows(made, "journal.csv")]
    assert set(references) == {"2026-03-03 day North", "2026-03-03 day South"}
    assert " ^2026-03-03-day-North" in made.texts["journal.beancount"]
