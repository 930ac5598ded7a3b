"""Exports spoilt at random, always in the same way for the same seed, and what loading makes of them.

`python tests/fuzz/mutate.py 5000` loads that many spoilt salons, every tenth with Great Expectations, and counts the
outcomes; with `--first N` from another seed on; `python tests/fuzz/mutate.py --write SEED FOLDER` writes one of them to
look at.
"""

import argparse
import importlib
import random
import resource
import shutil
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from multiprocessing import get_context
from pathlib import Path
from types import FrameType

import polars as pl

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from dialects.writer import TABLES
from salons import load_unchecked

from analytics.intake.publishing.report import Report
from analytics.loading import load_salon
from analytics.stops import WorkStopped
from analytics.storage.book import read_book
from fuzz.archives import a_file
from fuzz.havoc import havoc_salon
from fuzz.salons import Salon, a_whole_salon

MOST_SECONDS = 10
"""Of work (processor time), so that a busy machine is not taken for a hang."""
WAITING = 12  # times as long on the clock
MOST_MEGABYTES = 1024
CHECKED = 10  # every so many seeds Great Expectations looks as well
AT_ONCE = 50  # seeds of one process, forked anew for the next so that its memory tells of few


def spoilt_salon(seed: int) -> tuple[str, Salon]:
    """The dialect's name and the files of the salon of this seed."""
    drawn = random.Random(seed)
    dialect, files = a_whole_salon(drawn)
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
    """What became of a seed: 'loaded', 'stopped' or 'FAILED', how long it took, the sentence or what went wrong.

    megabytes: the most memory that its process, or one that it had made, held until then."""

    seed: int
    dialect: str
    kind: str
    seconds: float
    says: str = ""
    megabytes: int = 0


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


def outcome(seed: int, spoil: Callable[[int], tuple[str, Salon]] = spoilt_salon, checked: int = 0) -> Outcome:
    """Load the salon of this seed, spoilt in this way, in a folder of its own.

    checked: every so many seeds Great Expectations looks as well; 0 for none."""
    dialect, files = spoil(seed)
    folder = Path(tempfile.mkdtemp())
    began = time.process_time()
    try:
        write(folder, files)
        with at_most(MOST_SECONDS):
            wrong = what_is_wrong(folder, load_salon if checked and seed % checked == 0 else load_unchecked)
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
    return Outcome(seed, dialect, kind, time.process_time() - began, wrong, _most_megabytes())


def _most_megabytes() -> int:
    return max(resource.getrusage(who).ru_maxrss for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)) // 1024


def what_is_wrong(folder: Path, load: Callable[[Path], Report] = load_unchecked) -> str:
    """Load it and count: what does not add up in the report or in the book, empty where all is well."""
    report = load(folder)
    parts = pl.sum_horizontal("rows_used", "repeats", "superseded", "set_aside")
    odd = report.files.filter((pl.col("rows_read") != parts) | (pl.min_horizontal(pl.col(pl.Int64)) < 0))
    if odd.height:
        return f"rows do not add up: {odd.rows()}"
    book = read_book(folder)
    for file, table, used, aside in report.files.select("file", "table", "rows_used", "set_aside").iter_rows():
        rows = book.tables[table].filter(file=file)["row"] if table else pl.Series([], dtype=pl.Int64)
        kept, named = len(rows), book.set_aside.filter(file=file).height if table else aside
        # Several records side by side share a row; several services in one cell are one record of several lines.
        if used not in (kept, rows.n_unique()) or named != aside:
            return f"{file}: {used} rows used but {kept} in the book, {aside} set aside but {named} kept"
    bare = report.findings.filter(~pl.col("message").str.ends_with(".") | ~pl.col("what_to_do").str.ends_with("."))
    return f"no sentence: {bare['message'].to_list()}" if bare.height else ""


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("count", type=int, nargs="?", default=5000)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--write", nargs=2, metavar=("SEED", "FOLDER"))
    parser.add_argument("--havoc", action="store_true", help="bytes spoilt blindly, in place of rows and cells")
    parser.add_argument("--processes", type=int, default=2)
    chosen = parser.parse_args()
    spoil = havoc_salon if chosen.havoc else spoilt_salon
    if chosen.write:
        write(Path(chosen.write[1]), spoil(int(chosen.write[0]))[1])
        return
    counts: Counter[str] = Counter()
    slowest = Outcome(0, "", "", 0.0)
    most = 0
    importlib.import_module("great_expectations")  # once, before the processes are forked
    with get_context("fork").Pool(chosen.processes, maxtasksperchild=1) as pool:
        seeds = range(chosen.first, chosen.first + chosen.count)
        for found in pool.imap(partial(outcome, spoil=spoil, checked=CHECKED), seeds, chunksize=AT_ONCE):
            counts[found.kind] += 1
            slowest, most = max(slowest, found, key=lambda one: one.seconds), max(most, found.megabytes)
            if found.megabytes > MOST_MEGABYTES:
                print(f"seed {found.seed} or one before it: {found.megabytes} MB", flush=True)
            if found.kind == "FAILED":
                print(f"seed {found.seed} ({found.dialect}, {found.seconds:.1f} s): {found.says}", flush=True)
            if counts.total() % 100 == 0:
                print(dict(counts), flush=True)
    print(f"most memory of a process: {most} MB")
    print(dict(counts), f"slowest: seed {slowest.seed}, {slowest.seconds:.1f} s ({slowest.dialect})")


if __name__ == "__main__":
    main()
