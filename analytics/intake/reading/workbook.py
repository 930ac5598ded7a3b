"""Read one workbook as text: `python -m analytics.intake.reading.workbook FILE FOLDER` puts its sheets in the folder.

A process of its own with limited memory, because a small workbook with one cell far out makes the reader ask for more
memory than there is, which ends the process. Each visible sheet becomes an Arrow file of text cells, every row of the
sheet a row of it; index.json lists their titles, and those of hidden sheets with something in them, which are passed
over.
"""

import json
import re
import sys
import zipfile
from html import unescape
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

MOST_BYTES = 2 * 1024**3  # unpacked
MOST_CELLS = 50_000_000  # the rectangle that a sheet's far corner spans
MOST_REPEATED = 10_000_000  # cells of an .ods, once what is said to repeat is written out
MOST_ABOVE = 30  # rows that may stand above the first row of values
LISTS = "salon-figures lists"  # a hidden sheet of the forms: what their cells offer
MOST_MEMORY = 8 * 1024**3
TABLE = "urn:oasis:names:tc:opendocument:xmlns:table:1.0"
OFFICE = "urn:oasis:names:tc:opendocument:xmlns:office:1.0"
REFERENCE = re.compile(rb'<c[^>]*? r="([A-Z]{1,3})(\d{1,7})"')
FILLED = re.compile(rb'<c\s[^>]*?\br="([A-Z]{1,3})\d{1,7}"[^>]*(?<!/)>')
ERROR = re.compile(
    rb'<c\s(?=[^>]*\bt="e")[^>]*?\br="([A-Z]{1,3})(\d{1,7})"[^>]*>'
    rb"(?:<f[^>]*>[^<]*</f>|<f[^>]*/>)?<v>([^<]*)</v>"
)

FORMULA = re.compile(  # of t="str" an empty value is the empty text that the formula came to
    rb'<c\s(?![^>]*\bt="str")(?=[^>]*?\br="([A-Z]{1,3})(\d{1,7})")[^>]*>\s*'
    rb"<f(?:\s[^>]*)?(?:/>|>[^<]*</f>)\s*(?:<v\s*/>|<v>\s*</v>)?\s*</c>"
)
NO_VALUE = "#formula without a value"  # what stands for a cell that no program has worked out yet
ODS_ROW = f"{{{TABLE}}}table-row"


def check(path: Path) -> None:
    """Raises ValueError where the workbook unpacks to too much or spans too many cells."""
    with zipfile.ZipFile(path) as archive:
        if sum(item.file_size for item in archive.infolist()) > MOST_BYTES:
            raise ValueError("unpacks to too much")
        for item in archive.infolist():
            if item.filename.startswith("xl/worksheets/") and _spanned(archive.read(item)) > MOST_CELLS:
                raise ValueError("spans too many cells")
            if item.filename == "content.xml" and _repeated(archive, item) > MOST_REPEATED:
                raise ValueError("repeats too many cells")


def _repeated(archive: zipfile.ZipFile, item: zipfile.ZipInfo) -> int:
    """How many cells the sheets of an .ods come to once rows and cells that are said to repeat are written out.

    Repeats of nothing at the end of a row or sheet are how empty space is written, and do not count.
    """
    most = 0
    with archive.open(item) as content:
        for _, row in ElementTree.iterparse(content):
            if row.tag == ODS_ROW:
                width = filled = 0
                for cell in row:
                    width += int(cell.get(f"{{{TABLE}}}number-columns-repeated", 1))
                    filled = width if len(cell) or cell.get(f"{{{OFFICE}}}value-type") else filled
                most += filled * int(row.get(f"{{{TABLE}}}number-rows-repeated", 1)) if filled else 0
                row.clear()
                if most > MOST_REPEATED:
                    return most
    return most


def _spanned(xml: bytes) -> int:
    columns, rows = 0, 0
    for letters, digits in REFERENCE.findall(xml):
        columns, rows = max(columns, _number(letters)), max(rows, int(digits))
    return columns * rows


def error_cells(path: Path) -> dict[str, list[tuple[int, int, str]]]:
    """Per sheet of an .xlsx: row, column and text of cells that hold an error such as #DIV/0!, or a formula that was
    never worked out; rows count from 0.

    The reader gives them as empty; columns count from the first that holds anything, as the reader counts them.
    """
    if path.suffix.lower() != ".xlsx":
        return {}
    with zipfile.ZipFile(path) as archive:
        relations = _attributes(archive.read("xl/_rels/workbook.xml.rels"), b"Relationship", b"Id", b"Target")
        targets = dict(relations)
        sheets = _attributes(archive.read("xl/workbook.xml"), b"sheet", b"name", b"r:id")
        places = {unescape(title): targets[place] for title, place in sheets if place in targets}
        return {title: _errors(archive.read(_inside(target))) for title, target in places.items()}


def _inside(target: str) -> str:
    return target.lstrip("/") if target.startswith("/") else f"xl/{target}"


def _attributes(xml: bytes, tag: bytes, first: bytes, second: bytes) -> list[tuple[str, str]]:
    found = []
    for attributes in re.findall(rb"<(?:\w+:)?" + tag + rb"\s([^>]*)>", xml):
        one, two = (re.search(rb"(?:^|\s)" + name + rb'="([^"]*)"', attributes) for name in (first, second))
        found.append((one[1].decode() if one else "", two[1].decode() if two else ""))
    return found


def _errors(xml: bytes) -> list[tuple[int, int, str]]:
    columns = [_number(letters) for letters in FILLED.findall(xml)]
    unworked = [(letters, row, NO_VALUE.encode()) for letters, row in FORMULA.findall(xml)]
    return [
        (int(row) - 1, _number(letters) - min(columns), unescape(text.decode()))
        for letters, row, text in [*ERROR.findall(xml), *unworked]
    ]


def _number(letters: bytes) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + letter - 64
    return number


def _with_durations(cells: Any, workbook: Any, place: int) -> Any:
    """Times of day and durations of an .ods, which reading as text leaves empty, filled in as HH:MM:SS.

    They are read with their own type, from the first row on that no longer mixes them with headings.
    """
    import fastexcel
    import polars as pl

    for skipped in range(min(MOST_ABOVE, cells.height)):
        try:
            typed = workbook.load_sheet(place, header_row=None, skip_rows=skipped).to_polars()
        except fastexcel.FastExcelError:
            continue
        for at, kind in enumerate(typed.dtypes):
            if kind == pl.Duration:
                seconds = typed.to_series(at).dt.total_seconds().to_list()
                texts = [None if s is None else f"{s // 3600:02}:{s % 3600 // 60:02}:{s % 60:02}" for s in seconds]
                name, above = cells.columns[at], cells.to_series(at)[:skipped].to_list()
                filled = pl.Series(name, [*above, *texts], dtype=pl.String)[: cells.height]
                cells = cells.with_columns(pl.coalesce(name, filled).alias(name))
        return cells
    return cells


def write_sheets(path: Path, folder: Path) -> None:
    """Write the visible sheets of the workbook into the folder."""
    import fastexcel

    check(path)
    workbook = fastexcel.read_excel(path)
    errors = error_cells(path)
    titles: list[str] = []
    hidden: list[str] = []
    for place, title in enumerate(workbook.sheet_names):
        sheet = workbook.load_sheet(place, header_row=None, skip_rows=0, dtypes="string")
        if sheet.visible == "visible":
            cells = sheet.to_polars()
            for row, column, text in errors.get(title, []):
                if row < cells.height and column < cells.width:
                    cells[row, column] = text
            cells = _with_durations(cells, workbook, place)
            cells.write_ipc(folder / f"{len(titles)}.arrow")
            titles.append(title if title not in titles else f"{title} ({place + 1})")
        elif sheet.height and title != LISTS:
            hidden.append(title)
    index = {"titles": titles, "hidden": hidden}
    (folder / "index.json").write_text(json.dumps(index), encoding="utf-8")


def _limit_memory() -> None:
    try:
        import resource
    except ImportError:  # not on Windows
        return
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


if __name__ == "__main__":
    _limit_memory()
    write_sheets(Path(sys.argv[1]), Path(sys.argv[2]))
