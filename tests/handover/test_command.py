"""`salon-figures handover` from the command line."""

from pathlib import Path

import pytest
from handover.spring import salon_in

from analytics.commands.cli import main


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    status = main(["handover", *words])
    out, err = capsys.readouterr()
    return status, out, err


def test_a_folder_is_written_closed_and_checked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    salon_in(tmp_path)
    here = ["--salon", str(tmp_path), "--today", "2026-06-10"]
    status, out, err = run(capsys, "2026-03", "--close", *here)
    written = [Path(line) for line in out.splitlines()]
    assert status == 0 and all(path.is_file() for path in written)
    assert (written[-1].name, written[-1].parent) == ("manifest.json", tmp_path / "handover" / "2026-03")
    assert "Money received does not agree for 1 visit; in all, €1.00 less was received than was due" in err
    assert "Rows set aside: No row of this period was set aside; 1 has no date." in err and "2026-03 is closed" in err
    status, out, err = run(capsys, "--verify", str(written[-1].parent))
    assert (status, err) == (0, "") and out.startswith("Manifest ") and "as it was handed over" in out
    written[0].write_bytes(b"")
    status, out, err = run(capsys, "--verify", str(written[-1].parent))
    assert (status, err) == (1, f"{written[0].name} is not the file that was written.\n")


def test_days_in_place_of_a_name(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    salon_in(tmp_path)
    status, _, _ = run(capsys, "--from", "2026-03-04", "--to", "2026-03-06", "--salon", str(tmp_path))
    assert status == 0
    assert (tmp_path / "handover" / "2026-03-04_to_2026-03-05" / "statement.pdf").is_file()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ([], "Name a period such as 2026-Q3"),
        (["2026-Q7"], "is not a period"),
        (["2025-03"], "The book holds nothing from 2025-03-01"),
        (["2026-03", "--from", "2026-03-01"], "exclude each other"),
        (["2026-03", "--clients", "--key", "exports/own.key"], "lies in the salon's folder"),
        (["--verify", "."], "no manifest"),
    ],
)
def test_what_stops_it_is_one_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, words: list[str], says: str
) -> None:
    salon_in(tmp_path)
    monkeypatch.chdir(tmp_path)
    status, out, err = run(capsys, *words)
    assert (status, out) == (1, "")
    assert says in err and err.count("\n") == 1
    assert not (tmp_path / "handover").exists()
