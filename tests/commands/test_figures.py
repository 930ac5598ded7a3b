"""Figures as commands: their columns, formats and months, on the demo and on an empty salon."""

import json
from pathlib import Path
from typing import Any

import pytest
from command_line import COLUMNS, TODAY, Run, rows_of_csv
from salons import write_salon

from analytics import catalogue
from analytics.catalogue import figure_names, result

ACCOUNTS = ["file", "table", "rows_read", "rows_used", "repeats", "superseded", "set_aside"]


FINDINGS = ["code", "file", "row", "column", "value", "count", "message", "what_to_do"]


@pytest.mark.parametrize("figure", COLUMNS)
def test_every_figure_of_the_demo_in_every_format(demo: Path, run: Run, figure: str) -> None:
    """The contract's columns stand in their order; csv and json hold the same rows and values."""
    words = [figure, "--salon", str(demo), *TODAY, "--format"]
    as_rows = rows_of_csv(run(*words, "csv"))
    objects = json.loads(run(*words, "json"))
    assert [name for name in as_rows[0] if name in COLUMNS[figure].split()] == COLUMNS[figure].split()
    assert list(objects[0]) == list(as_rows[0])
    assert len(objects) == len(as_rows) > 0
    for row, values in zip(as_rows, objects, strict=True):
        assert [name for name in row if not same(row[name], values[name])] == []
    october = ["--month", "2026-10"] if catalogue.figure(figure).takes("period") else []  # thousands of rows: seconds
    assert "No rows." not in run(*words, "table", *october)


@pytest.mark.parametrize("figure", ["roots", "chairs", "occupancy", "bowls", "mixing", "month", "tax", "takings"])
def test_the_columns_of_the_contract_come_first(demo: Path, run: Run, figure: str) -> None:
    header = run(figure, "--salon", str(demo), *TODAY, "--format", "csv").splitlines()[0].split(",")
    assert header[: len(COLUMNS[figure].split())] == COLUMNS[figure].split()


def same(printed: str, value: Any) -> bool:
    """A cell of the csv against a value of the json."""
    if value is None:
        return printed == ""
    if isinstance(value, bool):
        return printed == ("yes" if value else "no")
    if isinstance(value, (int, float)):
        return abs(float(printed) - value) < 1e-6
    return printed == value


def test_loading_and_checking_print_the_columns_of_the_contract(run: Run, tmp_path: Path) -> None:
    salon = write_salon(tmp_path, {"clients.csv": "client_id\nC1\n", "notes.pdf": "x"})
    objects = json.loads(run("load", "--salon", str(salon), "--format", "json"))
    assert [list(row) for row in objects] == [ACCOUNTS] * 4
    found = rows_of_csv(run("check", "--salon", str(salon), "--format", "csv"))
    assert [list(row)[: len(FINDINGS)] for row in found] == [FINDINGS]
    assert found[0]["file"] == "notes.pdf"
    assert "notes.pdf" in run("check", "--salon", str(salon))


def test_a_month_narrows_a_figure(demo: Path, run: Run) -> None:
    words = ["--salon", str(demo), *TODAY, "--format", "csv"]
    month = run("chairs", *words, "--month", "2026-02")
    assert {row["month"] for row in rows_of_csv(month)} == {"2026-02"}
    assert month == run("chairs", *words, "--from", "2026-02-01", "--to", "2026-03-01")
    assert {row["month"] for row in rows_of_csv(run("reconciliation", *words, "--from", "2026-05-20"))} > {
        "2026-05",
        "2026-06",
    }


def test_a_terminal_shows_the_columns_it_has_room_for_and_says_how_many_more_there_are(demo: Path, run: Run) -> None:
    shown = run("stock", "--salon", str(demo), *TODAY)
    wide, narrow = result("stock").columns, result("stock").for_people
    assert "unexplained packs" in shown and "opening value" not in shown
    assert f"{len(wide) - len(narrow)} more columns with --format csv" in shown


def test_every_column_for_people_is_one_of_the_result() -> None:
    assert all(set(result(name).for_people) <= set(result(name).columns) for name in figure_names())
