"""What salon.toml says a file is: which rule holds for which name, and that load, try and check obey it."""

import io
import zipfile
from decimal import Decimal
from pathlib import Path

import polars as pl
import pytest
import xlsxwriter
from salons import SETTINGS, load_unchecked, write_export, write_salon

from analytics.commands.cli import main
from analytics.commands.corrections import write_corrections
from analytics.intake.meaning.table_rules import idle_rules, leaves_out_file, named_like, told_table
from analytics.settings import Settings, parse_settings
from analytics.stops import WorkStopped
from analytics.storage.book import read_book
from analytics.storage.keeping import Chosen, keep_choices

DESK = """date,product,quantity,price,method,amount
2026-03-03,Mask,1,12.50,card,12.50
2026-03-04,Mask,2,12.50,cash,25.00
"""


def rules(**tables: str) -> Settings:
    return parse_settings(SETTINGS).model_copy(update={"tables": tables})


def ruled(lines: str) -> str:
    return f"{SETTINGS}\n[tables]\n{lines}\n"


def tables_of(folder: Path) -> dict[str, tuple[str, int, int]]:
    """Of each file its table, rows read and rows used."""
    files = load_unchecked(folder).files.select("file", "table", "rows_read", "rows_used")
    return {file: (table, read, used) for file, table, read, used in files.iter_rows()}


@pytest.mark.parametrize(
    ("rule", "name", "holds"),
    [
        ("desk.csv", "desk.csv", True),
        ("Desk.CSV", "desk.csv", True),
        ("desk.csv", "2026/desk.csv", True),
        ("desk.csv", "week 21.zip/in/desk.csv", True),
        ("2026/desk.csv", "2026/desk.csv", True),
        ("2025/desk.csv", "2026/desk.csv", False),
        ("week *.zip/*", "week 21.zip/in/desk.csv", True),
        ("desk.csv", "old desk.csv", False),
        ("desk*.csv", "desk_2026_03.csv", True),
        ("desk*.csv", "desk_2026_03.csv.txt", False),
        ("desk [1]?.csv", "desk [1]?.csv", True),
        ("desk [1]?.csv", "desk 12.csv", False),
        ("u\u0308ber.csv", "\u00fcber.csv", True),
        ("book.xlsx", "book.xlsx#Tips", True),
        ("book.xlsx#tips", "in/book.xlsx#Tips", True),
        ("book*.xlsx#Tips", "book 3.xlsx#Tips", True),
        ("book.xlsx#Tips", "book.xlsx", False),
        ("desk", "desk #3.csv", False),
    ],
)
def test_for_whom_a_rule_holds(rule: str, name: str, holds: bool) -> None:
    said = rules(**{rule: "payments"})
    assert told_table(name, said) == ("payments" if holds else None)
    assert idle_rules([name], said) == ([] if holds else [rule])


def test_the_rule_that_says_most_decides() -> None:
    said = rules(**{"desk*.csv": "sales", "desk_2026*.csv": "payments", "desk_2026_04.csv": "bookings", "*": ""})
    names = ("desk.csv", "desk_2026_03.csv", "desk_2026_04.csv", "other.csv")
    assert [told_table(name, said) for name in names] == ["sales", "payments", "bookings", ""]
    assert told_table("desk.csv", rules(**{"desk*.csv": "sales", "desk.csv": "payments"})) == "payments"
    of_sheets = rules(**{"a long name.xlsx": "", "*#Tips": "payments"})
    assert told_table("a long name.xlsx#Tips", of_sheets) == "payments"
    assert not leaves_out_file("a long name.xlsx", of_sheets)
    assert leaves_out_file("a long name.xlsx", rules(**{"a long name.xlsx": "", "b.xlsx#Tips": "payments"}))


@pytest.mark.parametrize(
    ("name", "like"),
    [
        ("bookings_2026_01.csv", "bookings*.csv"),
        ("week 21.zip/in/desk 2026-03.csv", "desk*.csv"),
        ("bookings week 21 -1-.csv", "bookings week*.csv"),
        ("01-2026 desk.csv", "*desk.csv"),
        ("sales_2026-Q1.csv", "sales*Q*.csv"),
        ("desk.csv", "desk*.csv"),
        ("desk-2.csv", "desk*.csv"),
        ("book 3.xlsx#Tips 2026", "book*.xlsx#Tips 2026"),
        ("2026-03.csv", "2026-03.csv"),
    ],
)
def test_a_rule_for_names_like_it(name: str, like: str) -> None:
    assert named_like(name) == like
    assert told_table(name, rules(**{like: "sales"})) == "sales"


def test_a_table_that_is_none_is_a_sentence() -> None:
    with pytest.raises(WorkStopped) as stop:
        parse_settings(ruled('"desk*.csv" = "takings"'))
    said = str(stop.value)
    assert (
        "[tables] 'desk*.csv' = 'takings' is not a table; the tables are services, " in said and said.count("\n") == 0
    )


def test_loading_obeys(tmp_path: Path) -> None:
    salon = write_salon(tmp_path, {"desk_2026_03.csv": DESK})
    assert tables_of(salon)["desk_2026_03.csv"] == ("sales", 2, 2)
    (salon / "salon.toml").write_text(ruled('"desk_*.csv" = "payments"\n"disk.csv" = "sales"'), "utf-8")
    assert tables_of(salon)["desk_2026_03.csv"] == ("payments", 2, 2)
    book = read_book(salon)
    assert book.tables["payments"]["amount"].to_list() == [Decimal("12.5"), 25]
    (idle,) = book.findings.filter(code="idle_rule").iter_rows(named=True)
    assert 'No export is called "disk.csv"' in idle["message"] and idle["file"] == "salon.toml"


def test_what_the_table_needs_is_asked_for(tmp_path: Path) -> None:
    for content in (DESK.replace(",amount", ",kasboek"), "wann;was\nx;y\n"):
        salon = write_salon(tmp_path, {"desk.csv": content}, ruled('"desk.csv" = "payments"'))
        with pytest.raises(WorkStopped, match=r"desk\.csv.*amount"):
            load_unchecked(salon)


def workbook(sheets: dict[str, str]) -> bytes:
    made = io.BytesIO()
    with xlsxwriter.Workbook(made, {"in_memory": True}) as book:
        for title, content in sheets.items():
            sheet = book.add_worksheet(title)
            for row, line in enumerate(content.splitlines()):
                sheet.write_row(row, 0, line.split(","))
    return made.getvalue()


def test_sheets_archives_and_what_is_left_out(tmp_path: Path) -> None:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as into:
        into.writestr("in/desk.csv", DESK)
        into.writestr("in/notes.csv", "a,b\n1,2\n")
    exports = {
        "week 21.zip": packed.getvalue(),
        "book.xlsx": workbook({"One": DESK, "Two": DESK.replace("03-0", "04-0"), "Jotted": "a,b\n1,2\n"}),
        "broken.xlsx": b"PK\x03\x04 and then rubbish",
        "picture.png": b"\x89PNG",
    }
    lines = ("desk.csv", "payments"), ("notes.csv", ""), ("book*.xlsx#two", "payments"), ("*#Jotted", "")
    text = "\n".join(f'"{rule}" = "{table}"' for rule, table in (*lines, ("broken.xlsx", ""), ("*.png", "")))
    salon = write_salon(tmp_path, exports, ruled(text))
    found = tables_of(salon)
    assert {name: found[name] for name in found if name not in ("menu.csv", "bookings.csv")} == {
        "week 21.zip/in/desk.csv": ("payments", 2, 2),
        "week 21.zip/in/notes.csv": ("", 0, 0),
        "book.xlsx#One": ("sales", 2, 2),
        "book.xlsx#Two": ("payments", 2, 2),
        "book.xlsx#Jotted": ("", 0, 0),
        "broken.xlsx": ("", 0, 0),
        "picture.png": ("", 0, 0),
    }
    said = read_book(salon).findings.filter(pl.col("code") != "heading_not_used")
    assert said["code"].to_list() == ["left_out"] * 4 and read_book(salon).set_aside.is_empty()


def test_corrected_rows_are_read_as_the_file_they_correct(tmp_path: Path) -> None:
    wrong = DESK.replace("25.00\n", "much\n")
    salon = write_salon(tmp_path, {"2026/desk.csv": wrong}, ruled('"desk.csv" = "payments"'))
    load_unchecked(salon)
    (path,) = write_corrections(read_book(salon), tmp_path / "to-correct")
    write_export(salon, "by hand.csv", path.read_text("utf-8").replace("much", "25.00"))
    assert tables_of(salon)["by hand.csv"] == ("payments", 1, 1)


def test_the_command_says_by_which_rule(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    salon = write_salon(tmp_path / "salon", settings=ruled('"desk*.csv" = "payments"\n"notes*" = ""'))
    for name, content in (("desk 3.csv", DESK), ("notes.csv", "a,b\n1,2\n")):
        (tmp_path / name).write_text(content, "utf-8")
    assert main(["try", str(tmp_path / "desk 3.csv"), "--salon", str(salon)]) == 0
    said = capsys.readouterr().out
    assert "desk 3.csv is read as payments, as 'desk*.csv' under [tables] in salon.toml says; " in said
    assert main(["try", str(tmp_path / "notes.csv"), "--salon", str(salon)]) == 1
    assert "notes.csv is left out, as 'notes*' under [tables]" in capsys.readouterr().err


def test_an_export_is_looked_at_where_it_lies(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    salon = write_salon(tmp_path, {"2026/desk.csv": DESK})
    assert main(["try", str(salon / "exports" / "2026" / "desk.csv"), "--salon", str(salon)]) == 0
    assert "2026/desk.csv was taken for sales" in (said := capsys.readouterr().out) and "2 rows would be used" in said


def test_a_heading_known_by_word_can_be_left_out_and_taken_back(tmp_path: Path) -> None:
    before = '[salon]\nname = "S" # ours\n\n[columns.sales]\n# why\n"Wie" = "client_id"\n'
    salon = write_salon(tmp_path, {"desk.csv": DESK.replace("quantity,price", "quantity,discount,price")}, before)
    keep_choices(salon, Chosen({"desk*.csv": "sales"}, {"sales": {"product ": "", "Wie": None}}))
    text = (salon / "salon.toml").read_text("utf-8")
    assert text.startswith('[salon]\nname = "S" # ours\n\n[columns.sales]\n# why\n')
    assert parse_settings(text).columns == {"sales": {"product": ""}}
    assert parse_settings(text).tables == {"desk*.csv": "sales"}
    keep_choices(salon, Chosen({"DESK*.csv": None}, {"sales": {"Product": None}}))
    assert (parsed := parse_settings((salon / "salon.toml").read_text("utf-8"))).tables == {}
    assert parsed.columns == {"sales": {}}
