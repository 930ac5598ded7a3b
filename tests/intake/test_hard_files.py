"""Files that are there in part, hold less than they seem to or far more, or cannot be reached."""

import io
import os
import zipfile
from pathlib import Path

import openpyxl
import pytest
from salons import BOOKINGS, load_unchecked, write_salon

from analytics.intake.reading.find import Export, find_exports
from analytics.intake.reading.workbook import NO_VALUE, check
from analytics.stops import WorkStopped
from analytics.storage.book import read_book

TABLE = "urn:oasis:names:tc:opendocument:xmlns:table:1.0"
OFFICE = "urn:oasis:names:tc:opendocument:xmlns:office:1.0"


def test_a_formula_that_nobody_worked_out_is_no_empty_cell(tmp_path: Path) -> None:
    """A discount of =1+1 without a stored value must not be read as no discount."""
    book = openpyxl.Workbook()
    book.active.append([*BOOKINGS.strip().split(","), "discount"])
    book.active.append(
        ["B1", 1, "C1", "Chair 1", "2026-03-03 10:00", "2026-03-03 11:00", "completed", "S1", 60, "=1+1"]
    )
    written = io.BytesIO()
    book.save(written)
    folder = write_salon(tmp_path, {"bookings.csv": BOOKINGS, "more.xlsx": written.getvalue()})
    load_unchecked(folder)
    found = read_book(folder).findings.select("code", "row", "column", "value").rows()
    assert ("bad_number", 2, "discount", NO_VALUE) in found


def test_a_formula_that_came_to_an_empty_text_is_an_empty_cell(tmp_path: Path) -> None:
    xml = b'<sheetData><row r="1"><c r="A1" t="str"><f>IF(1,"","")</f><v></v></c></row></sheetData>'
    from analytics.intake.reading.workbook import _errors

    assert _errors(xml) == []


def ods(rows: str) -> bytes:
    content = (
        f'<office:document-content xmlns:office="{OFFICE}" xmlns:table="{TABLE}"><office:body><office:spreadsheet>'
        f'<table:table table:name="A">{rows}</table:table></office:spreadsheet></office:body></office:document-content>'
    )
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("content.xml", content)
    return written.getvalue()


def repeated(columns: int, rows: int, filled: bool) -> str:
    value = 'office:value-type="float" office:value="1"' if filled else ""
    return (
        f'<table:table-row table:number-rows-repeated="{rows}">'
        f'<table:table-cell table:number-columns-repeated="{columns}" {value}/></table:table-row>'
    )


@pytest.mark.parametrize(("filled", "refused"), [(True, True), (False, False)])
def test_an_ods_that_repeats_a_cell_millions_of_times_is_refused(tmp_path: Path, filled: bool, refused: bool) -> None:
    """Repeats of nothing are how every .ods ends."""
    path = tmp_path / "a.ods"
    path.write_bytes(ods(repeated(16_000, 1_000_000, filled)))
    if refused:
        with pytest.raises(ValueError, match="repeats"):
            check(path)
    else:
        check(path)


def test_an_export_that_goes_away_is_said_to_have_gone(tmp_path: Path) -> None:
    gone = Export("till.csv", tmp_path / "till.csv")
    for look in (gone.content, lambda: gone.size_bytes):
        with pytest.raises(WorkStopped, match=r"till\.csv went away while it was being read"):
            look()


def test_a_folder_that_cannot_be_looked_into_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = write_salon(tmp_path)
    (folder / "exports" / "2025").mkdir()
    listed = os.scandir

    def refused(path: str) -> object:
        if str(path).endswith("2025"):
            raise PermissionError(13, "Permission denied", str(path))
        return listed(path)

    monkeypatch.setattr(os, "scandir", refused)
    with pytest.raises(WorkStopped, match="exports/2025 cannot be looked into"):
        find_exports(folder)


@pytest.mark.skipif(os.name != "posix", reason="names are text there")
def test_a_name_that_is_no_text_is_written_out(tmp_path: Path) -> None:
    folder = write_salon(tmp_path)
    Path(os.fsdecode(os.fsencode(folder / "exports") + b"/t\xe9.csv")).write_text("a\n1\n", encoding="utf-8")
    names = [export.name for export in find_exports(folder)]
    assert "t\\xe9.csv" in names
    load_unchecked(folder)
    assert "t\\xe9.csv" in read_book(folder).files["file"].to_list()


def test_an_archive_is_opened_once_for_all_its_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its list of contents is read whole at each opening: 2,000 files took 2,000 × 2,000 readings."""
    folder = write_salon(tmp_path)
    with zipfile.ZipFile(folder / "exports" / "many.zip", "w") as archive:
        for number in range(50):
            archive.writestr(f"{number}.csv", "a\n1\n")
    opened = []
    read = zipfile.ZipFile._RealGetContents  # type: ignore[attr-defined]
    monkeypatch.setattr(zipfile.ZipFile, "_RealGetContents", lambda self: (opened.append(1), read(self))[1])
    exports = find_exports(folder)
    assert len([export.content() for export in exports]) == 52
    assert len(opened) == 2  # to list them, and to read them
