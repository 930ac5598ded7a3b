"""A small salon and its loads."""

import subprocess
import sys
from pathlib import Path

import pytest
from salons import BOOKINGS

from analytics.storage.book import read_book

TESTS = Path(__file__).parents[1]


LOAD = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[2])
from salons import load_unchecked
print("ready", flush=True)
load_unchecked(Path(sys.argv[1]))
"""


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


def start_load(salon: Path) -> "subprocess.Popen[str]":
    """A load in a process of its own, at the point where its parts are imported."""
    process = subprocess.Popen(
        [sys.executable, "-c", LOAD, str(salon), str(TESTS)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout and process.stdout.readline() == "ready\n"
    return process


def one_sentence(capsys: pytest.CaptureFixture[str]) -> str:
    """What the command line said on stderr, which is one sentence."""
    lines = [text for text in capsys.readouterr().err.splitlines() if text.strip()]
    assert len(lines) == 1 and lines[0].startswith("salon-figures: ") and lines[0].endswith("."), lines
    return lines[0]
