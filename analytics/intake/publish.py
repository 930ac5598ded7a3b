"""A new book beside the old one, swapped in whole, so that a load that fails or is killed changes nothing."""

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import duckdb

from analytics.book import BOOK, connect
from analytics.stops import WorkStopped

SWAP_TRIES = 20


@contextmanager
def new_book(folder: Path) -> Iterator[duckdb.DuckDBPyConnection]:
    """A connection to a book beside the old one, which it replaces where the work in between succeeds."""
    book = folder / BOOK
    building = folder / f"{BOOK}.building"
    if (folder / f"{BOOK}.wal").exists():
        raise WorkStopped(
            f"{BOOK}.wal lies beside {BOOK}: another program changed the book or stopped in the middle; close it, "
            "delete both files and load again."
        )
    con = _start(building)
    try:
        yield con
        con.execute("CHECKPOINT")
    except BaseException:
        con.close()
        _remove(building)
        raise
    con.close()
    _sync(building)
    _swap(building, book)
    _sync(folder)


def _start(building: Path) -> duckdb.DuckDBPyConnection:
    """Start a new file where no other load is at work on it; what a killed load left behind is removed."""
    try:
        connect(building, read_only=False).close()
    except duckdb.Error as error:
        if "lock" in str(error):
            raise WorkStopped("Another load of this salon is at work; wait until it is done.") from None
    except OSError:
        pass
    try:
        _remove(building)
        return connect(building, read_only=False)
    except (OSError, duckdb.Error):
        raise WorkStopped(f"{building.parent} cannot be written to; check its rights and the free space.") from None


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
