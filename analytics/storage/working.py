"""Temporary copies of what names clients: in one private folder of the salon, and swept away at every start."""

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from filelock import FileLock, Timeout

from analytics.storage.book import BOOK
from analytics.storage.private_files import PART, private_folder

WORKING = ".working"  # a folder per process
WRITTEN_TO = ("exports", "handover", "access")
BUILDING = (f"{BOOK}.building", f"{BOOK}.building.wal", f"{BOOK}.building.tmp")  # the last: what memory had no room for


@contextmanager
def working_privately(salon: Path) -> Iterator[None]:
    """Within it this process and its children keep temporary copies in a private folder of the salon, then removed.

    What processes that were killed have left is removed as well. Raises WorkStopped where it cannot be made.
    """
    working = private_folder(salon / WORKING)
    sweep(salon)
    own = private_folder(working / str(os.getpid()))
    before = tempfile.tempdir, os.environ.get("TMPDIR")
    tempfile.tempdir = os.environ["TMPDIR"] = str(own)
    try:
        yield
    finally:
        tempfile.tempdir = before[0]
        os.environ.pop("TMPDIR")
        os.environ.update({"TMPDIR": before[1]} if before[1] else {})
        shutil.rmtree(own, ignore_errors=True)
        with suppress(OSError):  # others are at work there
            working.rmdir()


def sweep(salon: Path) -> None:
    """Take away what killed processes left: their working folders, files half written, a book half built."""
    for left in (salon / WORKING).glob("*"):
        if not (left.name.isdigit() and _is_alive(int(left.name))):
            shutil.rmtree(left, ignore_errors=True)
    for part in (*salon.glob(f".*{PART}"), *(one for name in WRITTEN_TO for one in (salon / name).rglob(f".*{PART}"))):
        process = part.name[1:].partition("-")[0]
        if not (process.isdigit() and _is_alive(int(process))):
            with suppress(OSError):
                part.unlink()
    if any((salon / name).exists() for name in BUILDING):
        _sweep_book(salon)


def _sweep_book(salon: Path) -> None:
    with suppress(OSError, Timeout), FileLock(salon / f".{BOOK}.lock", timeout=0):  # else a load is at work
        for path in (salon / name for name in BUILDING):
            shutil.rmtree(path) if path.is_dir() else path.unlink(missing_ok=True)


def _is_alive(process: int) -> bool:
    if os.name == "nt":
        return True  # there a signal would end it
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True
