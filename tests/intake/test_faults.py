"""One small bad export per fault, in bad_files/ under the fault's name: what is found where, what stops the work."""

import shutil
from pathlib import Path

import polars as pl
import pytest
import xlsxwriter
from salons import MENU, load_unchecked, write_salon

from analytics.commands.cli import main
from analytics.definitions import findings
from analytics.intake.reading import workbook
from analytics.loading import load_salon
from analytics.storage.book import BOOK, read_book

BAD_FILES = Path(__file__).parents[1] / "bad_files"
ROWS_SET_ASIDE = {  # file: code, row, column, the cell as typed
    "bad_date.csv": ("bad_date", 3, "starts_at", "2026-02-30 10:00"),
    "bad_number.csv": ("bad_number", 3, "price", "sixty"),
    "bad_number.xlsx": ("bad_number", 5, "packs", "three"),
    "missing_value.csv": ("missing_value", 3, "client_id", ""),
    "unknown_word.csv": ("unknown_word", 3, "status", "perhaps"),
    "unknown_service.csv": ("unknown_service", 3, "service_id", "S9"),
    "ambiguous_service.csv": ("ambiguous_service", 3, "service", "Twice on the menu"),
    "end_before_start.csv": ("end_before_start", 3, "ends_at", "2026-03-03 09:30"),
    "end_too_late.csv": ("end_too_late", 3, "ends_at", "2027-03-03 11:30"),
    "total_line.csv": ("total_line", 3, "booking_id", "Total"),
    "ragged_row.csv": ("ragged_row", 3, None, None),
    "too_few_cells.csv": ("ragged_row", 3, None, None),
    "repeated_heading.csv": ("repeated_heading", 3, "booking_id", "booking_id"),
    "open_quotation.csv": ("open_quotation", 2, None, None),
    "text_after_quotation.csv": ("open_quotation", 3, None, None),
}
FILES_SET_ASIDE = {  # file: code, rows set aside
    "unknown_headings.csv": ("unknown_table", 2),
    "empty.csv": ("unknown_table", 0),
    "empty_workbook.xlsx": ("unknown_file", 0),
    "picture.png": ("unknown_file", 0),
}
STOPS = {  # file: words of the one sentence
    "missing_column.csv": "service",
    "two_same_headings.csv": "price",
    "broken.xlsx": "workbook",
    "not_a_workbook.xlsx": "workbook",
    "far_cell.xlsx": "workbook",
}
FINE = {"headings_only.csv", "unknown_product.csv", "not_utf8.csv", "utf16.csv"}
TWICE = "S3,Twice on the menu,cut,1,21,1\nS4,Twice on the menu,cut,1,21,1\n"


@pytest.fixture
def salon(tmp_path: Path) -> Path:
    return write_salon(tmp_path, {"menu.csv": MENU + TWICE})


def drop_in(salon: Path, name: str) -> None:
    shutil.copy(BAD_FILES / name, salon / "exports" / name)


def test_every_bad_file_is_expected_somewhere() -> None:
    assert {path.name for path in BAD_FILES.iterdir()} == {*ROWS_SET_ASIDE, *FILES_SET_ASIDE, *STOPS, *FINE}


@pytest.mark.parametrize("name", ROWS_SET_ASIDE)
def test_a_bad_row_is_set_aside_with_its_position_and_a_way_out(salon: Path, name: str) -> None:
    """The one bad row is set aside and found; the good rows beside it are used."""
    code, row, column, value = ROWS_SET_ASIDE[name]
    drop_in(salon, name)
    report = load_unchecked(salon)
    found = report.findings.row(0, named=True)
    assert report.findings.height == 1
    assert (found["file"], found["code"], found["row"], found["count"]) == (name, code, row, 1)
    if column is not None:
        assert (found["column"], found["value"]) == (column, value)
    assert name in found["message"] and str(row) in found["message"] and found["what_to_do"].endswith(".")
    counts = report.files.filter(file=name).row(0, named=True)
    assert counts["set_aside"] == 1
    assert counts["rows_used"] + counts["repeats"] + counts["superseded"] == counts["rows_read"] - 1
    assert read_book(salon).set_aside.select("file", "row", "code").rows() == [(name, row, code)]


@pytest.mark.parametrize("name", FILES_SET_ASIDE)
def test_a_file_that_is_no_table_is_set_aside_whole(salon: Path, name: str) -> None:
    code, rows = FILES_SET_ASIDE[name]
    drop_in(salon, name)
    report = load_unchecked(salon)
    assert report.findings.select("code", "file").rows() == [(code, name)]
    assert report.files.filter(file=name).select("rows_read", "set_aside").row(0) == (rows, rows)


@pytest.mark.parametrize("name", STOPS)
def test_a_file_that_cannot_be_read_stops_the_load_in_one_sentence(
    salon: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit status 1, the file and the way out named, the old book as it was, and nothing left lying about."""
    load_unchecked(salon)
    before = (salon / BOOK).read_bytes()
    names = sorted(path.name for path in salon.iterdir())
    drop_in(salon, name)
    assert main(["load", "--salon", str(salon)]) == 1
    printed = capsys.readouterr()
    assert printed.out == ""
    sentence = printed.err.strip().splitlines()[-1]
    assert name in sentence and STOPS[name] in sentence and sentence.endswith(".")
    assert "Traceback" not in printed.err
    assert (salon / BOOK).read_bytes() == before
    assert sorted(path.name for path in salon.iterdir()) == names


def test_a_workbook_is_measured_before_it_is_read() -> None:
    """A few bytes with one cell far out would make the reader ask for more memory than there is."""
    with pytest.raises(ValueError, match="too many cells"):
        workbook.check(BAD_FILES / "far_cell.xlsx")
    workbook.check(BAD_FILES / "bad_number.xlsx")


def test_headings_alone_are_an_empty_export_and_no_fault(salon: Path) -> None:
    drop_in(salon, "headings_only.csv")
    report = load_unchecked(salon)
    assert report.findings.is_empty()
    assert report.files.filter(file="headings_only.csv").select("table", "rows_read").row(0) == ("bookings", 0)


def test_an_unknown_product_is_found_and_used(salon: Path) -> None:
    drop_in(salon, "unknown_product.csv")
    products = "product_id,product,kind,pack_g,pack_cost\nP1,Colour 5.0,colour,60,10.20\n"
    (salon / "exports" / "products.csv").write_text(products, encoding="utf-8")
    report = load_salon(salon)
    assert report.findings.select("code", "file", "row", "column", "value").rows() == [
        ("unknown_product", "unknown_product.csv", 2, "product_id", "P9")
    ]
    assert report.files.filter(file="unknown_product.csv")["rows_used"].to_list() == [1]


def test_strict_loading_ends_with_1_where_rows_were_set_aside(salon: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["load", "--strict", "--salon", str(salon)]) == 0
    drop_in(salon, "bad_number.csv")
    assert main(["load", "--salon", str(salon)]) == 0
    assert main(["load", "--strict", "--salon", str(salon)]) == 1
    assert "bad_number.csv" in capsys.readouterr().out


@pytest.mark.parametrize("code", findings.CATALOGUE)
def test_every_fault_of_the_catalogue_reads_as_a_sentence_with_a_way_out(code: str) -> None:
    """Also where the cell holds what a sentence is made with."""
    hit = (code, "bookings", "a {file}.csv", 3, "price", "{0} 'x' {column!r}", "an amount")
    found = findings.summarise(findings.hits([hit])).row(0, named=True)
    assert found["message"][0].isupper() or found["message"].startswith("a {file}.csv is")
    assert found["message"].endswith(".")
    assert found["what_to_do"][0].islower() and found["what_to_do"].endswith(".")
    assert "None" not in found["message"]


def test_a_hidden_sheet_is_passed_over_and_said_to_be(tmp_path: Path) -> None:
    salon = write_salon(tmp_path, {"menu.csv": MENU})
    with xlsxwriter.Workbook(salon / "exports" / "clients.xlsx") as workbook:
        seen, unseen = workbook.add_worksheet("now"), workbook.add_worksheet("old")
        for sheet in (seen, unseen):
            sheet.write_row(0, 0, ["client_id", "client"])
            sheet.write_row(1, 0, ["C7", "Una Vale"])
        unseen.hide()
    report = load_unchecked(salon)
    said = report.findings.filter(code="hidden_sheet")
    assert said.select("file", "value").rows() == [("clients.xlsx", "old")]
    assert report.files.filter(file="clients.xlsx")["rows_read"].to_list() == [1]


@pytest.mark.parametrize("rate", ["0.21", "0,21", ".21"])
def test_a_rate_held_as_a_share_is_read_as_percent_and_said_to_be(tmp_path: Path, rate: str) -> None:
    salon = write_salon(tmp_path, {"menu.csv": MENU.replace(",21,", f',"{rate}",')})
    report = load_unchecked(salon)
    said = report.findings.filter(code="rate_as_share")
    assert said.select("column", "value").rows() == [("tax_rate", rate)]
    assert "21 %" in said["message"][0]
    assert set(read_book(salon).tables["services"]["tax_rate"].cast(pl.Float64)) == {21.0}


def test_rates_in_percent_are_read_without_a_word(salon: Path) -> None:
    assert load_unchecked(salon).findings.filter(code="rate_as_share").is_empty()
