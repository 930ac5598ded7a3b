"""Read one workbook as text and print it as JSON: `python -m analytics.intake.workbook FILE`.

A process of its own, because a small workbook with one cell far out makes the reader ask for more memory than there
is, which ends the process.
"""

import json
import re
import sys
import zipfile
from pathlib import Path

MOST_BYTES = 2 * 1024**3  # unpacked
MOST_CELLS = 50_000_000  # the rectangle that a sheet's far corner spans
REFERENCE = re.compile(rb'<c[^>]*? r="([A-Z]{1,3})(\d{1,7})"')


def check(path: Path) -> None:
    """Raises ValueError where the workbook unpacks to too much or spans too many cells."""
    with zipfile.ZipFile(path) as archive:
        if sum(item.file_size for item in archive.infolist()) > MOST_BYTES:
            raise ValueError("unpacks to too much")
        for item in archive.infolist():
            if item.filename.startswith("xl/worksheets/") and _spanned(archive.read(item)) > MOST_CELLS:
                raise ValueError("spans too many cells")


def _spanned(xml: bytes) -> int:
    columns, rows = 0, 0
    for letters, digits in REFERENCE.findall(xml):
        number = 0
        for letter in letters:
            number = number * 26 + letter - 64
        columns, rows = max(columns, number), max(rows, int(digits))
    return columns * rows


def read(path: Path) -> list[tuple[str, list[tuple[int, list[str]]]]]:
    """Per visible sheet: its title and its rows as (row, cells as text)."""
    import fastexcel

    check(path)
    workbook = fastexcel.read_excel(path)
    sheets = []
    for title in workbook.sheet_names:
        sheet = workbook.load_sheet(title, header_row=None, skip_rows=0, dtypes="string")
        if sheet.visible == "visible":
            rows = [[cell or "" for cell in cells] for cells in sheet.to_polars().rows()]
            sheets.append((title, list(enumerate(rows, start=1))))
    return sheets


if __name__ == "__main__":
    json.dump(read(Path(sys.argv[1])), sys.stdout)
