"""Where a row came from, and that its cells arrive as they were typed: rows as a spreadsheet counts, exact decimals."""

import io
from datetime import datetime
from decimal import Decimal
from pathlib import Path

import pytest
import xlsxwriter
from salons import BOOKINGS, load_unchecked, write_salon

from analytics.stops import WorkStopped
from analytics.storage.book import Book, read_book

LOG = "logged_at,product_id,mixed_g\n"
CLIENTS = "client_id,client,phone\n"


def loaded(folder: Path, exports: dict[str, str | bytes]) -> Book:
    load_unchecked(write_salon(folder, exports))
    return read_book(folder)


def workbook(sheets: dict[str, dict[str, object]]) -> bytes:
    """A workbook of these sheets, cell by cell: {"Sheet": {"B4": value}}; a text that begins with = is a formula."""
    content = io.BytesIO()
    with xlsxwriter.Workbook(content, {"in_memory": True, "default_date_format": "yyyy-mm-dd hh:mm"}) as book:
        for title, cells in sheets.items():
            sheet = book.add_worksheet(title)
            for place, value in cells.items():
                sheet.write(place, value)
    return content.getvalue()


def test_rows_are_counted_as_a_spreadsheet_does(tmp_path: Path) -> None:
    """Blank lines count; a cell with a line break is one row: of used rows, of findings and of rows set aside."""
    text = (
        "\n"  # 1
        + CLIENTS  # 2
        + ' , ,\t\n'  # 3
        + 'C1,"Ilse\nProef",1\n'  # 4
        + "C2,Bram Proef,2\n"  # 5
        + "\n\n"  # 6, 7
        + ",no id,3\n"  # 8
        + "C3,Saar Proef,4"  # 9
    )  # fmt: skip
    book = loaded(tmp_path, {"clients.csv": text})
    used = book.tables["clients"].sort("row").select("client_id", "file", "row").rows()
    assert used == [("C1", "clients.csv", 4), ("C2", "clients.csv", 5), ("C3", "clients.csv", 9)]
    assert book.findings.select("code", "file", "row", "column").rows() == [
        ("missing_value", "clients.csv", 8, "client_id")
    ]
    assert book.set_aside.select("file", "row").rows() == [("clients.csv", 8)]


def test_rows_of_a_workbook_are_counted_from_its_first_row(tmp_path: Path) -> None:
    """Blank rows and a blank column before the headings, and blank rows between."""
    cells = {
        "B4": "client_id", "C4": "client",
        "B5": "C1", "C5": "Ilse Proef",
        "C7": "no id",
        "B9": "C2", "C9": "Bram Proef",
    }  # fmt: skip
    book = loaded(tmp_path, {"people.xlsx": workbook({"People": cells})})
    assert book.tables["clients"].sort("row").select("client_id", "file", "row").rows() == [
        ("C1", "people.xlsx", 5),
        ("C2", "people.xlsx", 9),
    ]
    assert book.findings.select("code", "row", "column").rows() == [("missing_value", 7, "client_id")]
    assert book.files.filter(file="people.xlsx").select("rows_read", "set_aside").row(0) == (3, 1)


def test_each_sheet_of_a_workbook_is_a_file_of_its_own(tmp_path: Path) -> None:
    sheets = {
        "People": {"A1": "client_id", "B1": "client", "A2": "C1"},
        "Empty": {},
        "Stock": {
            "A1": "moved_at", "B1": "product_id", "C1": "movement", "D1": "packs",
            "A2": "2026-03-03", "B2": "P1", "C2": "count", "D2": 3,
        },
    }  # fmt: skip
    book = loaded(tmp_path, {"all.xlsx": workbook(sheets)})
    names = book.files.filter(book.files["file"].str.starts_with("all")).select("file", "table", "rows_used").rows()
    assert sorted(names) == [("all.xlsx#People", "clients", 1), ("all.xlsx#Stock", "stock_moves", 1)]


MOVES = {"A1": "moved_at", "B1": "product_id", "C1": "movement", "D1": "packs", "E1": "grams", "F1": "unit_cost"}


def test_cells_of_a_workbook_keep_their_kind(tmp_path: Path) -> None:
    """True dates, long numbers as ids, and sums that binary numbers cannot hold exactly."""
    cells = {"A2": datetime(2026, 3, 3, 9, 30), "B2": 12345678901, "C2": "delivery", "D2": 3, "F2": 0.1 + 0.2}
    move = loaded(tmp_path, {"stock.xlsx": workbook({"Stock": MOVES | cells})}).tables["stock_moves"]
    assert move.select("moved_at", "product_id", "packs", "unit_cost").rows() == [
        (datetime(2026, 3, 3, 9, 30), "12345678901", 3.0, Decimal("0.3000"))
    ]


def test_a_computed_amount_of_a_workbook_is_rounded_not_refused(tmp_path: Path) -> None:
    """A third of an amount has no end; a spreadsheet's own digits are no mistake of whoever typed it."""
    cells = {"A2": "2026-03-03", "B2": "P1", "C2": "delivery", "D2": 3, "F2": 10 / 3}
    move = loaded(tmp_path, {"stock.xlsx": workbook({"Stock": MOVES | cells})}).tables["stock_moves"]
    assert move["unit_cost"].to_list() == [Decimal("3.3333")]


def test_an_error_cell_of_a_workbook_is_not_an_empty_one(tmp_path: Path) -> None:
    """#DIV/0! under packs: the row cannot pass for one that was never counted in packs."""
    content = io.BytesIO()
    with xlsxwriter.Workbook(content, {"in_memory": True}) as made:
        sheet = made.add_worksheet("Stock")
        for place, value in (MOVES | {"A2": "2026-03-03", "B2": "P1", "C2": "count", "E2": 5}).items():
            sheet.write(place, value)
        sheet.write_formula("D2", "=1/0", None, "#DIV/0!")
    book = loaded(tmp_path, {"stock.xlsx": content.getvalue()})
    assert book.findings.select("code", "row", "column", "value").rows() == [("bad_number", 2, "packs", "#DIV/0!")]


def test_na_in_a_workbook_is_a_finding_not_an_empty_cell(tmp_path: Path) -> None:
    cells = {"A2": "2026-03-03", "B2": "P1", "C2": "count", "D2": "n/a"}
    book = loaded(tmp_path, {"stock.xlsx": workbook({"Stock": MOVES | cells})})
    assert book.findings.select("code", "row", "column", "value").rows() == [("bad_number", 2, "packs", "n/a")]


def test_money_is_exact(tmp_path: Path) -> None:
    """0.10 + 0.20 is 0.30, and ten cents a hundred times are ten."""
    amounts = ["0.10", "0.20", *["0.10"] * 100, "-10.00", "1234567890.1234"]
    rows = "".join(f"2026-03-03,{number},cash,{amount}\n" for number, amount in enumerate(amounts))
    book = loaded(tmp_path, {"payments.csv": "paid_at,booking_id,method,amount\n" + rows})
    assert book.tables["payments"]["amount"].sum() == Decimal("1234567890.4234")


def test_comma_decimals_semicolons_and_a_byte_order_mark(tmp_path: Path) -> None:
    text = "\ufeffpaid_at;booking_id;method;amount;fee\n2026-03-03 09:40;B1;card;50,5;0,45\n2026-03-04;B2;cash;-7,10;\n"
    book = loaded(tmp_path, {"payments.csv": text})
    assert book.findings.is_empty()
    assert book.tables["payments"].select("amount", "fee").rows() == [
        (Decimal("50.5000"), Decimal("0.4500")),
        (Decimal("-7.1000"), Decimal("0.0000")),
    ]


def test_an_amount_that_may_mean_two_things_is_asked_about(tmp_path: Path) -> None:
    with pytest.raises(WorkStopped, match="1,234"):
        loaded(tmp_path, {"payments.csv": 'paid_at,method,amount\n2026-03-03,cash,"1,234"\n'})


@pytest.mark.parametrize("typed", ["0.12345", "0x1F", "five", "1,23,4", "12.34.5", "-"])
def test_an_amount_that_is_none_is_a_finding(tmp_path: Path, typed: str) -> None:
    book = loaded(tmp_path, {"payments.csv": f'paid_at,method,amount\n2026-03-03,cash,"{typed}"\n'})
    assert book.tables["payments"].is_empty()
    assert book.findings.select("code", "column", "value").rows() == [("bad_number", "amount", typed)]


@pytest.mark.parametrize("typed", ["03/02/26", "3-2-2026"])
def test_a_day_that_may_be_two_is_asked_about(tmp_path: Path, typed: str) -> None:
    with pytest.raises(WorkStopped, match=r"\[dates\] order"):
        loaded(tmp_path, {"payments.csv": f"paid_at,method,amount\n{typed},cash,1\n"})


@pytest.mark.parametrize("typed", ["2026-02-29", "2026-13-01", "2026-03-03 25:00", "soon"])
def test_a_day_that_is_none_is_a_finding(tmp_path: Path, typed: str) -> None:
    book = loaded(tmp_path, {"payments.csv": f"paid_at,method,amount\n{typed},cash,1\n"})
    assert book.tables["payments"].is_empty()
    assert book.findings.select("code", "column", "value").rows() == [("bad_date", "paid_at", typed)]


def test_columns_are_found_by_heading_not_by_order(tmp_path: Path) -> None:
    text = "amount,method,Note,PAID AT\n5,Cash,x,2026-03-03\n"
    book = loaded(tmp_path, {"payments.csv": text})
    assert book.tables["payments"].select("amount", "method").rows() == [(Decimal(5), "cash")]


def test_headings_and_words_of_the_salon_itself(tmp_path: Path) -> None:
    """[columns] and [words] in salon.toml translate an export; letter case, blanks and hyphens do not matter."""
    settings = (
        '[salon]\nname = "Salon Proefdraad (invented)"\n'
        '[columns.payments]\n"Betaald op" = "paid_at"\n"Wijze" = "method"\n"Bedrag" = "amount"\n'
        '[words.method]\n"pin" = "card"\n"pin - mobiel" = "card"\n'
    )
    text = "Betaald op,Wijze,Bedrag (EUR)\n2026-03-03,PIN,5\n2026-03-04,Pin - Mobiel,6\n"
    load_unchecked(write_salon(tmp_path, {"payments.csv": text}, settings))
    assert read_book(tmp_path).tables["payments"]["method"].to_list() == ["card", "card"]


def test_two_headings_that_mean_nothing_here_do_not_stop_the_work(tmp_path: Path) -> None:
    """A bookings export with two columns phone, which only clients have."""
    text = BOOKINGS.strip() + ",phone,phone\n"
    row = "B1,1,C1,Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00,1,2\n"
    assert loaded(tmp_path, {"bookings.csv": text + row}).tables["bookings"].height == 1


ODD_TEXTS = {
    "comma in quotes": ('C1,"Proef, Ilse",1', "Proef, Ilse"),
    "escaped quotes": ('C1,"Ilse ""de snelle"" Proef",1', 'Ilse "de snelle" Proef'),
    "only escaped quotes": ('C1,"""",1', '"'),
    "line break": ('C1,"Ilse\nProef",1', "Ilse\nProef"),
    "line break of another system": ('C1,"Ilse\r\nProef",1', "Ilse\r\nProef"),
    "line break, comma and quotes": ('C1,"a,\n""b""",1', 'a,\n"b"'),
    "empty in quotes": ('C1,"",1', None),
    "empty": ("C1,,1", None),
    "blanks around": ("C1,  Ilse Proef  ,1", "Ilse Proef"),
    "letters of many scripts": ("C1,Łucja Ķēniņa-Ωμέγα 李 🎨,1", "Łucja Ķēniņa-Ωμέγα 李 🎨"),
    "a program's own signs": ("C1,{value!r} '; DROP TABLE clients; --,1", "{value!r} '; DROP TABLE clients; --"),
    "json": ('C1,"{""type"": ""point"", ""at"": [1, 2]}",1', '{"type": "point", "at": [1, 2]}'),
    "a word that means nothing": ("C1,NULL,1", "NULL"),
}


@pytest.mark.parametrize("ends", ["\n", "\r\n"], ids=["LF", "CRLF"])
def test_texts_arrive_as_typed(tmp_path: Path, ends: str) -> None:
    """Each in a file of its own, since the cells of a file say together how it is written."""
    files = {
        f"clients_{number:02}.csv": ends.join(
            [CLIENTS.strip(), typed.replace("C1", f"A{number:02}", 1), f"B{number:02},after,2"]
        )
        for number, (typed, _) in enumerate(ODD_TEXTS.values())
    }
    clients = loaded(tmp_path, files).tables["clients"].sort("file", "row")
    assert clients.select("client", "row").rows() == [
        cell for _, expected in ODD_TEXTS.values() for cell in ((expected, 2), ("after", 3))
    ]


def test_a_tab_or_a_hard_blank_around_a_cell_is_no_part_of_it(tmp_path: Path) -> None:
    text = CLIENTS + "C1\t,\u00a0Ilse Proef ,1\n\t,no id,2\n"
    book = loaded(tmp_path, {"clients.csv": text})
    assert book.tables["clients"].select("client_id", "client").rows() == [("C1", "Ilse Proef")]
    assert book.findings.select("code", "row").rows() == [("missing_value", 3)]


def test_two_stray_quotation_marks_do_not_swallow_the_rows_between_in_silence(tmp_path: Path) -> None:
    """The first opens a cell and the second, fifty rows on, closes it: that is no client, and 49 visits are missing."""
    row = "B{0},1,{1},Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00\n"
    clients = {1: '"C1', 50: 'C50"'}
    text = BOOKINGS + "".join(row.format(number, clients.get(number, "C2")) for number in range(1, 51))
    try:
        book = loaded(tmp_path, {"bookings.csv": text})
    except WorkStopped as stop:
        assert "bookings.csv" in str(stop)
    else:
        assert book.findings["file"].to_list() == ["bookings.csv"]
