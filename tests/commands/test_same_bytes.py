"""The same command on the same salon prints the same bytes, whatever the hash seed and the number of threads."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from demo import DEMO
from salons import load_unchecked

PROCESSES = (("0", "1"), ("1", "2"), ("4711", "4"))  # PYTHONHASHSEED, POLARS_MAX_THREADS
EVERY_FIGURE = """
import hashlib, io, sys
from contextlib import redirect_stdout, redirect_stderr
from analytics.catalogue import figure_names
from analytics.commands.cli import main
for name in figure_names():
    said = io.StringIO()
    with redirect_stdout(said), redirect_stderr(said):
        status = main([name, "--salon", sys.argv[1], "--today", sys.argv[2], "--format", "csv"])
    print(name, status, hashlib.sha256(said.getvalue().encode()).hexdigest())
"""


@pytest.fixture(scope="module")
def salon(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The last seven months of the demo salon: large enough that polars shares the work out among threads."""
    folder = tmp_path_factory.mktemp("demo")
    earlier = shutil.ignore_patterns(*(f"*_{span}*" for span in (2023, 2024, 2025, "2026-Q1")))
    shutil.copytree(DEMO / "exports", folder / "exports", ignore=earlier)
    shutil.copy(DEMO / "salon.toml", folder)
    load_unchecked(folder)
    return folder


def test_every_figure_prints_the_same_bytes(salon: Path) -> None:
    started = [
        subprocess.Popen(
            [sys.executable, "-c", EVERY_FIGURE, str(salon), "2026-11-01"],
            env={**os.environ, "PYTHONHASHSEED": seed, "POLARS_MAX_THREADS": threads},
            stdout=subprocess.PIPE,
            text=True,
        )
        for seed, threads in PROCESSES
    ]
    answers = [process.communicate()[0].splitlines() for process in started]
    assert answers[0] and all(" 0 " in line for line in answers[0])
    assert answers[0] == answers[1] == answers[2]
