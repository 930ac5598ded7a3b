"""A new book beside the old one, swapped in whole, so that a load that fails or is killed changes nothing."""

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

import duckdb
from filelock import FileLock, Timeout

from analytics.stops import WorkStopped
from analytics.storage.book import BOOK, connect

SWAP_TRIES = 20


@contextmanager
def new_book(folder: Path) -> Iterator[duckdb.DuckDBPyConnection]:
    """A connection to a book beside the old one, which it replaces where the work in between succeeds.

    Raises WorkStopped where another load of the salon is at work, or the folder cannot be written to.
    """
    book, building = folder / BOOK, folder / f"{BOOK}.building"
    _refuse(folder, book)
    try:
        with FileLock(folder / f".{BOOK}.lock", timeout=0):
            try:
                con = _start(building)
                try:
                    yield con
                    con.execute("CHECKPOINT")
                finally:
                    con.close()
                _sync(building)
                _swap(building, book)
                _sync(folder)
            finally:
                with suppress(OSError):
                    _remove(building)
    except Timeout:
        raise WorkStopped("Another load of this salon is at work; wait until it is done.") from None
    except (OSError, duckdb.IOException, duckdb.FatalException):  # the last is how a checkpoint meets a full disk
        raise WorkStopped(f"{folder} cannot be written to; check its rights and the free space.") from None


def _refuse(folder: Path, book: Path) -> None:
    if book.exists() and not book.is_file():
        raise WorkStopped(f"{book} is not a file; move it away and load again.")
    if (folder / f"{BOOK}.wal").exists():
        raise WorkStopped(
            f"{BOOK}.wal lies beside {BOOK}: another program changed the book or stopped in the middle; close it, "
            "delete both files and load again."
        )


def _start(building: Path) -> duckdb.DuckDBPyConnection:
    """A new file that its owner alone reads; what a killed load left behind is removed."""
    _remove(building)
    con = connect(building, read_only=False)
    building.chmod(0o600)
    return con


def _remove(building: Path) -> None:
    building.unlink(missing_ok=True)
    building.with_name(building.name + ".wal").unlink(missing_ok=True)


def _sync(path: Path) -> None:
    """Make sure what was written is on the disk; a folder can only be synced where the system allows it."""
    if os.name == "nt" and path.is_dir():
        return
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _swap(building: Path, book: Path) -> None:
    """Replace the book; on Windows a reader may hold it for a moment."""
    for attempt in range(SWAP_TRIES):
        try:
            building.replace(book)
            return
        except PermissionError:
            if attempt == SWAP_TRIES - 1:
                raise WorkStopped(f"{book.name} is being used by another program; close it and load again.") from None
            time.sleep(0.1)
