"""The command line: what it prints, in which format, and how it ends when something is wrong."""

import csv
import io
import json
import os
import shutil
import sys
from collections.abc import Callable
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import polars as pl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from salons import BOOKINGS, MENU, load_unchecked, write_export, write_salon

from analytics.catalogue import figure_names, result
from analytics.commands.cli import main
from analytics.output import as_csv, write
from analytics.storage.book import BOOK

DEMO = Path(__file__).resolve().parents[2] / "demo_data"
TODAY = ["--today", "2026-11-24"]
COLUMNS = {  # of the contract, in its order
    "roots": "client_id client kind stylist last_root_on days_since growth_mm_per_day regrowth_mm regrowth_low_mm "
    "regrowth_high_mm ready_from ready_by expected_on expected_low_on expected_high_on chance_of_return state "
    "booked_on may_contact",
    "chairs": "month service_id service kind lines chair_hours hands_on_hours gross net product_cost "
    "net_per_chair_hour net_per_hands_on_hour after_product_per_chair_hour",
    "occupancy": "month chair open_hours occupied_hours occupied_share",
    "bowls": "month product_id product kind bowls mixed_g weighed_mixed_g left_g left_share left_cost colour_lines "
    "colour_lines_logged",
    "mixing": "service_id service bowls used_median_g used_p90_g usual_mix_g advised_mix_g saving_per_month",
    "month": "month figure value unit previous year_ago expected usual_low usual_high",
    "tax": "month tax_rate gross net tax",
    "takings": "month method amount fees",
    "tieout": "month charged_gross tips vouchers_sold taken difference",
}
FIGURES = list(COLUMNS)
OF_THE_HOUR = ["changes", "clientele", "prices", "economics", "hours_of_week", "stylists", "processing", "durations"]
ACCOUNTS = ["file", "table", "rows_read", "rows_used", "repeats", "superseded", "set_aside"]
FINDINGS = ["code", "file", "row", "column", "value", "count", "message", "what_to_do"]

Run = Callable[..., str]


@pytest.fixture
def salon(tmp_path: Path) -> Path:
    """A loaded salon with one visit in March 2026."""
    folder = write_salon(tmp_path / "salon")
    load_unchecked(folder)
    return folder


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A loaded copy of the demo salon."""
    folder = tmp_path_factory.mktemp("demo")
    shutil.copytree(DEMO / "exports", folder / "exports")
    shutil.copy(DEMO / "salon.toml", folder)
    load_unchecked(folder)
    return folder


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command that must succeed; what it prints."""

    def printed(*words: str) -> str:
        assert main(list(words)) == 0
        return capsys.readouterr().out

    return printed


@pytest.fixture
def stops(capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command that must stop with exit status 1, nothing on stdout and one sentence on stderr: that sentence."""

    def said(*words: str) -> str:
        assert main(list(words)) == 1
        printed = capsys.readouterr()
        lines = [line for line in printed.err.splitlines() if line.strip()]
        lines = [line for line in lines if line != "There is no book yet: loading the exports."]
        assert printed.out == "" and len(lines) == 1, printed
        assert lines[0].startswith("salon-figures: ") and lines[0].endswith(".")
        return lines[0]

    return said


def rows_of_csv(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


# Help and usage


def test_without_arguments_it_shows_what_it_can_do(run: Run) -> None:
    text = run()
    assert all(command in text for command in ("load", "check", "demo", "dashboard", *FIGURES))


@pytest.mark.parametrize(
    "words",
    [
        ["nonsense"],
        ["chairs", "--format", "xml"],
        ["chairs", "--colour"],
        ["chairs", "--from", "yesterday"],
        ["chairs", "--to", "2026-02-30"],
        ["chairs", "--today", "24-11-2026"],
        ["roots", "--month", "2026-03"],
        ["load", "extra"],
        ["dashboard", "--port", "first"],
    ],
    ids=" ".join,
)
def test_wrong_usage_ends_with_2_and_says_what_was_wrong(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(words)
    assert ended.value.code == 2
    printed = capsys.readouterr()
    assert printed.out == "" and "error: " in printed.err and "Traceback" not in printed.err


@pytest.mark.parametrize("command", ["load", "check", *FIGURES])
def test_each_command_explains_itself(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main([command, "--help"])
    assert ended.value.code == 0
    assert "--salon" in capsys.readouterr().out


# Input that stops the work


def test_no_folder(tmp_path: Path, stops: Run) -> None:
    assert "nowhere" in stops("load", "--salon", str(tmp_path / "nowhere"))


def test_no_settings(tmp_path: Path, stops: Run) -> None:
    assert "salon.toml" in stops("chairs", "--salon", str(tmp_path))


def test_no_exports_folder(tmp_path: Path, stops: Run) -> None:
    (tmp_path / "salon.toml").write_text('[salon]\nname = "Salon Leeg"\n', encoding="utf-8")
    assert "exports" in stops("load", "--salon", str(tmp_path))
    assert "exports" in stops("chairs", "--salon", str(tmp_path))


@pytest.mark.parametrize("inside", [[], [".hidden.csv"], ["~$menu.xlsx"]])
def test_no_exports_in_the_folder(tmp_path: Path, stops: Run, inside: list[str]) -> None:
    """What a spreadsheet or the system keeps for itself is no export."""
    (tmp_path / "salon.toml").write_text('[salon]\nname = "Salon Leeg"\n', encoding="utf-8")
    (tmp_path / "exports").mkdir()
    for name in inside:
        write_export(tmp_path, name, MENU)
    assert "exports" in stops("load", "--salon", str(tmp_path))


@pytest.mark.parametrize("missing", ["bookings.csv", "menu.csv"])
def test_no_bookings_or_no_menu(salon: Path, stops: Run, missing: str) -> None:
    (salon / "exports" / missing).unlink()
    assert {"bookings.csv": "bookings", "menu.csv": "services"}[missing] in stops("load", "--salon", str(salon))


def test_a_file_that_may_not_be_read(salon: Path, stops: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    before = (salon / BOOK).read_bytes()
    write_export(salon, "locked.csv", BOOKINGS)
    opened = Path.open

    def refused(path: Path, *arguments: str, **named: str) -> object:
        if path.name == "locked.csv":
            raise PermissionError(13, "Permission denied", str(path))
        return opened(path, *arguments, **named)  # type: ignore[arg-type]

    monkeypatch.setattr(Path, "open", refused)
    assert "locked.csv" in stops("load", "--salon", str(salon))
    assert (salon / BOOK).read_bytes() == before


def test_a_missing_required_column(salon: Path, stops: Run) -> None:
    """The sentence names the file, the column and the way to map a heading."""
    before = (salon / BOOK).read_bytes()
    write_export(salon, "payments.csv", "paid_at,method,total\n2026-03-03,cash,5\n")
    sentence = stops("load", "--salon", str(salon))
    assert all(word in sentence for word in ("payments.csv", "amount", "[columns.payments]"))
    assert (salon / BOOK).read_bytes() == before


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ('[salon]\nname = "Salon A"\ncolour = "red"\n', "colour"),
        ('[salon]\nname = "Salon A"\n[colours]\n', "colours"),
        ('[salon]\nname = "Salon A"\n[hours]\nmonday = "09:00-18:00"\n', "monday"),
        ('[salon]\nname = "Salon A"\n[hours]\nmon = "nine to six"\n', "mon"),
        ('[salon]\nname = "Salon A"\n[tax]\ndefault_rate = 210\n', "default_rate"),
        ('[salon]\nname = "Salon A"\n[tax]\nprices = "both"\n', "prices"),
        ('[salon]\nname = "Salon A"\n[columns.bookings]\n"Prijs" = "prise"\n', "prise"),
        ('[salon]\nname = "Salon A"\n[columns.visits]\n"Prijs" = "price"\n', "visits"),
        ('[salon]\nname = "Salon A"\n[roots.perm]\ntouch_up_from_mm = 12\n', "perm"),
        ('[salon]\ncurrency = "EUR"\n', "name"),
        ('[salon]\nname = "Salon A\n', "salon.toml"),
        ("", "salon"),
        ("\ufffe", "salon.toml"),
    ],
)
def test_a_mistake_in_the_settings(salon: Path, stops: Run, text: str, named: str) -> None:
    """One sentence names the file and the key, for a load as for a figure; the book stays."""
    before = (salon / BOOK).read_bytes()
    (salon / "salon.toml").write_bytes(text.encode("utf-16" if text == "\ufffe" else "utf-8"))
    for command in ("load", "chairs"):
        sentence = stops(command, "--salon", str(salon))
        assert "salon.toml" in sentence and named in sentence
    assert (salon / BOOK).read_bytes() == before


@pytest.mark.parametrize("words", [["--month", "2025-01"], ["--from", "2026-04-01"], ["--to", "2026-03-01"]])
def test_a_period_without_data_names_what_the_book_covers(salon: Path, stops: Run, words: list[str]) -> None:
    assert "2026-03" in stops("chairs", "--salon", str(salon), *words)


def test_to_that_is_not_after_from(salon: Path, stops: Run) -> None:
    for end in ("2026-03-01", "2026-03-10"):
        assert end in stops("chairs", "--salon", str(salon), "--from", "2026-03-10", "--to", end)


@pytest.mark.parametrize("month", ["2026-13", "2026-3", "March", "0000-01", "٢٠٢٦-٠٣", "２０２６-03", "9999-12"])
def test_a_month_that_is_none_is_said_to_be(salon: Path, month: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Whether it counts as usage (2) or as input (1), it is no traceback."""
    try:
        status = main(["chairs", "--salon", str(salon), "--month", month])
    except SystemExit as ended:
        status = int(ended.code or 0)
    assert status in (1, 2)
    assert "month" in capsys.readouterr().err or month == "9999-12"


def test_a_month_and_a_span_exclude_each_other(salon: Path, capsys: pytest.CaptureFixture[str]) -> None:
    try:
        status = main(["chairs", "--salon", str(salon), "--month", "2026-03", "--from", "2026-03-01"])
    except SystemExit as ended:
        status = int(ended.code or 0)
    assert status in (1, 2)
    assert "--month" in capsys.readouterr().err


@pytest.mark.parametrize("today", ["1900-01-01", "2199-12-31"])
@pytest.mark.parametrize("figure", [*FIGURES, *OF_THE_HOUR])
def test_any_day_may_be_today(salon: Path, run: Run, figure: str, today: str) -> None:
    run(figure, "--salon", str(salon), "--today", today)


# The book and the exports


def test_a_figure_loads_where_there_is_no_book_yet(tmp_path: Path, run: Run) -> None:
    salon = write_salon(tmp_path)
    assert "Root touch-up" in run("chairs", "--salon", str(salon))
    assert (salon / BOOK).exists()


def test_exports_that_changed_are_said_to_have(salon: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["chairs", "--salon", str(salon)]) == 0
    assert capsys.readouterr().err == ""
    write_export(salon, "later.csv", BOOKINGS)
    assert main(["chairs", "--salon", str(salon)]) == 0
    assert "have changed" in capsys.readouterr().err


@pytest.mark.parametrize("name", ["week #2.csv", "notes.pdf", "empty.csv", "sub/folder/x.csv", "é 😀.csv"])
def test_exports_that_did_not_change_are_not_said_to_have(
    salon: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whatever a file is called, and also where nothing in it could be used."""
    write_export(salon, name, "" if name == "empty.csv" else BOOKINGS)
    load_unchecked(salon)
    assert main(["chairs", "--salon", str(salon)]) == 0
    assert capsys.readouterr().err == ""


def test_it_works_on_the_current_folder_by_default(salon: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(salon)
    assert "Root touch-up" in run("chairs")


def test_nothing_in_exports_is_rewritten_by_loading(salon: Path) -> None:
    before = {path.name: (path.read_bytes(), path.stat().st_mtime_ns) for path in (salon / "exports").iterdir()}
    load_unchecked(salon)
    assert before == {path.name: (path.read_bytes(), path.stat().st_mtime_ns) for path in (salon / "exports").iterdir()}


# Formats


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
    assert "No rows." not in run(*words, "table")


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
    assert {row["month"] for row in rows_of_csv(run("tieout", *words, "--from", "2026-05-20"))} > {"2026-05", "2026-06"}


def test_a_terminal_shows_the_columns_it_has_room_for_and_says_how_many_more_there_are(demo: Path, run: Run) -> None:
    shown = run("stock", "--salon", str(demo), *TODAY)
    wide, narrow = result("stock").columns, result("stock").for_people
    assert "unexplained packs" in shown and "opening value" not in shown
    assert f"{len(wide) - len(narrow)} more columns with --format csv" in shown


def test_every_column_for_people_is_one_of_the_result() -> None:
    assert all(set(result(name).for_people) <= set(result(name).columns) for name in figure_names())


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


@pytest.mark.parametrize("figure", [*FIGURES, *OF_THE_HOUR])
def test_no_figure_of_the_demo_holds_what_is_no_number(demo: Path, run: Run, figure: str) -> None:
    text = run(figure, "--salon", str(demo), *TODAY, "--format", "json")
    json.loads(text, parse_constant=pytest.fail)


@pytest.mark.parametrize("words", [["--month", "2026-02"], ["--from", "2026-02-10", "--to", "2026-03-05"]])
def test_changes_and_clients_of_the_demo_add_up_to_the_difference_of_its_months(
    demo: Path, run: Run, words: list[str]
) -> None:
    """February whole, and 10–28 February and 1–4 March against the same days of the month and the year before; a whole
    one against what was to be expected, too. What the clients brought or took is the volume of the services."""
    asked = ["--salon", str(demo), *TODAY, *words, "--format", "csv"]
    month = [row for row in rows_of_csv(run("month", *asked)) if row["figure"] == "net_revenue"]
    changes, clientele = (rows_of_csv(run(figure, *asked)) for figure in ("changes", "clientele"))
    whole = words[0] == "--month"
    for row in month:
        for other in ("previous", "year_ago", *(["expected"] if whole else [])):
            those = [[one for one in rows if (one["month"], one["compared_with"]) == (row["month"], other)]
                     for rows in (changes, clientele)]  # fmt: skip
            gap = sum(Decimal(one["change"]) for one in those[0]) - (Decimal(row["value"]) - Decimal(row[other]))
            assert abs(gap) <= (Decimal("0.005") if other == "expected" else 0)
            volume = sum(Decimal(one["volume_effect"]) for one in those[0] if one["kind"] != "retail")
            assert sum(Decimal(one["effect"]) for one in those[1] if one["number"]) == volume
            assert {Decimal(one["net_change"]) for one in those[1]} == {sum(Decimal(one["change"]) for one in those[0])}
    assert {row["compared_with"] for row in changes} == {"previous", "year_ago"} | ({"expected"} if whole else set())


# An empty salon


@pytest.fixture(scope="module")
def empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Headings and nothing below them."""
    folder = write_salon(
        tmp_path_factory.mktemp("empty"),
        {"bookings.csv": BOOKINGS, "menu.csv": MENU.splitlines()[0], "payments.csv": "paid_at,method,amount\n"},
    )
    load_unchecked(folder)
    return folder


@pytest.mark.parametrize("figure", [*FIGURES, *OF_THE_HOUR])
def test_an_empty_salon_has_empty_figures(empty: Path, run: Run, figure: str) -> None:
    words = [figure, "--salon", str(empty), *TODAY, "--format"]
    assert rows_of_csv(run(*words, "csv")) == [] == json.loads(run(*words, "json"))
    assert run(*words, "table").strip()


def test_a_month_of_an_empty_salon_is_said_to_be_empty(empty: Path, stops: Run) -> None:
    assert "no visits" in stops("chairs", "--salon", str(empty), "--month", "2026-03")


def test_nothing_wrong_is_said_in_words(empty: Path, run: Run) -> None:
    assert "Nothing was found wrong" in run("check", "--salon", str(empty))


def test_a_cut_month_is_said_to_be_one(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["tax", "--salon", str(demo), "--today", "2026-11-01", "--from", "2026-01-01"]
    assert main([*words, "--to", "2026-03-15"]) == 0
    assert "Part-months" in (said := capsys.readouterr().err) and "2026-03" in said and "2026-02" not in said
    assert main([*words, "--to", "2026-03-01"]) == 0
    assert "Part-months" not in capsys.readouterr().err
