"""Files made to harm: refused in one sentence, quickly, in little memory, with the old book as it was."""

import io
import os
import struct
import time
import warnings
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from dialects.workbooks import NAMESPACES, OPENDOCUMENT
from salons import ONE_VISIT, load_unchecked, write_salon

from analytics.stops import WorkStopped
from analytics.storage.book import BOOK
from fuzz.mutate import at_most

MOST_SECONDS = 10
OTHER_VISIT = ONE_VISIT.replace("B1", "B2")

Build = Callable[[Path], None]
"""Puts the hostile file into the folder exports/."""


def archive(exports: Path, members: dict[str, str | bytes], name: str = "export.zip") -> Path:
    with zipfile.ZipFile(exports / name, "w", zipfile.ZIP_DEFLATED) as packed:
        for member, content in members.items():
            packed.writestr(member, content)
    return exports / name


def one_line_of_two_gigabytes(exports: Path) -> None:
    """Sparse: it takes no room on the disk."""
    with (exports / "line.csv").open("wb") as file:
        file.truncate(2 * 1024**3)


def one_line_below_two_gigabytes(exports: Path) -> None:
    with (exports / "line.csv").open("wb") as file:
        file.truncate(2 * 1024**3 - 100)


def one_line_in_a_zip(exports: Path) -> None:
    """A hundred megabytes without a line break, which pack to a hundred kilobytes."""
    with (
        zipfile.ZipFile(exports / "export.zip", "w", zipfile.ZIP_DEFLATED) as packed,
        packed.open("b.csv", "w") as file,
    ):
        for _ in range(100):
            file.write(b"0" * 1024**2)


def archive_above_two_gigabytes(exports: Path) -> None:
    """Declared as it is: nothing needs to be unpacked to refuse it."""
    path = archive(exports, {"b.csv": OTHER_VISIT})
    content = bytearray(path.read_bytes())
    directory = content.rindex(b"PK\x01\x02")
    content[directory + 24 : directory + 28] = struct.pack("<I", 2**32 - 2)
    path.write_bytes(content)


def archive_that_declares_too_little(exports: Path) -> None:
    """It says a thousand bytes and holds fifty megabytes."""
    path = archive(exports, {"b.csv": OTHER_VISIT + "0" * 50 * 1024**2})
    content = bytearray(path.read_bytes())
    directory = content.rindex(b"PK\x01\x02")
    for place in (22, directory + 24):
        content[place : place + 4] = struct.pack("<I", 1000)
    path.write_bytes(content)


def archive_with_a_member_above_its_folder(exports: Path) -> None:
    archive(exports, {"../../x.csv": OTHER_VISIT})


def archive_with_a_member_above_its_folder_on_windows(exports: Path) -> None:
    archive(exports, {"..\\..\\x.csv": OTHER_VISIT})


def archive_with_an_absolute_member(exports: Path) -> None:
    archive(exports, {"/etc/x.csv": OTHER_VISIT})


def archive_with_a_spoilt_member(exports: Path) -> None:
    path = archive(exports, {"b.csv": OTHER_VISIT * 50})
    content = bytearray(path.read_bytes())
    content[36:46] = b"\xff" * 10
    path.write_bytes(content)


def archive_with_a_password(exports: Path) -> None:
    path = archive(exports, {"b.csv": OTHER_VISIT})
    content = bytearray(path.read_bytes())
    content[6] |= 1
    content[content.rindex(b"PK\x01\x02") + 8] |= 1
    path.write_bytes(content)


def archive_with_one_name_twice(exports: Path) -> None:
    with warnings.catch_warnings(), zipfile.ZipFile(exports / "export.zip", "w") as packed:
        warnings.simplefilter("ignore")
        packed.writestr("b.csv", OTHER_VISIT)
        packed.writestr("b.csv", OTHER_VISIT.replace("B2", "B3"))


def archive_that_is_none(exports: Path) -> None:
    (exports / "export.zip").write_bytes(b"PK\x03\x04" + b"\0" * 100)


def link_to_a_file_outside(exports: Path) -> None:
    (exports.parent / "outside.csv").write_text(OTHER_VISIT, encoding="utf-8")
    (exports / "inside.csv").symlink_to(exports.parent / "outside.csv")


def link_to_a_folder_outside(exports: Path) -> None:
    (exports.parent / "outside").mkdir()
    (exports.parent / "outside" / "b.csv").write_text(OTHER_VISIT, encoding="utf-8")
    (exports / "inside").symlink_to(exports.parent / "outside")


def link_to_nothing(exports: Path) -> None:
    (exports / "inside.csv").symlink_to(exports / "nothing.csv")


def link_to_itself(exports: Path) -> None:
    (exports / "inside.csv").symlink_to(exports / "inside.csv")


def pipe_without_end(exports: Path) -> None:
    """Opening it would wait for ever for somebody to write."""
    os.mkfifo(exports / "pipe.csv")


def workbook(exports: Path, rows: str) -> None:
    """An .xlsx of one sheet with these rows, by hand: no library would write them."""
    sheet = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    package = "http://schemas.openxmlformats.org/package/2006/relationships"
    archive(
        exports,
        {
            "[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
            "_rels/.rels": f'<Relationships xmlns="{package}"><Relationship Id="r1" Type="{office}/officeDocument" '
            'Target="xl/workbook.xml"/></Relationships>',
            "xl/workbook.xml": f'<workbook xmlns="{sheet}" xmlns:r="{office}"><sheets>'
            '<sheet name="bookings" sheetId="1" r:id="r1"/></sheets></workbook>',
            "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{package}"><Relationship Id="r1" '
            f'Type="{office}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>',
            "xl/worksheets/sheet1.xml": f'<worksheet xmlns="{sheet}"><sheetData>{rows}</sheetData></worksheet>',
        },
        "book.xlsx",
    )


FIRST_CELL = '<row r="1"><c r="A1"><v>1</v></c></row>'


def far_cell(exports: Path) -> None:
    workbook(exports, f'{FIRST_CELL}<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>')


def far_cell_written_unusually(exports: Path) -> None:
    """The same with a line break and single quotation marks, which XML does not mind."""
    workbook(exports, f"{FIRST_CELL}<row r='1048576'><c\nr='XFD1048576'><v>1</v></c></row>")


def far_cell_without_a_reference(exports: Path) -> None:
    """Cells without a name count on from the one before, rows too."""
    workbook(exports, f'{FIRST_CELL}<row r="1048576">{"<c><v>1</v></c>" * 16384}</row>')


def opendocument_full_of_repeats(exports: Path) -> None:
    """One cell that says it stands seventeen thousand million times."""
    table = (
        '<table:table table:name="bookings"><table:table-row table:number-rows-repeated="1048576"><table:table-cell '
        'table:number-columns-repeated="16384" office:value-type="string"><text:p>x</text:p></table:table-cell>'
        "</table:table-row></table:table>"
    )
    content = (
        f'<?xml version="1.0"?><office:document-content {NAMESPACES}><office:body><office:spreadsheet>{table}'
        "</office:spreadsheet></office:body></office:document-content>"
    )
    manifest = '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"/>'
    archive(exports, {"mimetype": OPENDOCUMENT, "content.xml": content, "META-INF/manifest.xml": manifest}, "book.ods")


REFUSED: list[Build] = [
    one_line_of_two_gigabytes, one_line_below_two_gigabytes, one_line_in_a_zip, archive_above_two_gigabytes,
    archive_that_declares_too_little, archive_with_a_member_above_its_folder,
    archive_with_a_member_above_its_folder_on_windows, archive_with_an_absolute_member, archive_with_a_spoilt_member,
    archive_with_a_password, archive_with_one_name_twice, archive_that_is_none, link_to_a_file_outside,
    link_to_a_folder_outside, link_to_nothing, link_to_itself, far_cell, far_cell_written_unusually,
    far_cell_without_a_reference, opendocument_full_of_repeats,
]  # fmt: skip


@pytest.mark.parametrize("build", REFUSED, ids=lambda build: build.__name__)
def test_is_refused_in_a_sentence(tmp_path: Path, build: Build) -> None:
    salon = write_salon(tmp_path / "salon")
    load_unchecked(salon)
    before = (salon / BOOK).read_bytes()
    build(salon / "exports")
    began = time.perf_counter()
    with pytest.raises(WorkStopped) as stop:
        load_unchecked(salon)
    assert time.perf_counter() - began < MOST_SECONDS
    sentence = str(stop.value)
    assert sentence.endswith(".") and "\n" not in sentence
    assert any(path.name in sentence for path in (salon / "exports").iterdir())
    assert (salon / BOOK).read_bytes() == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["salon"]


def test_nothing_is_unpacked_outside_the_salon(tmp_path: Path) -> None:
    salon = write_salon(tmp_path / "a" / "b" / "salon")
    archive_with_a_member_above_its_folder(salon / "exports")
    with pytest.raises(WorkStopped):
        load_unchecked(salon)
    assert list(tmp_path.rglob("x.csv")) == []


def test_an_archive_in_an_archive_is_named_and_not_opened(tmp_path: Path) -> None:
    salon = write_salon(tmp_path / "salon")
    inner = io.BytesIO()
    with zipfile.ZipFile(inner, "w") as packed:
        packed.writestr("b.csv", OTHER_VISIT)
    archive(salon / "exports", {"inner.zip": inner.getvalue()})
    report = load_unchecked(salon)
    assert report.findings.select("code", "file").rows() == [("unknown_file", "export.zip/inner.zip")]


def test_a_link_in_an_archive_is_text_and_leads_nowhere(tmp_path: Path) -> None:
    salon = write_salon(tmp_path / "salon")
    (tmp_path / "secret.csv").write_text(OTHER_VISIT, encoding="utf-8")
    with zipfile.ZipFile(salon / "exports" / "export.zip", "w") as packed:
        link = zipfile.ZipInfo("b.csv")
        link.create_system, link.external_attr = 3, 0o120777 << 16
        packed.writestr(link, str(tmp_path / "secret.csv"))
    report = load_unchecked(salon)
    assert report.files.filter(table="bookings")["file"].to_list() == ["bookings.csv"]


def test_a_link_within_the_exports_is_a_file_like_any_other(tmp_path: Path) -> None:
    salon = write_salon(tmp_path / "salon")
    (salon / "exports" / "again.csv").symlink_to("bookings.csv")
    counts = load_unchecked(salon).files.filter(table="bookings").select("rows_used", "repeats").rows()
    assert sorted(counts) == [(0, 1), (1, 0)]


def test_many_sheets_of_nothing_are_read_quickly(tmp_path: Path) -> None:
    """A cell of a million quotation marks, and as many blank lines."""
    marks = ONE_VISIT + '"' * 1024**2 + "\n"
    salon = write_salon(tmp_path / "salon", {"marks.csv": marks, "blank.csv": ONE_VISIT + "\n" * 1024**2})
    began = time.perf_counter()
    report = load_unchecked(salon)
    assert time.perf_counter() - began < MOST_SECONDS
    assert report.files.filter(table="bookings")["rows_read"].to_list() == [1, 1, 2]


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes here")
def test_a_pipe_is_no_file(tmp_path: Path) -> None:
    salon = write_salon(tmp_path / "salon")
    pipe_without_end(salon / "exports")
    writer = os.open(salon / "exports" / "pipe.csv", os.O_RDWR | os.O_NONBLOCK)  # so that a fault ends, not hangs
    try:
        with pytest.raises(WorkStopped, match=r"^pipe\.csv .*\.$"), at_most(3):
            load_unchecked(salon)
    finally:
        os.close(writer)
