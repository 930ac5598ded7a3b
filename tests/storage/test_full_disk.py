"""A disk that is full, tried with one: a small file system in memory, skipped where none may be mounted."""

import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import pytest
from loads import booked, names
from salons import load_unchecked

from analytics.erasing.erase import carry_out, find
from analytics.stops import WorkStopped
from analytics.storage.book import BOOK

SPARE_KB = 400  # beyond the salon itself: less than a second book takes


@contextmanager
def small_disk(at: Path, salon: Path) -> Iterator[Path]:
    """The salon on a disk with hardly any room left."""
    at.mkdir()
    size = sum(path.stat().st_size for path in salon.rglob("*") if path.is_file()) // 1024 + SPARE_KB
    command = ["mount", "-t", "tmpfs", "-o", f"size={size}k", "tmpfs", str(at)]
    if sys.platform != "linux" or subprocess.run(command, capture_output=True, check=False).returncode:
        pytest.skip("No file system can be mounted here, so nothing was tried on a full disk.")
    try:
        yield Path(shutil.copytree(salon, at / "salon"))
    finally:
        subprocess.run(["umount", "-l", str(at)], capture_output=True, check=True)


def test_a_load_on_a_full_disk_is_one_sentence_and_changes_nothing(salon: Path, tmp_path: Path) -> None:
    with small_disk(tmp_path / "disk", salon) as full:
        before = (full / BOOK).read_bytes()
        with pytest.raises(WorkStopped, match="free space"):
            load_unchecked(full)
        assert (full / BOOK).read_bytes() == before and booked(full) == 1
        assert names(full) == names(salon)


def test_who_is_erased_on_a_full_disk_is_in_no_file(salon: Path, tmp_path: Path) -> None:
    """The exports are written anew before the records; where these find no room, the old ones go."""
    with small_disk(tmp_path / "disk", salon) as full:
        with pytest.raises(WorkStopped, match="free space"):
            carry_out(full, find(full, "C1"), date(2026, 4, 1), lambda: load_unchecked(full))
        assert b"C1," not in (full / "exports" / "bookings.csv").read_bytes()
        assert names(full) == ["erased.csv", "erased.json", "exports", "salon.toml"]
        shutil.copytree(full, tmp_path / "roomy")
    load_unchecked(tmp_path / "roomy")
    assert booked(tmp_path / "roomy") == 1
