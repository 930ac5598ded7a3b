"""How long a cold start, a load and a figure take on the demo salon, each against a bare start of Python with polars.

Run by hand: `python tests/bench/bench_start.py`. It prints medians of several runs in one sitting, and their ratio to
the bare start, so that two machines can be compared; nothing here is a test.
"""

import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

DEMO = Path(__file__).parents[2] / "demo_data"
RUNS = 5
COMMANDS = {
    "bare start of Python with polars": ["-c", "import polars"],
    "load of the demo": ["-m", "analytics.commands.cli", "load"],
    "roots, cold": ["-m", "analytics.commands.cli", "roots", "--today", "2026-11-01"],
    "ahead, cold": ["-m", "analytics.commands.cli", "ahead", "--today", "2026-11-01"],
    "month, all months, cold": ["-m", "analytics.commands.cli", "month", "--today", "2026-11-01"],
    "chairs, all months, cold": ["-m", "analytics.commands.cli", "chairs"],
}


def seconds(words: list[str], folder: Path) -> float:
    """Median wall time of the command, started anew each time."""
    runs = []
    for _ in range(RUNS):
        start = time.perf_counter()
        subprocess.run([sys.executable, *words], cwd=folder, capture_output=True, check=True)
        runs.append(time.perf_counter() - start)
    return statistics.median(runs)


def main() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        shutil.copytree(DEMO / "exports", folder / "exports")
        shutil.copy(DEMO / "salon.toml", folder)
        bare = None
        for title, words in COMMANDS.items():
            took = seconds(words, folder)
            bare = bare or took
            print(f"{title:35} {took:6.2f} s   {took / bare:5.1f} × bare start")


if __name__ == "__main__":
    main()
