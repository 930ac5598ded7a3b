"""What commands print: CSV, JSON and tables that hold any text."""

import csv
import io
import json
import os
import sys
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path

import polars as pl
import pytest
from command_line import Run, rows_of_csv
from hypothesis import given, settings
from hypothesis import strategies as st
from salons import load_unchecked, write_salon

from analytics.commands.cli import main
from analytics.output import as_csv, write


def test_csv_is_as_rfc_4180_says() -> None:
    """CR LF, quotes doubled, dates as ISO 8601, a dot as decimal sign, empty for no value, numbers untouched."""
    frame = pl.DataFrame(
        {
            "text": ['says "so"', "a,b", "a\r\nb", None],
            "day": [date(2026, 3, 3), None, None, None],
            "moment": [datetime(2026, 3, 3, 9, 30), None, None, None],
            "money": [Decimal("-84.50"), Decimal("0.00"), Decimal("1234567.10"), None],
            "share": [0.5, -0.25, 1e-9, None],
            "count": [-3, 0, 12, None],
            "flag": [True, False, None, None],
        }
    )
    assert as_csv(frame) == (
        "text,day,moment,money,share,count,flag\r\n"
        '"says ""so""",2026-03-03,2026-03-03 09:30:00,-84.50,0.5,-3,yes\r\n'
        '"a,b",,,0.00,-0.25,0,no\r\n'
        '"a\r\nb",,,1234567.10,0,12,\r\n'
        ",,,,,,\r\n"
    )


@pytest.mark.parametrize("value", [-1e-9, -0.0, -0.0000004])
def test_almost_nothing_is_not_written_as_minus_nothing(value: float) -> None:
    assert as_csv(pl.DataFrame({"share": [value]})) == "share\r\n0\r\n"


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", "\n", " =", "\u00a0@"])
def test_a_text_never_starts_a_formula(start: str) -> None:
    text = f'{start}HYPERLINK("http://example.org")'
    rows = rows_of_csv(as_csv(pl.DataFrame({"client": [text], "share": [-1.5]})))
    assert rows == [{"client": f"'{text}", "share": "-1.5"}]


@settings(max_examples=50, deadline=None)
@given(st.lists(st.lists(st.text(st.characters(codec="utf-8", exclude_characters="\0"))), min_size=1))
def test_any_text_can_be_read_back(rows: list[list[str]]) -> None:
    """What stands in a csv is what stood in the cell, but for the sign that keeps a formula from starting."""
    width = max(len(row) for row in rows) or 1
    cells = [row + ["x"] * (width - len(row)) for row in rows]
    frame = pl.DataFrame({f"column {number}": [row[number] for row in cells] for number in range(width)})
    back = list(csv.reader(io.StringIO(as_csv(frame), newline=""), strict=True))[1:]
    unmarked = [[cell[1:] if cell != typed else cell for cell, typed in zip(*pair, strict=True)]
                for pair in zip(back, cells, strict=True)]  # fmt: skip
    assert unmarked == cells


def test_a_name_out_of_an_export_cannot_start_a_formula(tmp_path: Path, run: Run) -> None:
    name = '=HYPERLINK("http://example.org";"Ilse")'
    clients = "client_id,client\nC1," + '"' + name.replace('"', '""') + '"\n'
    salon = write_salon(tmp_path, {"clients.csv": clients})
    load_unchecked(salon)
    words = ["roots", "--salon", str(salon), "--today", "2026-04-01", "--format"]
    assert rows_of_csv(run(*words, "csv"))[0]["client"] == f"'{name}"
    assert json.loads(run(*words, "json"))[0]["client"] == name


@pytest.mark.parametrize(("encoding", "ends"), [("utf-8", "\n"), ("cp1252", "\r\n")])
@pytest.mark.parametrize("style", ["csv", "json"])
def test_output_is_utf_8_whatever_the_system_would_write(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, style: str, encoding: str, ends: str
) -> None:
    """A system whose own letters lack some of a name, and whose lines end in CR LF."""
    salon = write_salon(tmp_path, {"clients.csv": "client_id,client\nC1,Łucja Ķēniņa 李\n"})
    load_unchecked(salon)
    written = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(written, encoding=encoding, newline=ends))
    assert main(["roots", "--salon", str(salon), "--today", "2026-04-01", "--format", style]) == 0
    sys.stdout.flush()
    text = written.getvalue().decode("utf-8")
    assert "Łucja Ķēniņa 李" in text and "\r\r" not in text
    assert style != "csv" or text.count("\r\n") == text.count("\n") == 2


def test_a_table_prints_on_any_terminal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    salon = write_salon(tmp_path, {"clients.csv": "client_id,client\nC1,Łucja [bold]Ķēniņa[/] 李\n"})
    load_unchecked(salon)
    written = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(written, encoding="cp1252", newline=os.linesep))
    assert main(["roots", "--salon", str(salon), "--today", "2026-04-01"]) == 0


def test_a_name_with_markup_is_printed_as_it_stands(tmp_path: Path, run: Run) -> None:
    salon = write_salon(tmp_path, {"clients.csv": "client_id,client\nC1,[b]I[/]\n"})
    load_unchecked(salon)
    assert "[b]I[/]" in run("roots", "--salon", str(salon), "--today", "2026-04-01")


def test_no_value_is_null_in_json_and_never_nan(capsys: pytest.CaptureFixture[str]) -> None:
    frame = pl.DataFrame({"share": [None, 0.5], "money": [Decimal("0.10"), None], "day": [date(2026, 3, 3), None]})
    write(frame, "json")
    assert json.loads(capsys.readouterr().out, parse_constant=pytest.fail) == [
        {"share": None, "money": 0.1, "day": "2026-03-03"},
        {"share": 0.5, "money": None, "day": None},
    ]
