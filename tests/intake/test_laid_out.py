"""Sheets as people lay them out, each with what its records become."""

import polars as pl
import pytest

from analytics.intake.reading.quoting import as_rfc_4180
from analytics.intake.reading.split import split_records
from analytics.intake.shapes.day_numbers import month_named, with_whole_days
from analytics.intake.shapes.grid import grid_of_takings
from analytics.intake.shapes.notes import notes_into_rows, read_note
from analytics.intake.shapes.sections import lines_into_column
from analytics.intake.shapes.side_by_side import into_rows
from analytics.intake.shapes.stacked import taken_apart
from analytics.intake.shapes.two_names import names_together

DIARY = "Date,Time,Client,Price\n1/2/2026,9:00,Una,20\n1/2/2026,9:30,Bo,30\n"


def cells(records: pl.DataFrame) -> list[tuple[object, ...]]:
    """The row of each record and its cells."""
    return records.drop("count", "spoilt").rows()


def test_a_line_above_becomes_a_column_of_the_rows_below_it() -> None:
    text = "Time,Client,Price\nAnna,,\n9:00,Una,20\n9:30,Bo,30\nBea,,\n9:00,Cy,40\n"
    assert cells(lines_into_column(split_records(text, ","))) == [
        (1, "Time", "Client", "Price", "(the line above)"),
        (3, "9:00", "Una", "20", "Anna"),
        (4, "9:30", "Bo", "30", "Anna"),
        (6, "9:00", "Cy", "40", "Bea"),
    ]


def test_a_remark_among_rows_is_no_such_line() -> None:
    records = split_records(DIARY + "closed for the day,,,\n2/2/2026,9:00,Una,20\n", ",")
    assert lines_into_column(records).equals(records)


def test_tables_one_below_the_other_are_taken_apart() -> None:
    text = DIARY + "\nOur prices\nService,Price\nCut,20\nColour,30\n"
    first, second = taken_apart(split_records(text, ","))
    assert cells(first)[-1][0] == 3
    assert [row[:3] for row in cells(second)] == [
        (5, "Our prices", ""),
        (6, "Service", "Price"),
        (7, "Cut", "20"),
        (8, "Colour", "30"),
    ]


def test_a_blank_line_among_rows_parts_nothing() -> None:
    records = split_records(DIARY + "\n2/2/2026,9:00,Una,20\n3/2/2026,9:00,Bo,20\n", ",")
    (same,) = taken_apart(records)
    assert cells(same) == cells(records)


@pytest.mark.parametrize(
    ("heading", "row"),
    [
        ("Date,Time,Client", "2/2/2026,9:00,Una"),
        ("Date,Time,Client,Price,Tip", "2/2/2026,9:00,Una,20,1"),
        ("Date,Amount,Method", "2/2/2026,20,card"),
    ],
)
def test_another_heading_right_below_rows_begins_a_further_table(heading: str, row: str) -> None:
    first, second = taken_apart(split_records(f"{DIARY}{heading}\n{row}\n{row}\n", ","))
    assert [cells(first)[-1][0], cells(second)[0][0]] == [3, 4]
    assert second.row(0)[1] == len(heading.split(","))


@pytest.mark.parametrize("row", ["Date,Time,Client,Price", "Date,Time,9:00,20", "Date,Time,Una,Bo", "Date,Time,,"])
def test_the_heading_again_or_a_row_with_words_of_one_parts_nothing(row: str) -> None:
    assert len(taken_apart(split_records(f"{DIARY}{row}\n2/2/2026,9:00,Una,20\n", ","))) == 1


def test_a_table_that_stands_twice_in_a_sheet_is_taken_apart_so_that_its_rows_are_repeats() -> None:
    rows = "".join(f"{day}/2/2026,9:00,Una,20\n" for day in range(1, 8))
    first, second = taken_apart(split_records(f"{DIARY}{rows}{DIARY}{rows}", ","))
    assert first.height == second.height == 10
    later = "".join(f"{day}/3/2026,9:00,Una,20\n" for day in range(1, 8))
    assert len(taken_apart(split_records(f"{DIARY}{rows}Date,Time,Client,Price\n{later}", ","))) == 1


@pytest.mark.parametrize("heading", ["Date,Service 1,Price 1,Service 2,Price 2", "Date,Service,Price,Service,Price"])
def test_services_side_by_side_become_rows(heading: str) -> None:
    text = heading + "\n1/2/2026,Cut,20,Colour,60\n2/2/2026,Cut,20,,\n"
    rows = cells(into_rows(split_records(text, ",")))
    assert [row[0] for row in rows] == [1, 2, 2, 3]
    assert [row[1:] for row in rows][1:] == [
        ("1/2/2026", "Cut", "20"),
        ("1/2/2026", "Colour", "60"),
        ("2/2/2026", "Cut", "20"),
    ]


def test_a_grid_of_takings_becomes_payments() -> None:
    text = "Jour,Espèces,Carte\n01/02/2026,10,20\n02/02/2026,,30\n"
    assert cells(grid_of_takings(split_records(text, ","))) == [
        (1, "Jour", "method", "amount"),
        (2, "01/02/2026", "Espèces", "10"),
        (2, "01/02/2026", "Carte", "20"),
        (3, "02/02/2026", "Carte", "30"),
    ]


def test_day_numbers_are_days_of_the_month_in_the_name() -> None:
    records = split_records("Tag,Zeit,Kundin\n5,9:00,Una\n5,10:00,Bo\n12,9:00,Cy\n", ",")
    assert with_whole_days("Termine.xlsx#Mai 2026", records)["c0"].to_list() == [
        "Tag",
        "2026-05-05",
        "2026-05-05",
        "2026-05-12",
    ]
    assert with_whole_days("Termine.csv", records).equals(records)


@pytest.mark.parametrize(
    ("name", "month"),
    [
        ("a.xlsx#mei 2026", "2026-05"),
        ("agenda 2026.xlsx#juni", "2026-06"),
        ("2026-07.csv", "2026-07"),
        ("mei.csv", None),
    ],
)
def test_month_named(name: str, month: str | None) -> None:
    assert month_named(name) == month


def test_a_note_is_read_as_a_bowl() -> None:
    """40 + 60 g, 12.5 g left: shared as 40 to 60, 5 and 7.5 g."""
    assert read_note("40 g 6.0 + 60 g 6 %, left 12,5 g") == [("6.0", "40", "5"), ("6 %", "60", "7.5")]
    assert read_note("30 g Shade 7.1 + 45 g Developer") == [("Shade 7.1", "30", ""), ("Developer", "45", "")]
    assert read_note("as last time") is None
    assert read_note("40 g 6.0, left 50 g") is None


def test_notes_become_rows_and_one_that_is_none_stays() -> None:
    notes = "".join(f"V{number};40 g 6.0 + 60 g 6 %, left 10\n" for number in range(1, 21)) + "V21;as last time\n"
    rows = cells(notes_into_rows(split_records("Visit;Recipe\n" + notes, ";")))
    assert rows[0][1:] == ("Visit", "product", "mixed_g", "left_g")
    assert rows[1:3] == [(2, "V1", "6.0", "40", "4"), (2, "V1", "6 %", "60", "6")]
    assert rows[-1] == (22, "V21", "as last time", "", "")


def test_two_halves_of_a_name_are_one_client() -> None:
    rows = cells(names_together(split_records("Date,First name,Surname\n1/2/2026,Una,Vale\n2/2/2026,Bo,Proef\n", ",")))
    assert [row[-1] for row in rows] == ["First name + Surname", "Una Vale", "Bo Proef"]


HEADED = [["Date", "Client", "Price"], ["1/2/2026", "Vale, Una", "20"], ["2/2/2026", "Proef, Bo", "30"]]


@pytest.mark.parametrize(
    "lines",
    [
        [",".join(f"'{cell}'" for cell in row) for row in HEADED],
        [", ".join(f'"{cell}"' for cell in row) for row in HEADED],
        [",".join(cell.replace(",", "\\,") for cell in row) for row in [*HEADED, *HEADED[1:]]][:4],
        ["".join(cell.ljust(14) for cell in row) for row in HEADED],
    ],
    ids=["apostrophes", "blank behind the comma", "backslashes", "columns by blanks"],
)
def test_ways_of_setting_cells_off(lines: list[str]) -> None:
    text = as_rfc_4180("\n".join(lines) + "\n")
    delimiter = "\t" if "\t" in text else ","
    assert [row[1:] for row in cells(split_records(text, delimiter))][:3] == [tuple(row) for row in HEADED]


def test_an_apostrophe_within_a_cell_set_off_by_them_stays() -> None:
    text = "'Date','Client','Price'\n'1/2/2026','Vale, d'Una','20'\n'2/2/2026','O''Proef',30\n"
    rows = cells(split_records(as_rfc_4180(text), ","))
    assert [row[1:] for row in rows[1:]] == [("1/2/2026", "Vale, d'Una", "20"), ("2/2/2026", "O'Proef", "30")]


@pytest.mark.parametrize(
    "text", [DIARY, "a,b\n'tis,1\n2,3\n4,5\n", 'a,b\n"x, ""y""",1\n2,3\n', "one\ntwo words\nthree\n"]
)
def test_text_that_is_as_it_should_be_stays(text: str) -> None:
    assert as_rfc_4180(text) == text
