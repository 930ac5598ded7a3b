"""Read one workbook as text: `python -m analytics.intake.workbook FILE FOLDER` writes its sheets into the folder.

A process of its own with limited memory, because a small workbook with one cell far out makes the reader ask for more
memory than there is, which ends the process. Each visible sheet becomes an Arrow file of text cells, every row of the
sheet a row of it; index.json lists their titles.
"""

import json
import re
import sys
import zipfile
from pathlib import Path

MOST_BYTES = 2 * 1024**3  # unpacked
MOST_CELLS = 50_000_000  # the rectangle that a sheet's far corner spans
MOST_MEMORY = 8 * 1024**3
REFERENCE = re.compile(rb'<c[^>]*? r="([A-Z]{1,3})(\d{1,7})"')
REPEATED = re.compile(rb'number-(rows|columns)-repeated="(\d{1,9})"')


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


def write_sheets(path: Path, folder: Path) -> None:
    """Write the visible sheets of the workbook into the folder."""
    import fastexcel

    check(path)
    workbook = fastexcel.read_excel(path)
    titles: list[str] = []
    for title in workbook.sheet_names:
        sheet = workbook.load_sheet(title, header_row=None, skip_rows=0, dtypes="string")
        if sheet.visible == "visible":
            sheet.to_polars().write_ipc(folder / f"{len(titles)}.arrow")
            titles.append(title)
    (folder / "index.json").write_text(json.dumps(titles), encoding="utf-8")


def _limit_memory() -> None:
    try:
        import resource
    except ImportError:  # not on Windows
        return
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


if __name__ == "__main__":
    _limit_memory()
    write_sheets(Path(sys.argv[1]), Path(sys.argv[2]))
