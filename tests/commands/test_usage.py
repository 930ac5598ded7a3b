"""Commands as they are asked: usage, what stops them, what they load."""

import sys
from pathlib import Path

import pytest
from command_line import FIGURES, OF_THE_HOUR, Run
from salons import BOOKINGS, MENU, load_unchecked, write_export, write_salon

from analytics.commands.cli import main
from analytics.storage.book import BOOK


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
        ["dashboard", "--port", "99999"],
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


def test_no_bookings(salon: Path, stops: Run) -> None:
    (salon / "exports" / "bookings.csv").unlink()
    assert "bookings" in stops("load", "--salon", str(salon))


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
    write_export(salon, "more.csv", BOOKINGS.replace("price", "due"))
    sentence = stops("load", "--salon", str(salon))
    assert all(word in sentence for word in ("more.csv", "price", "[columns.bookings]"))
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
        ('[salon]\nname = "Salon A"\n[files]\nencoding = "uu"\n', "encoding 'uu'"),
        ('[salon]\nname = "Salon A"\n[files]\nencoding = "none such"\n', "encoding 'none such'"),
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


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no such device here")
def test_an_answer_that_finds_no_room_is_one_sentence(
    salon: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        monkeypatch.setattr(sys, "stdout", full)
        assert main(["chairs", "--salon", str(salon)]) == 1
    said = capsys.readouterr().err.splitlines()[-1]
    assert said.startswith("salon-figures: the answer cannot be written (No space left on device)")


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


def test_a_figure_loads_where_there_is_no_book_yet(tmp_path: Path, run: Run) -> None:
    salon = write_salon(tmp_path)
    assert "Root touch-up" in run("chairs", "--salon", str(salon))
    assert (salon / BOOK).exists()


def test_exports_that_changed_are_said_to_have(salon: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["chairs", "--salon", str(salon)]) == 0
    assert "have changed" not in (said := capsys.readouterr().err) and "hours were never set" in said
    assert "have changed" not in capsys.readouterr().err
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
    assert "have changed" not in capsys.readouterr().err


def test_it_works_on_the_current_folder_by_default(salon: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(salon)
    assert "Root touch-up" in run("chairs")


def test_nothing_in_exports_is_rewritten_by_loading(salon: Path) -> None:
    before = {path.name: (path.read_bytes(), path.stat().st_mtime_ns) for path in (salon / "exports").iterdir()}
    load_unchecked(salon)
    assert before == {path.name: (path.read_bytes(), path.stat().st_mtime_ns) for path in (salon / "exports").iterdir()}
