"""Delimited text against csv-spectrum 2.0.0 and, rule by rule, against RFC 4180."""

import json
from pathlib import Path

import pytest

from analytics.intake.meaning.sheets import read_sheets
from analytics.intake.reading.find import Export
from analytics.intake.reading.split import split_records
from analytics.settings import parse_settings

SPECTRUM = Path(__file__).parents[1] / "published" / "csv_spectrum"
SETTINGS = parse_settings('[salon]\nname = "Salon Proefdraad (invented)"\n')
BROKEN = "location_coordinates"
"""Its CSV and its JSON name different telephone numbers."""
CASES = sorted(path.stem for path in SPECTRUM.glob("*.csv"))


def cells(text: str) -> list[list[str]]:
    """The records of a text, each without the padding at its end."""
    return [list(row[3 : 3 + row[1]]) for row in split_records(text, ",").rows()]


def records_of(path: Path) -> list[dict[str, str]]:
    """The one sheet of the file as the JSON of csv-spectrum writes it: a heading for every cell."""
    (sheet,) = read_sheets(Export(path.name, path), SETTINGS)
    assert not sheet.records["spoilt"].any()
    headings, *rows = (row[3 : 3 + row[1]] for row in sheet.records.rows())
    return [dict(zip(headings, row, strict=True)) for row in rows]


def test_all_twelve_cases_are_here() -> None:
    assert len(CASES) == 12
    assert BROKEN in CASES


@pytest.mark.parametrize("case", [case for case in CASES if case != BROKEN])
def test_csv_spectrum(case: str) -> None:
    wanted = json.loads((SPECTRUM / f"{case}.json").read_text(encoding="utf-8"))
    assert records_of(SPECTRUM / f"{case}.csv") == wanted


def test_csv_spectrum_where_its_json_is_another_record() -> None:
    """The broken case all the same: quotation marks in mid-cell are characters, and nothing is lost."""
    wanted = json.loads((SPECTRUM / f"{BROKEN}.json").read_text(encoding="utf-8"))
    (record,) = records_of(SPECTRUM / f"{BROKEN}.csv")
    assert record | {"Contact Phone Number": wanted["Contact Phone Number"]} == wanted


def test_rfc_4180_1_each_record_on_a_line_of_its_own() -> None:
    assert cells("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]


def test_rfc_4180_2_the_last_record_may_lack_its_line_break() -> None:
    assert cells("aaa,bbb,ccc\r\nzzz,yyy,xxx") == [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]


def test_rfc_4180_3_the_heading_line_is_a_record_like_the_others() -> None:
    headed = split_records("field_name,field_name,field_name\r\naaa,bbb,ccc\r\n", ",")
    assert headed["row"].to_list() == [1, 2]
    assert headed["count"].to_list() == [3, 3]


def test_rfc_4180_4_blanks_belong_to_the_cell_and_another_count_of_cells_is_seen() -> None:
    assert cells(" aaa , bbb,ccc \r\n") == [[" aaa ", " bbb", "ccc "]]
    assert split_records("a,b,c\r\n1,2\r\n1,2,3,\r\n", ",")["count"].to_list() == [3, 2, 4]


def test_rfc_4180_5_a_cell_may_stand_in_quotation_marks_or_not() -> None:
    assert cells('"aaa","bbb","ccc"\r\nzzz,yyy,xxx') == [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]


@pytest.mark.parametrize("line_break", ["\r\n", "\n"])
def test_rfc_4180_6_line_breaks_quotation_marks_and_commas_in_quotation_marks(line_break: str) -> None:
    text = f'"aaa","b{line_break}bb","c,c""c"{line_break}zzz,yyy,xxx'
    assert cells(text) == [["aaa", f"b{line_break}bb", 'c,c"c'], ["zzz", "yyy", "xxx"]]
    assert split_records(text, ",")["row"].to_list() == [1, 2]  # as a spreadsheet counts rows


def test_rfc_4180_7_a_doubled_quotation_mark_is_one() -> None:
    assert cells('"aaa","b""bb","ccc"\r\n"""","",""""""\r\n') == [["aaa", 'b"bb', "ccc"], ['"', "", '""']]


def test_rfc_4180_textdata_holds_no_quotation_mark_by_itself() -> None:
    """Strictly a fault, but it is plain what is meant: the mark is kept, and no other row is touched."""
    assert cells('a,b\r\n5" wide,2\r\n3,4\r\n') == [["a", "b"], ['5" wide', "2"], ["3", "4"]]


@pytest.mark.parametrize("spoilt", ['"open,2', '"shut"then more,2', '1,"open'])
def test_rfc_4180_a_broken_quotation_spoils_its_own_line_only(spoilt: str) -> None:
    records = split_records(f"a,b\r\n1,2\r\n{spoilt}\r\n3,4\r\n5,6\r\n", ",")
    assert records["spoilt"].to_list() == [False, False, True, False, False]
    assert records["row"].to_list() == [1, 2, 3, 4, 5]
    assert records.row(-1)[3:5] == ("5", "6")
