"""Who was asked to come, and what she said: one line per mark in asked.csv, only ever added to.

The file lies in the salon's folder beside the exports, so that no load, rebuild or page touches it. Its owner alone
reads it. Writers take turns by a lock; a line that was cut short by a stop stays a line of its own.
"""

import csv
import io
import os
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from filelock import FileLock, Timeout

from analytics.periods import parse_day
from analytics.stops import WorkStopped

FILE = "asked.csv"
HEADINGS = ("day", "client_id", "answer", "stylist", "site")
NO_ANSWER, WILL_CALL, NOT_NOW = "no_answer", "will_call", "not_now"
TAKEN_BACK = "taken_back"  # a slip of the thumb: the mark before it no longer counts
ANSWERS = (NO_ANSWER, WILL_CALL, NOT_NOW, TAKEN_BACK)
PATIENCE_S = 10
OWNER_ALONE = 0o600
FORMULA_STARTS = tuple("=+-@\t\0'＝＋－＠")


@dataclass(frozen=True)
class Mark:
    """What came of asking a client on a day, who asked ('' where nobody was chosen), and in which salon of a group."""

    day: date
    client_id: str
    answer: str
    stylist: str = ""
    site: str = ""


@dataclass(frozen=True)
class Marks:
    """Every mark that can be read, oldest first, and the numbers of the lines that cannot."""

    marks: tuple[Mark, ...]
    damaged: tuple[int, ...] = ()


def write_mark(folder: Path, mark: Mark) -> None:
    """Add one line, on the disk when this returns. Raises WorkStopped where it cannot be written."""
    if mark.answer not in ANSWERS:
        raise ValueError(mark.answer)
    if any(sign in mark.client_id + mark.stylist for sign in "\r\n"):
        raise WorkStopped("A client number over two lines cannot be marked; correct it in the export.")
    line = _line((mark.day.isoformat(), mark.client_id, mark.answer, mark.stylist, mark.site))
    try:
        with FileLock(folder / f".{FILE}.lock", timeout=PATIENCE_S, mode=OWNER_ALONE):
            _append(folder / FILE, line)
    except (OSError, Timeout):
        raise WorkStopped(f"{folder / FILE} cannot be written to; check its rights and the free space.") from None


def _append(path: Path, line: str) -> None:
    handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0), OWNER_ALONE)
    try:
        size = os.fstat(handle).st_size
        if not size:
            line = _line(HEADINGS) + line
        elif _last_byte(handle, size) != b"\n":  # a stop cut the last line short: it stays damaged, this one is whole
            line = "\r\n" + line
        rest = line.encode()
        while rest:
            rest = rest[os.write(handle, rest) :]
        os.fsync(handle)
    finally:
        os.close(handle)


def _last_byte(handle: int, size: int) -> bytes:
    os.lseek(handle, size - 1, os.SEEK_SET)
    return os.read(handle, 1)


def _line(cells: tuple[str, ...]) -> str:
    """One record; text that a spreadsheet would take for a formula stands behind an apostrophe."""
    text = io.StringIO()
    csv.writer(text).writerow(
        [f"'{cell}" if cell.lstrip(" \u00a0").startswith(FORMULA_STARTS) else cell for cell in cells]
    )
    return text.getvalue()


def read_marks(folder: Path) -> Marks:
    """Every mark of the folder; none where nobody was marked yet. Raises WorkStopped where the file cannot be read."""
    try:
        content = (folder / FILE).read_bytes()
    except FileNotFoundError:
        return Marks(())
    except OSError:
        raise WorkStopped(f"{folder / FILE} cannot be read; check its rights.") from None
    found = {number: read_line(line) for number, line in enumerate(content.splitlines(), start=1) if line.strip()}
    if found and content.splitlines()[0] == _line(HEADINGS).strip().encode():
        del found[1]
    return Marks(
        tuple(mark for mark in found.values() if mark),
        tuple(number for number, mark in found.items() if mark is None),
    )


def read_line(line: bytes) -> Mark | None:
    """The mark of a line of the file; None where it holds none that can be read."""
    try:
        (cells,) = csv.reader([line.decode("utf-8-sig").rstrip("\r\n")], strict=True)
        day, client_id, answer, stylist, site = (cell.removeprefix("'") if _guarded(cell) else cell for cell in cells)
        return Mark(parse_day(day), client_id, answer, stylist, site) if answer in ANSWERS and client_id else None
    except (ValueError, csv.Error, WorkStopped):
        return None


def _guarded(cell: str) -> bool:
    return cell.startswith("'") and cell[1:].lstrip(" \u00a0").startswith(FORMULA_STARTS)


def latest(marks: Marks, as_of: date) -> list[Mark]:
    """The last mark of each client up to the day, by its line; whose last one was taken back has none."""
    last = {(mark.site, mark.client_id): mark for mark in marks.marks if mark.day <= as_of}
    return [mark for mark in last.values() if mark.answer != TAKEN_BACK]
