"""Whether a book is told from exports that have changed since, in an archive, of the same size, or not at all."""

import io
import os
import zipfile
from datetime import date
from pathlib import Path

import pytest
from salons import MENU, ONE_VISIT, SETTINGS, load_unchecked, write_export, write_salon

from analytics.salon import open_salon

TODAY = date(2026, 4, 1)
LEFT_OUT = SETTINGS + '\n[tables]\n"old*.csv" = ""\n'
NOT_READ = {"menu.pdf": b"%PDF", "empty.csv": "", "old list.csv": "a,b\n1,2\n"}


def archive(visit: str) -> bytes:
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w") as file:
        file.writestr("march.csv", visit)
    return content.getvalue()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    exports: dict[str, str | bytes] = {"all.zip": archive(ONE_VISIT.replace("B1", "B2")), **NOT_READ}
    folder = write_salon(tmp_path, exports, LEFT_OUT)
    load_unchecked(folder)
    return folder


def test_a_book_of_these_very_exports_is_not_stale(folder: Path) -> None:
    salon = open_salon(folder, TODAY)
    assert not salon.stale
    write_export(folder, "menu.csv", MENU)
    os.utime(folder / "exports" / "menu.csv", (0, 0))
    assert not salon.stale, "written again, or copied: the same bytes are the same export"


def test_an_edit_that_keeps_the_size_is_noticed(folder: Path) -> None:
    salon = open_salon(folder, TODAY)
    write_export(folder, "bookings.csv", ONE_VISIT.replace("60.00", "66.00"))
    assert salon.stale
    write_export(folder, "bookings.csv", ONE_VISIT)
    assert not salon.stale


def test_an_edit_in_an_archive_is_noticed(folder: Path) -> None:
    salon = open_salon(folder, TODAY)
    write_export(folder, "all.zip", archive(ONE_VISIT.replace("B1", "B3")))
    assert salon.stale


@pytest.mark.parametrize("name", ["menu.csv", "all.zip", "menu.pdf", "old list.csv"])
def test_an_export_that_is_gone_is_noticed(folder: Path, name: str) -> None:
    salon = open_salon(folder, TODAY)
    (folder / "exports" / name).unlink()
    assert salon.stale


@pytest.mark.parametrize(
    "more", ['[dates]\norder = "dmy"', '[words.status]\n"done" = "completed"', '[files]\nencoding = "cp1250"']
)
def test_exports_that_are_now_read_otherwise_are_noticed(folder: Path, more: str) -> None:
    (folder / "salon.toml").write_text(f"{LEFT_OUT}\n{more}\n", encoding="utf-8")
    assert open_salon(folder, TODAY).stale


def test_other_settings_leave_the_book_as_it_is(folder: Path) -> None:
    (folder / "salon.toml").write_text(f"{LEFT_OUT}\n[costs]\nper_month = 100\n", encoding="utf-8")
    assert not open_salon(folder, TODAY).stale


def test_a_new_export_is_noticed(folder: Path) -> None:
    salon = open_salon(folder, TODAY)
    write_export(folder, "more.csv", ONE_VISIT)
    assert salon.stale
