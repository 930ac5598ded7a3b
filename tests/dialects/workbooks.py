"""Sheets of typed cells -> .xlsx and .ods files with a hidden sheet and formula cells among them."""

import zipfile
from datetime import date, datetime, time
from html import escape
from pathlib import Path
from typing import Any

import xlsxwriter

from dialects.numbers_and_days import Share

Sheet = list[list[Any]]

OLD = [["booking_id", "client_id", "starts_at", "minutes", "status", "service_id", "price"],
       ["A1", "K1", "2026-02-02 10:00", 60, "completed", "L5", 999]]  # fmt: skip
OPENDOCUMENT = "application/vnd.oasis.opendocument.spreadsheet"
NAMESPACES = " ".join(
    f'xmlns:{short}="urn:oasis:names:tc:opendocument:xmlns:{long}:1.0"'
    for short, long in (("office", "office"), ("table", "table"), ("text", "text"), ("style", "style"))
)


def write_xlsx(path: Path, sheets: dict[str, Sheet]) -> None:
    """Typed cells; amounts are formula cells now and then; the sheet "old" is hidden and must not be read."""
    with xlsxwriter.Workbook(path) as book:
        for name, sheet in {**sheets, "old": OLD}.items():
            page = book.add_worksheet(name)
            for row, cells in enumerate(sheet):
                for column, cell in enumerate(cells):
                    _put(book, page, row, column, cell)
            if name == "old":
                page.hide()


def _put(book: xlsxwriter.Workbook, page: Any, row: int, column: int, cell: Any) -> None:
    if isinstance(cell, datetime):
        page.write_datetime(row, column, cell, book.add_format({"num_format": "dd/mm/yyyy hh:mm"}))
    elif isinstance(cell, date):
        page.write_datetime(row, column, datetime.combine(cell, time()), book.add_format({"num_format": "d-mmm-yy"}))
    elif isinstance(cell, time):
        page.write_datetime(row, column, cell, book.add_format({"num_format": "hh:mm"}))
    elif isinstance(cell, Share):
        page.write_number(row, column, cell, book.add_format({"num_format": "0%"}))
    elif isinstance(cell, float) and row % 4 == 2:
        page.write_formula(row, column, f"={cell}*1", None, cell)
    elif isinstance(cell, float):
        page.write_number(row, column, cell)
    elif cell != "":
        page.write_string(row, column, str(cell))


def write_ods(path: Path, sheets: dict[str, Sheet]) -> None:
    """As write_xlsx; runs of empty and of equal cells are written once with a count, as spreadsheets do."""
    tables = "".join(_ods_table(name, sheet) for name, sheet in sheets.items()) + _ods_table("old", OLD, "hidden")
    hidden = (
        '<office:automatic-styles><style:style style:name="hidden" style:family="table">'
        '<style:table-properties table:display="false"/></style:style></office:automatic-styles>'
    )
    content = (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document-content {NAMESPACES} office:version="1.3">{hidden}'
        f"<office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body></office:document-content>"
    )
    manifest = (
        '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
        f'<manifest:file-entry manifest:full-path="/" manifest:media-type="{OPENDOCUMENT}"/>'
        '<manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/></manifest:manifest>'
    )
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("mimetype", OPENDOCUMENT, zipfile.ZIP_STORED)
        archive.writestr("content.xml", content, zipfile.ZIP_DEFLATED)
        archive.writestr("META-INF/manifest.xml", manifest, zipfile.ZIP_DEFLATED)


def _ods_table(name: str, sheet: Sheet, style: str = "") -> str:
    styled = f' table:style-name="{style}"' if style else ""
    rows = "".join(
        f"<table:table-row>{_ods_row(number, cells)}</table:table-row>" for number, cells in enumerate(sheet)
    )
    return f'<table:table table:name="{escape(name)}"{styled}>{rows}</table:table>'


def _ods_row(row: int, cells: list[Any]) -> str:
    written = ""
    place = 0
    while place < len(cells):
        end = place
        while end < len(cells) and cells[end] == cells[place]:
            end += 1
        repeated = f' table:number-columns-repeated="{end - place}"' if end - place > 1 else ""
        written += _ods_cell(row, cells[place], repeated)
        place = end
    return written


def _ods_cell(row: int, cell: Any, repeated: str) -> str:
    if cell == "":
        return f"<table:table-cell{repeated}/>"
    shown = escape(str(cell))
    if isinstance(cell, Share):
        kind, shown = f'office:value-type="percentage" office:value="{cell}"', f"{cell:.0%}"
    elif isinstance(cell, float | int):
        formula = f' table:formula="of:={cell}*1"' if row % 4 == 2 else ""
        kind = f'office:value-type="float" office:value="{cell}"{formula}'
    elif isinstance(cell, date):
        kind = f'office:value-type="date" office:date-value="{cell.isoformat()}"'
    elif isinstance(cell, time):
        kind = f'office:value-type="time" office:time-value="PT{cell.hour:02d}H{cell.minute:02d}M{cell.second:02d}S"'
    else:
        kind = 'office:value-type="string"'
    return f"<table:table-cell {kind}{repeated}><text:p>{shown}</text:p></table:table-cell>"
