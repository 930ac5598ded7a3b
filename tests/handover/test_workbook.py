"""The workbook, read by two programs that know nothing of ours: sums are sums, text is text."""

import io
from decimal import Decimal
from typing import Any

import fastexcel
import openpyxl
import pymupdf
import pytest
from frames import bookings, payments, sales, services, settings, small_salon, table, visit
from handover.desk import Workbook, csv_rows, csv_total, handover_of, pdf_words, salon_of, total

from analytics import wording
from analytics.handover.accountant.package import Handover
from analytics.handover.accountant.sheets.sheet import heading
from analytics.handover.accountant.workbook import HEAD, total_row

HOSTILE = [
    '=HYPERLINK("http://elsewhere.example/","x")',
    "@SUM(A1:A9)",
    "＝1+1",
    "+31 6 000",
    "-2+3",
    "two\nlines\r\nand\ttabs",
    "x" * 300,
    "שלום עולם",
    "\u202eturned\u202c",
    "http://elsewhere.example/",
    "{=1+1}",
    '"; DROP TABLE x; --',
    "#panic() *bold* $x$ // gone",
    "\x01\x02 control",
]


@pytest.fixture(scope="module")
def made() -> Handover:
    salon = small_salon()
    return handover_of(salon_of(salon.pop("salon"), **salon))


@pytest.fixture(scope="module")
def book(made: Handover) -> Workbook:
    return Workbook(made.files["summary.xlsx"])


def test_every_formula_comes_to_the_number_that_stands_there(book: Workbook) -> None:
    formulas = book.all_formulas()
    assert len(formulas) > 60
    for page, cell, stands in formulas:
        assert book.value(page, cell) == stands, (page, cell)


def test_totals_are_sums_and_the_same_as_ours(made: Handover, book: Workbook) -> None:
    for sheet in made.sheets:
        for column in sheet.sums:
            letter = openpyxl.utils.get_column_letter(sheet.frame.columns.index(column) + 1)
            cell = f"{letter}{total_row(sheet) + 1}"
            assert str(book.formulas[sheet.title][cell].value).startswith("=SUM(")
            assert book.value(sheet.title, cell) == sheet.total(column), (sheet.name, column)


def test_the_same_totals_in_every_file(made: Handover) -> None:
    """CSV by the standard library, the workbook by calamine, the paper by a PDF reader."""
    read = fastexcel.read_excel(made.files["summary.xlsx"])
    paper = pdf_words(made.files["statement.pdf"])
    for name, columns in {
        "revenue": ("gross", "net", "tax"),
        "tax": ("gross", "net", "tax"),
        "payments_by_method": ("amount", "fees"),
        "reconciliation": ("received", "difference"),
        "differences": ("due", "paid"),
    }.items():
        sheet = next(one for one in made.sheets if one.name == name)
        frame = read.load_sheet(sheet.title, header_row=None).to_polars()
        for column in columns:
            place = sheet.frame.columns.index(column)
            cells = frame[:, place].to_list()
            last = [cell for cell in cells if cell is not None][-1]
            expected = sheet.total(column)
            assert Decimal(str(last)) == expected == csv_total(made, f"{name}.csv", column), (name, column)
            assert wording.money(expected, made.salon.settings) in paper


def test_the_cover_takes_its_sums_from_the_other_sheets(made: Handover, book: Workbook) -> None:
    assert book.formulas["Cover"]["B9"].value.startswith("='Revenue'!")
    assert book.value("Cover", "B9") == total(made, "revenue", "gross") == Decimal("311.00")
    assert {row["what"]: row["amount"] for row in csv_rows(made, "cover.csv")}["Unreconciled differences"] == "-0.40"


def test_headings_stay_in_sight_and_pages_print(made: Handover, book: Workbook) -> None:
    assert (book.formulas.properties.created.year, book.formulas.properties.creator) == (2000, "The small salon")
    for sheet in made.sheets:
        page = book.formulas[sheet.title]
        assert page.freeze_panes == f"A{HEAD + 2}"
        assert page.print_title_rows == f"$1:${HEAD + 1}"
        assert page.print_area.startswith(f"'{sheet.title}'!$A$1:")
        assert page.sheet_properties.pageSetUpPr.fitToPage
        assert (page.page_setup.fitToWidth or 1, page.page_setup.fitToHeight) == (1, 0)  # as many pages long as needed
        assert page.cell(HEAD + 1, 1).value.startswith(heading(sheet.frame.columns[0]))
        assert 8 < page.column_dimensions["A"].width < 100


@pytest.mark.parametrize(("currency", "pattern"), [("EUR", "#,##0.00"), ("JPY", "#,##0"), ("KWD", "#,##0.000")])
def test_amounts_have_the_digits_of_the_currency(currency: str, pattern: str) -> None:
    """ISO 4217: EUR 2, JPY 0, KWD 3."""
    salon = settings(salon={"currency": currency})
    book = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "1100")))
    made = handover_of(salon_of(salon, bookings=book, services=services({"service_id": "CUT", "tax_rate": "10"})))
    cell = Workbook(made.files["summary.xlsx"]).formulas["Tax"]["E5"]
    assert cell.number_format.split(";")[0] == pattern
    assert csv_rows(made, "tax.csv")[0]["tax"] == f"{100:.{ {'EUR': 2, 'JPY': 0, 'KWD': 3}[currency] }f}"
    assert wording.money(100, salon) in pdf_words(made.files["statement.pdf"])


def test_finer_amounts_than_the_currency_has_are_shown_and_not_lost() -> None:
    """An export with half cents: every amount gets more digits, and parts still add up."""
    rows = [visit(f"V{n}", "2026-03-03 09:00", 60, ("CUT", "0.005")) for n in range(3)]
    made = handover_of(salon_of(bookings=bookings(*rows), services=services({"service_id": "CUT"})))
    assert csv_total(made, "revenue.csv", "gross") == csv_total(made, "journal.csv", "debit") == Decimal("0.0150")


def hostile_salon(text: str) -> Any:
    """Every free text of the exports and settings is the same."""
    book = bookings(
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "60"), stylist=text, chair=text, client_id=text),
        visit("V2", "2026-03-04 09:00", 60, ("CUT", "-60"), stylist=text),
        visit(text, "2026-03-05 09:00", 60, ("CUT", "60"), stylist=text),
    )
    return salon_of(
        settings(salon={"name": text.strip()}, wages={"per_hour": {text: 20}}),
        bookings=book,
        services=services({"service_id": "CUT", "service": text}),
        sales=sales({"sold_at": "2026-03-03", "product": text, "price": "-5"}),
        payments=payments({"paid_at": "2026-03-03", "booking_id": "V1", "amount": "60"}),
        stock_moves=table(
            "stock_moves",
            [{"moved_at": "2026-03-01", "product": text, "movement": "delivery", "grams": "60", "unit_cost": "9"}],
        ),
    )


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_a_hostile_menu_opens_as_plain_text_everywhere(text: str) -> None:
    made = handover_of(hostile_salon(text))
    line = " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
    opened = openpyxl.load_workbook(io.BytesIO(made.files["summary.xlsx"]))
    cells = [cell for page in opened for row in page.iter_rows() for cell in row if cell.value == line]
    assert len(cells) > 4
    assert all(cell.data_type == "s" and cell.hyperlink is None for cell in cells)
    formulas = [cell.value for page in opened for row in page.iter_rows() for cell in row if cell.data_type == "f"]
    assert all(
        value.startswith(("=SUM(", "='")) or set(value) <= set("=+-()ABCDEFGHIJK0123456789") for value in formulas
    )
    items = {row["item"] for row in csv_rows(made, "refunds.csv")}
    dangerous = text.lstrip(" \u00a0").startswith(("=", "+", "-", "@", "\t", "\r", "\n", "＝"))
    assert {item.removeprefix("'") for item in items} == {text}
    assert all(item.startswith("'") == dangerous for item in items)
    first = next(iter(fastexcel.read_excel(made.files["summary.xlsx"]).sheet_names))
    assert first == "Cover"
    pages = pymupdf.open(stream=made.files["statement.pdf"])
    assert "Total" in pages[0].get_text() and not [link for page in pages for link in page.get_links()]
