"""How long the accountant's folder of a year takes on the demo salon of three years, part by part.

Run by hand: `python tests/bench/bench_handover.py`. Medians of several runs in one sitting; the command as a whole is
also shown as a ratio to a bare start of Python with polars. Nothing here is a test.
"""

import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path

from analytics.handover.accountant.manifest import manifest
from analytics.handover.accountant.package import Handover
from analytics.handover.accountant.period_names import named_period
from analytics.salon import open_salon

DEMO = Path(__file__).parents[2] / "demo_data"
RUNS = 5
PERIODS = ("2025", "2025-Q4", "2025-12")


def median(work: Callable[[], object]) -> float:
    runs = []
    for _ in range(RUNS):
        start = time.perf_counter()
        work()
        runs.append(time.perf_counter() - start)
    return statistics.median(runs)


def command(folder: Path, *words: str) -> float:
    """Seconds of a command, started anew each time."""
    return median(lambda: subprocess.run([sys.executable, *words], cwd=folder, capture_output=True, check=True))


def main() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        shutil.copytree(DEMO / "exports", folder / "exports")
        shutil.copy(DEMO / "salon.toml", folder)
        load = [sys.executable, "-m", "analytics.commands.cli", "load"]
        subprocess.run(load, cwd=folder, capture_output=True, check=True)
        salon = open_salon(folder, date(2026, 11, 1))
        bare = command(folder, "-c", "import polars")
        print(f"{'bare start of Python with polars':40} {bare:6.2f} s")
        for period in PERIODS:
            days = named_period(period)
            parts = {
                "sheets": lambda days=days: Handover(salon, days).sheets,
                "sheets and files": lambda days=days: Handover(salon, days).files,
                "with the manifest": lambda days=days: manifest(Handover(salon, days)),
            }
            for title, work in parts.items():
                print(f"{period + ', ' + title:40} {median(work):6.2f} s")
            took = command(folder, "-m", "analytics.commands.cli", "handover", period)
            print(f"{period + ', the command':40} {took:6.2f} s   {took / bare:5.1f} × bare start")


if __name__ == "__main__":
    main()
