"""How long a page takes on the server, for the demo salon as it is and for a group of many of it, each with a name.

Run by hand: `python tests/bench/bench_pages.py [COPIES …]` (default 1 70). Every page is opened once, run again as it
is, and run again for other months, without a browser. Printed are, over all pages, the median and the 95th percentile
of the runs again, and by page the first visit (figures worked out) and the runs after it, in milliseconds; then, for
the slowest page, in which functions of ours the time of a run again goes.
"""

import cProfile
import csv
import logging
import pstats
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from bench_load import IDS, multiply
from streamlit.testing.v1 import AppTest

from dashboard.access import who
from dashboard.access.people import THE_OWNER
from dashboard.page import pages
from dashboard.start import APP

ROOT = Path(__file__).parents[2]
TODAY = "2026-11-01"
MONTHS = ("2026-09", "2025-10", "2026-03", "2024-12", "2026-10")
AGAIN = 3
LIMITS_MS = {1: 300, 70: 1500}
LOAD = (
    "import sys; from pathlib import Path; from analytics.intake.load import load;"
    "from analytics.definitions import findings;"
    "from analytics.settings import read_settings; from analytics.loading import in_silence;"
    "folder = Path(sys.argv[1]);"
    "load(folder, read_settings(folder), lambda tables: findings.hits([]), in_silence)"
)


def name_the_salons(folder: Path) -> None:
    """A column `site` in every export whose rows belong to one of the copies: the copies are salons of a group."""
    for path in (folder / "exports").glob("*.csv"):
        with path.open(encoding="utf-8", newline="") as file:
            mark = ";" if ";" in file.readline() else ","
            file.seek(0)
            heading, *rows = csv.reader(file, delimiter=mark)
        places = [place for place, name in enumerate(heading) if name in IDS]
        if not places:
            continue
        with path.open("w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file, delimiter=mark, lineterminator="\n")
            writer.writerow([*heading, "site"])
            ids = (next((row[place] for place in places if row[place]), "K0-") for row in rows)
            writer.writerows([*row, some_id.split("-")[0]] for row, some_id in zip(rows, ids, strict=True))


def timed(app: AppTest) -> float:
    """Milliseconds of one run of the page."""
    start = time.perf_counter()
    app.run()
    took = (time.perf_counter() - start) * 1000
    assert not app.exception, [error.value for error in app.exception]
    return took


def opened(name: str) -> AppTest:
    app = AppTest.from_file(str(APP), default_timeout=300)
    app.run()
    return app.switch_page(f"../pages/{name}.py")


def measure(name: str) -> tuple[float, list[float], list[float]]:
    """First visit; runs again; runs for another month."""
    app = opened(name)
    first, again = timed(app), [timed(app) for _ in range(AGAIN)]
    others = []
    if any(box.key == "month" for box in app.selectbox):
        for month in MONTHS:
            app.selectbox(key="month").select(month)
            others.append(timed(app))
    return first, again, others


def report(copies: int) -> None:
    print(f"\n{copies} × the demo salon")
    start = time.perf_counter()
    opened("month")
    print(f"  book opened and first page shown {time.perf_counter() - start:8.1f} s")
    found = {name: measure(name) for name in pages()}
    for name, (first, again, others) in found.items():
        month = f"   another month {statistics.median(others):7.0f}" if others else ""
        print(f"  {name:14} first visit {first:7.0f}   again {statistics.median(again):7.0f}{month}")
    runs = sorted(ms for _, again, others in found.values() for ms in [*again, *others])
    high = runs[min(len(runs) - 1, round(0.95 * len(runs)))]
    limit = f"; the aim is under {LIMITS_MS[copies]}" if copies in LIMITS_MS else ""
    print(f"  all pages, runs again: median {statistics.median(runs):.0f}, 95th percentile {high:.0f} ms{limit}")
    _dominates(max(found, key=lambda name: statistics.median([*found[name][1], *found[name][2]])))


def _dominates(name: str) -> None:
    """The functions of ours in which the slowest page spends its time."""
    app = opened(name)
    app.run()
    profile = cProfile.Profile()
    from streamlit.runtime.scriptrunner import script_runner

    plain = script_runner.exec_func_with_error_handling
    script_runner.exec_func_with_error_handling = lambda *given: profile.runcall(plain, *given)
    app.run()
    script_runner.exec_func_with_error_handling = plain
    stats = pstats.Stats(profile)
    rows = sorted(((row[3], key) for key, row in stats.stats.items()), reverse=True)  # type: ignore[attr-defined]
    ours = [(took, key) for took, key in rows if str(ROOT) in key[0] or "polars" in key[0] or "plotly" in key[0]]
    print(f"  most of a run of {name} (profiled, ms, with what they call):")
    for took, (file, line, function) in ours[:14]:
        print(f"    {took * 1000:7.0f}  {'/'.join(Path(file).parts[-2:])}:{line} {function}")


def main() -> None:
    who.ALONE = THE_OWNER
    logging.disable(logging.WARNING)  # it warns that there is no browser
    for copies in [int(word) for word in sys.argv[1:]] or [1, 70]:
        with tempfile.TemporaryDirectory() as name:
            multiply(Path(name), copies)
            if copies > 1:
                name_the_salons(Path(name))
            subprocess.run([sys.executable, "-c", LOAD, name], check=True, cwd=ROOT)
            sys.argv = ["app.py", "--salon", name, "--today", TODAY]
            report(copies)


if __name__ == "__main__":
    main()
