"""A small salon and its loads."""

import multiprocessing
import os
from dataclasses import dataclass
from multiprocessing.connection import Connection
from multiprocessing.context import ForkServerProcess
from pathlib import Path
from unittest.mock import patch

import pytest
from salons import BOOKINGS, load_unchecked

from analytics.stops import WorkStopped
from analytics.storage.book import read_book

TESTS = Path(__file__).parents[1]
IN_A_FORK = multiprocessing.get_context("forkserver")  # what a load imports is imported once for all of them
IN_A_FORK.set_forkserver_preload(["salons"])
LONGEST_S = 60


@dataclass(frozen=True)
class Loading:
    """A load at work in a process of its own."""

    process: ForkServerProcess
    said: "Connection[object, object]"

    def kill(self) -> None:
        self.process.kill()
        self.process.join()

    def done(self) -> str | None:
        """Wait for its end; what it stopped with, None where it did its work."""
        self.process.join(LONGEST_S)
        assert self.process.exitcode is not None, "The load did not end."
        assert self.process.exitcode == 0
        said = self.said.recv()
        return None if said is None else str(said)


def _load(salon: Path, said: "Connection[object, object]") -> None:
    try:
        load_unchecked(salon)
        said.send(None)
    except WorkStopped as stopped:
        said.send(str(stopped))


def visits(count: int) -> str:
    """A bookings export of so many visits."""
    row = "B{0},1,C1,Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00\n"
    return BOOKINGS + "".join(row.format(number) for number in range(count))


def booked(salon: Path) -> int:
    """How many visits the book holds."""
    return read_book(salon).tables["bookings"].height


def names(salon: Path) -> list[str]:
    """What lies in the folder; the empty lock of a load may stay."""
    return sorted(path.name for path in salon.iterdir() if path.name != ".salon.duckdb.lock")


def start_load(salon: Path) -> Loading:
    """A load in a process of its own."""
    said, say = IN_A_FORK.Pipe(duplex=False)
    process = IN_A_FORK.Process(target=_load, args=(salon, say))
    paths = os.pathsep.join([str(TESTS), str(TESTS.parent), *filter(None, [os.environ.get("PYTHONPATH")])])
    with patch.dict(os.environ, PYTHONPATH=paths):
        process.start()
    say.close()
    return Loading(process, said)


def one_sentence(capsys: pytest.CaptureFixture[str]) -> str:
    """What the command line said on stderr, which is one sentence."""
    lines = [text for text in capsys.readouterr().err.splitlines() if text.strip()]
    assert len(lines) == 1 and lines[0].startswith("salon-figures: ") and lines[0].endswith("."), lines
    return lines[0]
