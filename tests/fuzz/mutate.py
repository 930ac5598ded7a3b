"""Exports spoilt at random, always in the same way for the same seed, and what loading makes of them.

`python tests/fuzz/mutate.py 5000` loads that many spoilt salons and counts the outcomes; with `--first N` from another
seed on; `python tests/fuzz/mutate.py --write SEED FOLDER` writes one of them to look at.
"""

import argparse
import io
import random
import shutil
import signal
import sys
import tempfile
import time
import traceback
import zipfile
from collections import Counter
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from pathlib import Path
from types import FrameType

import polars as pl

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from dialects.dialects import CONTRACT, DIALECTS
from dialects.invented import salon
from dialects.writer import TABLES, Dialect, write_salon
from salons import load_unchecked

from analytics.stops import WorkStopped
from analytics.storage.book import read_book

MOST_SECONDS = 10
"""Of work (processor time), so that a busy machine is not taken for a hang."""
WAITING = 12  # times as long on the clock
WORKBOOKS = 0.03
"""The part of the salons that are workbooks: each is read in a process of its own, which takes a while."""
ROWS = 14
NASTY = (
    "", " ", '"', '""', "'", "\\", "\n", "\r", "\x00", "\ufeff", "\u2028", "\u202e", "\x1f", "\x1a", "\x85", "=1+1",
    "-", "NaN", "inf", "1e999", "-1", "0", "99999999999999999999999999", "1.234", "1,234", "0.00005", "½", "²", "٣",
    "％", "31/02/2026", "0000-00-00", "9999-12-31 23:59", "2026-03-29 02:30", "12/13/14", "45730.5", "24:00", "PT1H",
    "1899-12-30", "NULL", "n/a", "#DIV/0!", "#REF!", "Total", "sep=;", "L1", "L1 + L5", "L1/L5", "a" * 300, "€",
    "ß" * 90, "x" * 70_000, "{0}", "%s", "{file}", "Robert'); DROP TABLE bookings;--", "../../x.csv", "\ud7ff", "👩‍🦰",
)  # fmt: skip

Salon = dict[str, bytes]
"""Files by their names, the settings among them."""


def cut_to(tables: dict[str, list[dict[str, object]]], count: int) -> dict[str, list[dict[str, object]]]:
    return {name: rows if name == "services" else rows[:count] for name, rows in tables.items()}


@cache
def whole_salon(name: str) -> Salon:
    """The files of the invented salon in this dialect, with few rows."""
    dialect = next(one for one in (CONTRACT, *DIALECTS) if one.name == name)
    order = "mdy" if "/" in str(dialect.day(date(2026, 3, 14)))[:2] else "dmy"
    if "[dates]" not in dialect.settings:  # so few days may leave open what many would decide
        dialect = replace(dialect, settings=f'{dialect.settings}[dates]\norder = "{order}"\n')
    with tempfile.TemporaryDirectory() as folder:
        root = write_salon(Path(folder) / "salon", cut_to(salon(), ROWS), dialect)
        return {path.relative_to(root).as_posix(): path.read_bytes() for path in sorted(root.rglob("*.*"))}


def texts_of(drawn: random.Random, content: bytes, dialect: Dialect) -> bytes:
    """The file with its text spoilt in one of many ways."""
    text = content.decode(dialect.encoding, "replace")
    spoilt = drawn.choice(SPOIL)(drawn, text, dialect.delimiter)
    return spoilt.encode(dialect.encoding, "replace")


def a_place(drawn: random.Random, length: int) -> int:
    return drawn.randrange(length) if length else 0


def insert_nasty(drawn: random.Random, text: str, _: str) -> str:
    at = a_place(drawn, len(text))
    return text[:at] + drawn.choice(NASTY) + text[at:]


def replace_cell(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    cells = lines[at].split(delimiter)
    cells[a_place(drawn, len(cells))] = drawn.choice(NASTY)
    lines[at] = delimiter.join(cells)
    return "\n".join(lines)


def empty_column(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = [line.split(delimiter) for line in text.split("\n")]
    column = a_place(drawn, max(map(len, lines)))
    keep_heading = drawn.random() < 0.7
    for cells in lines[1 if keep_heading else 0 :]:
        if column < len(cells):
            cells[column] = drawn.choice(NASTY) if drawn.random() < 0.2 else ""
    return "\n".join(delimiter.join(cells) for cells in lines)


def swap_columns(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = [line.split(delimiter) for line in text.split("\n")]
    widest = max(map(len, lines))
    one, other = a_place(drawn, widest), a_place(drawn, widest)
    below = 1 if drawn.random() < 0.5 else 0
    for cells in lines[below:]:
        if max(one, other) < len(cells):
            cells[one], cells[other] = cells[other], cells[one]
    return "\n".join(delimiter.join(cells) for cells in lines)


def double_column(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = [line.split(delimiter) for line in text.split("\n")]
    column = a_place(drawn, len(lines[0]))
    return "\n".join(delimiter.join([*cells, *cells[column : column + 1]]) for cells in lines)


def drop_column(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = [line.split(delimiter) for line in text.split("\n")]
    column = a_place(drawn, len(lines[0]))
    return "\n".join(delimiter.join(cells[:column] + cells[column + 1 :]) for cells in lines)


def cut_lines(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    return "\n".join(lines[:at] + lines[at + drawn.randint(1, 6) :])


def double_lines(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    return "\n".join(lines[: at + drawn.randint(1, 6)] + lines[at:])


def shuffle_lines(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    drawn.shuffle(lines)
    return "\n".join(lines)


def cut_line_short(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    lines[at] = lines[at][: a_place(drawn, len(lines[at]))]
    return "\n".join(lines)


def join_lines(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    return "\n".join([*lines[:at], "".join(lines[at : at + 2]), *lines[at + 2 :]])


def add_quotes(drawn: random.Random, text: str, _: str) -> str:
    for _number in range(drawn.randint(1, 5)):
        at = a_place(drawn, len(text))
        text = text[:at] + '"' + text[at:]
    return text


def quote_a_line(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    lines[at] = f'"{lines[at]}"'
    return "\n".join(lines)


def change_delimiter(drawn: random.Random, text: str, delimiter: str) -> str:
    other = drawn.choice(",;\t|:^~ ")
    if drawn.random() < 0.5:
        return text.replace(delimiter, other)
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    lines[at] = lines[at].replace(delimiter, other)
    return "\n".join(lines)


def change_line_ends(drawn: random.Random, text: str, _: str) -> str:
    return text.replace("\n", drawn.choice(["\r", "\r\n", "\n\n", "\r\r\n", "\x0b", "\x85", "\u2028", ""]))


def widen(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    lines[at] += delimiter * drawn.choice([1, 2, 300, 20_000])
    return "\n".join(lines)


def put_above(drawn: random.Random, text: str, delimiter: str) -> str:
    above = ["sep=;", "sep=", 'sep="', "Title", delimiter * 5, '"', "Total", text.partition("\n")[0], "1;2;3", "\ufeff"]
    return "\n".join([*drawn.choices(above, k=drawn.randint(1, 40)), text])


def cut_off(drawn: random.Random, text: str, _: str) -> str:
    return text[: a_place(drawn, len(text))]


def many_times(drawn: random.Random, text: str, _: str) -> str:
    return text * drawn.choice([2, 3, 30])


def huge_cell(drawn: random.Random, text: str, _: str) -> str:
    at = a_place(drawn, len(text))
    return text[:at] + drawn.choice(['"', "", "9", "'"]) + drawn.choice("x9 ,\n") * 300_000 + text[at:]


def change_digits(drawn: random.Random, text: str, _: str) -> str:
    return "".join(drawn.choice("0123456789") if one.isdigit() and drawn.random() < 0.1 else one for one in text)


def change_letters(drawn: random.Random, text: str, _: str) -> str:
    share = drawn.choice([0.002, 0.02, 0.2])
    return "".join(
        chr(drawn.choice([34, 44, 59, 10, 0, 233, 9, 0x20AC])) if drawn.random() < share else one for one in text
    )


Spoil = Callable[[random.Random, str, str], str]
SPOIL: tuple[Spoil, ...] = (
    insert_nasty, replace_cell, replace_cell, replace_cell, empty_column, swap_columns, double_column, drop_column,
    cut_lines, double_lines, shuffle_lines, cut_line_short, join_lines, add_quotes, add_quotes, quote_a_line,
    change_delimiter, change_line_ends, widen, put_above, cut_off, many_times, huge_cell, change_digits, change_letters,
)  # fmt: skip


def bytes_of(drawn: random.Random, content: bytes) -> bytes:
    """The file with its bytes spoilt in one of many ways."""
    spoilt = bytearray(content)
    way = drawn.choice(["flip", "flip", "cut", "nul", "noise", "empty", "drop", "mark", "again"])
    at = a_place(drawn, len(spoilt))
    if way == "flip":
        for _ in range(drawn.choice([1, 3, 40])):
            place = a_place(drawn, len(spoilt))
            spoilt[place : place + 1] = bytes([drawn.randrange(256)])
    elif way == "cut":
        del spoilt[at:]
    elif way == "nul":
        spoilt[at:at] = b"\0" * drawn.choice([1, 7, 5000])
    elif way == "noise":
        spoilt[at:at] = drawn.randbytes(drawn.choice([1, 20, 3000]))
    elif way == "empty":
        spoilt.clear()
    elif way == "drop":
        del spoilt[at : at + drawn.choice([1, 50, 1000])]
    elif way == "mark":
        spoilt[0:0] = drawn.choice([b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b"\xff\xfe\0\0", b"PK\3\4", b"%PDF-1.4"])
    else:
        spoilt = spoilt + spoilt
    return bytes(spoilt)


def archive_of(drawn: random.Random, content: bytes, dialect: Dialect) -> bytes:
    """A zip archive or workbook whose members, or whose own bytes, are spoilt."""
    if drawn.random() < 0.25:
        return bytes_of(drawn, content)
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            members = {item.filename: archive.read(item) for item in archive.infolist()}
    except Exception:  # spoilt before, in one of the many ways that zipfile tells apart
        return content
    spoilt = drawn.choice(sorted(members))
    if spoilt.endswith(".csv"):
        members[spoilt] = a_file(drawn, members[spoilt], "x.csv", dialect)
    else:
        sheets = [name for name in members if "sheet" in name or name == "content.xml"] or [spoilt]
        spoilt = drawn.choice(sheets) if drawn.random() < 0.6 else spoilt
        members[spoilt] = xml_of(drawn, members[spoilt])
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, member in members.items():
            if drawn.random() > 0.01:
                archive.writestr(name, member)
    return packed.getvalue()


def xml_of(drawn: random.Random, content: bytes) -> bytes:
    """The text of a sheet with cells, rows or numbers changed, or spoilt as any bytes are."""
    text = content.decode("utf-8", "replace")
    swaps = [
        ("<row", "<rom"), ("</v>", "99</v>"), ('t="s"', 't="n"'), ('t="s"', 't="e"'), ("<v>", "<v>-"),
        ('r="B', 'r="A'), ('r="A2"', 'r="ZZ3"'), ('office:value-type="float"', 'office:value-type="date"'),
        ('office:value="', 'office:value="x'), ('office:value-type="date"', ""), ("</t>", "\n</t>"),
        ('number-columns-repeated="2"', 'number-columns-repeated="900000"'),
    ]  # fmt: skip
    usable = [(old, new) for old, new in swaps if old in text]
    if drawn.random() < 0.6 and usable:
        old, new = drawn.choice(usable)
        return text.replace(old, new, drawn.choice([1, 1, 5, 10_000])).encode()
    if drawn.random() < 0.3:
        return text.partition("<sheetData")[0].encode() + b"<sheetData/></worksheet>"
    return bytes_of(drawn, content)


def a_file(drawn: random.Random, content: bytes, name: str, dialect: Dialect) -> bytes:
    if name.endswith((".zip", ".xlsx", ".ods")):
        return archive_of(drawn, content, dialect)
    return bytes_of(drawn, content) if drawn.random() < 0.2 else texts_of(drawn, content, dialect)


def spoilt_salon(seed: int) -> tuple[str, Salon]:
    """The dialect's name and the files of the salon of this seed."""
    drawn = random.Random(seed)
    books = drawn.random() < WORKBOOKS
    kinds = [one for one in (CONTRACT, *DIALECTS) if (one.container in ("xlsx", "ods")) is books]
    dialect = drawn.choice(kinds)
    files = dict(whole_salon(dialect.name))
    exports = sorted(name for name in files if name != "salon.toml")
    for _ in range(drawn.choice([1, 1, 1, 2, 4])):
        name = drawn.choice(exports)
        if drawn.random() < 0.04:
            files[drawn.choice(exports)] = files[name]
        else:
            # Half of what is spoilt is bookings, which everything else hangs on.
            bookings = dict(zip(TABLES, dialect.files.split(","), strict=True))["bookings"].strip()
            name = f"exports/{bookings}.csv" if f"exports/{bookings}.csv" in files and drawn.random() < 0.4 else name
            files[name] = a_file(drawn, files[name], name, dialect)
    return dialect.name, files


def write(folder: Path, files: Salon) -> None:
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)


@dataclass(frozen=True)
class Outcome:
    """What became of a seed: 'loaded', 'stopped' or 'FAILED', how long it took, and the sentence or what went wrong."""

    seed: int
    dialect: str
    kind: str
    seconds: float
    says: str = ""


class TookTooLongError(BaseException):
    """No Exception, and above all no OSError, so that nobody takes it for a fault of the file."""


@contextmanager
def at_most(seconds: int) -> Iterator[None]:
    """Raises TookTooLongError where the body works longer than that, or waits much longer, as on a busy machine."""

    def too_long(number: int, frame: FrameType | None) -> None:
        raise TookTooLongError(f"took more than {seconds} s")

    before = {number: signal.signal(number, too_long) for number in (signal.SIGALRM, signal.SIGPROF)}
    signal.alarm(WAITING * seconds)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.setitimer(signal.ITIMER_PROF, 0)
        for number, handler in before.items():
            signal.signal(number, handler)


def outcome(seed: int) -> Outcome:
    """Load the salon of this seed in a folder of its own."""
    dialect, files = spoilt_salon(seed)
    folder = Path(tempfile.mkdtemp())
    began = time.process_time()
    try:
        write(folder, files)
        with at_most(MOST_SECONDS):
            wrong = what_is_wrong(folder)
        kind = "FAILED" if wrong else "loaded"
    except WorkStopped as stop:
        sentence = str(stop)
        proper = sentence.endswith(".") and "\n" not in sentence and "Traceback" not in sentence and len(sentence) < 600
        kind, wrong = "stopped" if proper else "FAILED", sentence
    except KeyboardInterrupt:
        raise
    except BaseException as error:  # a panic of a native library is no Exception
        last = traceback.extract_tb(error.__traceback__)[-1]
        kind, wrong = "FAILED", f"{type(error).__name__} at {Path(last.filename).name}:{last.lineno}: {error}"[:600]
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    return Outcome(seed, dialect, kind, time.process_time() - began, wrong)


def what_is_wrong(folder: Path) -> str:
    """Load it and count: what does not add up in the report or in the book, empty where all is well."""
    report = load_unchecked(folder)
    parts = pl.sum_horizontal("rows_used", "repeats", "superseded", "set_aside")
    odd = report.files.filter((pl.col("rows_read") != parts) | (pl.min_horizontal(pl.col(pl.Int64)) < 0))
    if odd.height:
        return f"rows do not add up: {odd.rows()}"
    book = read_book(folder)
    for file, table, used, aside in report.files.select("file", "table", "rows_used", "set_aside").iter_rows():
        kept = book.tables[table].filter(file=file)["row"].n_unique() if table else 0
        named = book.set_aside.filter(file=file)["row"].n_unique() if table else aside
        if (kept, named) != (used, aside):
            return f"{file}: {used} rows used but {kept} in the book, {aside} set aside but {named} kept"
    bare = report.findings.filter(~pl.col("message").str.ends_with(".") | ~pl.col("what_to_do").str.ends_with("."))
    return f"no sentence: {bare['message'].to_list()}" if bare.height else ""


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("count", type=int, nargs="?", default=5000)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--write", nargs=2, metavar=("SEED", "FOLDER"))
    chosen = parser.parse_args()
    if chosen.write:
        write(Path(chosen.write[1]), spoilt_salon(int(chosen.write[0]))[1])
        return
    counts: Counter[str] = Counter()
    slowest = Outcome(0, "", "", 0.0)
    with ProcessPoolExecutor(2) as pool:
        for found in pool.map(outcome, range(chosen.first, chosen.first + chosen.count), chunksize=20):
            counts[found.kind] += 1
            slowest = max(slowest, found, key=lambda one: one.seconds)
            if found.kind == "FAILED":
                print(f"seed {found.seed} ({found.dialect}, {found.seconds:.1f} s): {found.says}", flush=True)
            if counts.total() % 500 == 0:
                print(dict(counts), flush=True)
    print(dict(counts), f"slowest: seed {slowest.seed}, {slowest.seconds:.1f} s ({slowest.dialect})")


if __name__ == "__main__":
    main()
