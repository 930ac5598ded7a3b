"""What names clients is for its owner alone, and nothing is left lying."""

import os
import stat
import subprocess
import tempfile
from pathlib import Path

import pytest
from filelock import FileLock
from salons import load_unchecked, write_salon

from analytics.stops import WorkStopped
from analytics.storage.private_files import replace_private, write_private
from analytics.storage.working import WORKING, sweep, working_privately

ON_POSIX = pytest.mark.skipif(os.name != "posix", reason="rights are others there")


def rights(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


@ON_POSIX
def test_the_book_is_for_its_owner_alone_whatever_the_umask(tmp_path: Path) -> None:
    before = os.umask(0)
    try:
        load_unchecked(write_salon(tmp_path))
    finally:
        os.umask(before)
    assert rights(tmp_path / "salon.duckdb") == 0o600


@ON_POSIX
def test_a_folder_named_as_a_file_keeps_its_rights(tmp_path: Path) -> None:
    place = tmp_path / "papers"
    place.mkdir()
    place.chmod(0o755)
    with pytest.raises(WorkStopped, match="is not a file"):
        write_private(b"x", place)
    assert rights(place) == 0o755


def test_a_file_is_replaced_whole_or_not_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = write_private(b"old", tmp_path / "record.json")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        replace_private(path, b"new")
    assert path.read_bytes() == b"old" and list(tmp_path.iterdir()) == [path]


def test_what_was_half_written_by_killed_processes_is_swept(tmp_path: Path) -> None:
    done = subprocess.run(["sh", "-c", "echo $$"], capture_output=True, text=True, check=True).stdout.strip()
    left = [tmp_path / f".{done}-0a.part", tmp_path / f"exports/old/.{done}-0b.part"]
    left += [tmp_path / "salon.duckdb.building", tmp_path / "salon.duckdb.building.tmp" / "rows"]
    stays = [tmp_path / place for place in (f"handover/.{os.getpid()}-0a.part", "exports/old/clients.csv")]
    for path in (*left, *stays):
        write_private(b"mail", path)
    with FileLock(tmp_path / ".salon.duckdb.lock"):
        sweep(tmp_path)
        assert [path for path in left if path.exists()] == left[2:]  # a load is at work on it
    sweep(tmp_path)
    assert not (tmp_path / "salon.duckdb.building.tmp").exists()
    assert [path for path in (*left, *stays) if path.exists()] == stays


def test_copies_of_killed_processes_are_swept_and_those_of_others_at_work_stay(tmp_path: Path) -> None:
    done = subprocess.run(["sh", "-c", "echo $$"], capture_output=True, text=True, check=True)
    left, at_work = tmp_path / WORKING / done.stdout.strip(), tmp_path / WORKING / str(os.getppid())
    for folder in (left, at_work):
        folder.mkdir(parents=True)
        (folder / "clients.xlsx").write_text("mail")
    outside = tempfile.gettempdir()
    with working_privately(tmp_path):
        assert not left.exists() and at_work.exists()
        inside = Path(tempfile.gettempdir())
        assert inside.parent == tmp_path / WORKING and os.environ["TMPDIR"] == str(inside)
        (inside / "copy.xlsx").write_text("mail")
    assert tempfile.gettempdir() == outside and [path.name for path in (tmp_path / WORKING).iterdir()] == [at_work.name]
