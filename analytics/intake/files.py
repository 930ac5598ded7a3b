"""Find export files and read them as text, every record with its row as a spreadsheet counts it."""

import csv
import io
import json
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from analytics.stops import WorkStopped

FOLDER = "exports"
DELIMITERS = (",", ";")
WORKBOOKS = (".xlsx",)
TEXTS = (".csv", ".txt")
WORKBOOK_SECONDS = 300

Record = tuple[int, list[str]]
"""Row as a spreadsheet counts it, cells as typed."""


@dataclass(frozen=True)
class Sheet:
    """One table of text: the name people know it by, and its records; the first that is not blank is the heading."""

    name: str
    records: list[Record]
    size_bytes: int


def find_exports(folder: Path) -> list[Path]:
    """Export files in any subfolder, in order of path. Raises WorkStopped where there are none."""
    exports = folder / FOLDER
    if not exports.is_dir():
        raise WorkStopped(f"{folder} has no folder {FOLDER}; make one and put the exported files in it.")
    paths = sorted(
        path
        for path in exports.rglob("*")
        if path.is_file() and not any(part.startswith((".", "~$")) for part in path.relative_to(exports).parts)
    )
    if not paths:
        raise WorkStopped(f"{exports} is empty; put the exported files in it and load again.")
    return paths


def read_sheets(path: Path, exports: Path) -> list[Sheet]:
    """The sheets of an export file; none where its kind is not one we read. Raises WorkStopped if it is unreadable."""
    name, size = path.relative_to(exports).as_posix(), path.stat().st_size
    if path.suffix.lower() in WORKBOOKS:
        return _workbook(path, name, size)
    if path.suffix.lower() in TEXTS:
        return [Sheet(name, _csv_records(path, name), size)]
    return []


def _csv_records(path: Path, name: str) -> list[Record]:
    text = _decode(path, name)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True)
    records: list[Record] = []
    try:
        for number, cells in enumerate(reader, start=1):
            if any(cell.strip() for cell in cells):
                records.append((number, cells))
    except csv.Error as error:
        raise WorkStopped(
            f"{name} cannot be read from line {reader.line_num} on ({error}); look for a quotation mark that is not "
            "closed or stands in mid-cell, or export the file again."
        ) from None
    return records


def _decode(path: Path, name: str) -> str:
    content = path.read_bytes()
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise WorkStopped(f"{name} is not UTF-8 text (line {line}); save it as CSV UTF-8 and load again.") from None


def _delimiter(text: str) -> str:
    """The delimiter that stands most often in the first line that is not blank."""
    heading = next((line for line in text.splitlines() if line.strip()), "")
    return max(DELIMITERS, key=heading.count)


def _workbook(path: Path, name: str, size: int) -> list[Sheet]:
    """Sheets of a workbook, read in a child process: a broken workbook can end the process that reads it."""
    command = [sys.executable, "-m", "analytics.intake.workbook", str(path)]
    try:
        child = subprocess.run(command, capture_output=True, timeout=WORKBOOK_SECONDS, check=False)
    except subprocess.TimeoutExpired:
        raise WorkStopped(f"{name} took more than {WORKBOOK_SECONDS} s to read; save it again as .csv.") from None
    if child.returncode != 0:
        raise WorkStopped(f"{name} cannot be read as a workbook; open it in a spreadsheet and save it again.")
    sheets = [
        (title, [(row, cells) for row, cells in rows if any(cell.strip() for cell in cells)])
        for title, rows in json.loads(child.stdout)
    ]
    filled = [(title, rows) for title, rows in sheets if rows]
    if len(filled) == 1:
        return [Sheet(name, filled[0][1], size)]
    return [Sheet(f"{name}#{title}", rows, size) for title, rows in filled]
