"""A client who was erased stands nowhere, comes back with no old export, and every sum is as it was."""

import shutil
import tempfile
from pathlib import Path

import polars as pl
import pytest
from killed import KilledError, stopping_at
from salons import load_unchecked

from analytics.commands import erasing as command
from analytics.commands.cli import main
from analytics.erasing.erase import carry_out, find, go_on
from analytics.handover.accountant.folder import hand_over
from analytics.handover.accountant.period_names import named_period
from analytics.salon import open_salon
from analytics.storage.asked import read_marks
from analytics.storage.book import BOOK, read_book
from erasing.her_salon import AS_OF, HERS, hits, write


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write(tmp_path_factory.mktemp("written") / "kwartels", workbooks=False)


@pytest.fixture
def salon(written: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(written, tmp_path / "kwartels"))


def erased(salon: Path, who: str = "C1047") -> None:
    carry_out(salon, find(salon, who), AS_OF, lambda: load_unchecked(salon))


def sums(salon: Path) -> dict[str, pl.DataFrame]:
    opened = open_salon(salon, AS_OF)
    return {name: opened.figure(name) for name in ("tax", "takings", "revenue", "chairs", "month", "retail", "returns")}


def test_nothing_of_hers_is_left_of_any_kind_of_file_and_every_sum_stays(tmp_path: Path):
    check_erased(write(tmp_path / "kwartels", workbooks=True), "C1047")


def test_she_is_known_by_her_name_too(salon: Path):
    check_erased(salon, "zora  QUENDEL")


def check_erased(salon: Path, who: str) -> None:
    before = sums(salon)
    assert {word for hit in hits(salon) for word in HERS if hit.endswith(word)} == set(HERS)
    erased(salon, who)
    assert hits(salon) == []
    for name, frame in sums(salon).items():
        assert frame.equals(before[name]), name
    assert [mark.client_id for mark in read_marks(salon).marks] == ["C2"]
    book = read_book(salon)
    assert book.tables["clients"]["client"].to_list() == ["Milo Vrantz"]
    assert set(open_salon(salon, AS_OF).figure("roots")["client_id"]) == {"C2"}
    assert (salon / "erased.csv").read_text("utf-8").splitlines()[1].startswith("2026-11-01,")


def test_what_is_not_hers_stays_byte_for_byte(salon: Path):
    before = {path: path.read_bytes() for path in (salon / "exports").rglob("*.csv")}
    erased(salon)
    for path, content in before.items():
        old, new = content.split(b"\n"), path.read_bytes().split(b"\n")
        assert len(old) == len(new)
        assert all(
            a == b for a, b in zip(old, new, strict=True) if not any(w.lower().encode() in a.lower() for w in HERS)
        )


def test_an_old_export_does_not_bring_her_back(salon: Path):
    old = {path.name: path.read_bytes() for path in (salon / "exports").rglob("*") if path.is_file()}
    before = sums(salon)
    erased(salon)
    for name, content in old.items():
        (salon / "exports" / f"again {name}").write_bytes(content)
    report = load_unchecked(salon)
    named = report.findings.filter(code="erased_client")
    assert set(named["file"]) >= {"again bookings 1.csv", "again clients.csv", "again pack.zip/in/bookings.csv"}
    content = (salon / BOOK).read_bytes()
    assert not [word for word in HERS if word.encode() in content]
    for name, frame in sums(salon).items():
        assert frame.equals(before[name]), name
    carry_out(salon, find(salon, None), AS_OF, lambda: load_unchecked(salon))
    assert hits(salon) == []


def test_all_who_are_overdue_go_with_one_confirmation(salon: Path, capsys: pytest.CaptureFixture[str], monkeypatch):
    monkeypatch.setattr(command, "load_salon", load_unchecked)
    overdue = ["erase", "--overdue", "--salon", str(salon), "--today", "2029-07-03"]
    assert main(overdue) == 1 and "[keeping]" in capsys.readouterr().err
    with (salon / "salon.toml").open("a", encoding="utf-8") as settings:
        settings.write("[keeping]\nmonths_without_visit = 36\n")
    assert main([*overdue[:-1], "2029-07-02"]) == 0 and hits(salon)
    assert "Nobody has been unseen" in capsys.readouterr().out
    assert main(["check", "--salon", str(salon), "--today", "2029-07-03"]) == 0
    assert "2 clients were without a visit for 36 months or longer" in capsys.readouterr().err
    asked = []
    monkeypatch.setattr("builtins.input", lambda text: asked.append(text) or "yes")
    before = sums(salon)
    assert main(overdue) == 0
    said = capsys.readouterr().out
    assert "C1047, Zora Quendel: last seen 3 July 2026, 36 months ago" in said and "C2, Milo Vrantz" in said
    assert "local rules" in said and len(asked) == 1 and "these 2 clients" in asked[0]
    left = b"".join(path.read_bytes() for path in salon.rglob("*") if path.is_file() and path.suffix != ".zip")
    assert hits(salon) == [] and not [word for word in (b"Milo", b"Vrantz", b"82640917") if word in left]
    for name, frame in sums(salon).items():
        assert frame.equals(before[name]), name
    assert main(overdue) == 0 and "Nobody has been unseen" in capsys.readouterr().out


def test_a_closed_period_shows_no_correction(salon: Path):
    opened = open_salon(salon, AS_OF)
    hand_over(opened, named_period("2026-Q2"), key=None, close_it=True)
    erased(salon)
    after = hand_over(open_salon(salon, AS_OF), named_period("2026-Q3"), key=None, close_it=False)
    assert not [sentence for sentence in after.said if "correct" in sentence.lower()]
    assert hits(salon) == []


def test_killed_at_any_step_it_is_the_old_or_the_new(salon: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Stopped dead before each write and each move in turn; the next start goes on where it had begun to count."""
    kept, found = Path(shutil.copytree(salon, tmp_path / "kept")), find(salon, "C1047")
    outcomes = []
    for stop in range(1, 2 * len(found.new) + 3):
        with monkeypatch.context() as broken:
            stopping_at(stop, broken)
            with pytest.raises(KilledError):
                carry_out(salon, found, AS_OF, lambda: None)
        outcomes.append(go_on(salon, (salon / BOOK).unlink))
        if outcomes[-1]:
            assert hits(salon) == []
            shutil.rmtree(salon)
            shutil.copytree(kept, salon)
        else:
            assert bytes_of(salon) == bytes_of(kept)
        assert not (salon / ".erasing").exists()
    assert outcomes == sorted(outcomes) and len(set(outcomes)) == 2


def bytes_of(folder: Path) -> dict[str, bytes]:
    files = [path for path in folder.rglob("*") if path.is_file() and path.suffix != ".lock"]
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def test_the_command_shows_asks_and_tells_nobody(salon: Path, capsys: pytest.CaptureFixture[str], monkeypatch):
    monkeypatch.setattr(command, "load_salon", load_unchecked)
    (salon.parent / "temp").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(salon.parent / "temp"))
    assert main(["erase", "C1047", "--dry-run", "--salon", str(salon)]) == 0
    said = capsys.readouterr().out
    assert "exports/clients.csv: export" in said and "asked.csv: marks on the call sheet, once" in said
    assert "exports/pack.zip" in said and "Nothing was changed." in said and hits(salon)
    monkeypatch.setattr("builtins.input", lambda _: "no")
    assert main(["erase", "C1047", "--salon", str(salon)]) == 1 and hits(salon)
    assert main(["erase", "nobody at all", "--yes", "--salon", str(salon)]) == 1
    assert "check how it is written" in capsys.readouterr().err
    assert main(["erase", "C1047", "--yes", "--salon", str(salon)]) == 0
    assert hits(salon) == [] and not [word for word in HERS if word in capsys.readouterr().out]
    assert list((salon.parent / "temp").iterdir()) == []
