"""How a load grows: the demo salon many times over, against DuckDB's bare typed read of the same files in one run.

Run by hand: `python tests/bench/bench_load.py [COPIES …]` (default 5 20 70). Each number of copies is loaded and
checked in a process of its own; printed are rows, seconds, the ratio to the bare read, the same of processor time
(which a busy machine stretches less), peak memory, and between sizes the exponent with which the time grows.
"""

import csv
import io
import json
import math
import resource
import subprocess
import sys
import tempfile
import time
from itertools import pairwise
from pathlib import Path

DEMO = Path(__file__).parents[2] / "demo_data"
IDS = {"booking_id", "client_id"}
BARE = {
    "bookings": {"starts_at": "TIMESTAMP", "ends_at": "TIMESTAMP", "price": "DECIMAL(18,4)", "line": "BIGINT"},
    "product_log": {"logged_at": "TIMESTAMP", "mixed_g": "DECIMAL(12,3)", "left_g": "DECIMAL(12,3)"},
    "payments": {"paid_at": "TIMESTAMP"},
    "sales": {"sold_at": "TIMESTAMP"},
    "clients": {"client_id": "VARCHAR"},
}


def multiply(folder: Path, copies: int) -> int:
    """Write the demo so many times over, visits and clients with numbers of their own; answers the booking rows.

    Ragged rows are left out, since DuckDB's bare read takes none.
    """
    (folder / "exports").mkdir()
    (folder / "salon.toml").write_text((DEMO / "salon.toml").read_text(encoding="utf-8"), encoding="utf-8")
    rows = 0
    for path in sorted((DEMO / "exports").glob("*.csv")):
        text = path.read_text(encoding="utf-8-sig")
        delimiter = ";" if ";" in text.partition("\n")[0] else ","
        heading, *records = [row for row in csv.reader(io.StringIO(text), delimiter=delimiter) if row]
        records = [record for record in records if len(record) == len(heading) and record != heading]
        places = [place for place, name in enumerate(heading) if name in IDS]
        many = copies if places else 1
        rows += many * len(records) if path.name.startswith("bookings") else 0
        with (folder / "exports" / path.name).open("w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file, delimiter=delimiter, lineterminator="\n")
            writer.writerow(heading)
            for copy in range(many):
                writer.writerows(_numbered(record, places, copy) for record in records)
    return rows


def _numbered(record: list[str], places: list[int], copy: int) -> list[str]:
    return [f"K{copy}-{cell}" if place in places and cell else cell for place, cell in enumerate(record)]


def bare_read(folder: Path) -> tuple[float, float]:
    """Seconds, and seconds of work, that DuckDB takes to read the same files into typed tables, and nothing else."""
    import duckdb

    start, worked = time.perf_counter(), time.process_time()
    con = duckdb.connect()
    for table, types in BARE.items():
        files = [str(path) for path in (folder / "exports").glob(f"{table}*.csv")]
        delimiter = ";" if table in ("product_log", "payments") else ","
        con.execute(
            f"CREATE TABLE {table} AS FROM read_csv({files}, header=true, delim='{delimiter}', types={types}, "
            "ignore_errors=true, null_padding=true, strict_mode=false)"
        )
    return time.perf_counter() - start, time.process_time() - worked


def measured(folder: Path) -> dict[str, float]:
    """Load and check the folder's salon in this process: seconds and peak memory in GB."""
    from analytics.loading import load_salon

    steps: dict[str, float] = {}
    last = ["start", time.perf_counter()]

    def progress(step: str, done: int, total: int) -> None:
        now = time.perf_counter()
        name = str(last[0]).split()[0] + ("" if str(last[0]).startswith("Reading") else " " + str(last[0])[8:])
        steps[name] = steps.get(name, 0.0) + now - float(last[1])
        last[:] = [step, now]

    start, worked = time.perf_counter(), time.process_time()
    load_salon(folder, progress)
    seconds, work = time.perf_counter() - start, time.process_time() - worked
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024**2
    return {"seconds": seconds, "work": work, "peak_gb": peak, "steps": steps}  # type: ignore[dict-item]


def main() -> None:
    if sys.argv[1:2] == ["--measure"]:
        print(json.dumps(measured(Path(sys.argv[2]))))
        return
    points: list[tuple[int, float]] = []
    for copies in [int(word) for word in sys.argv[1:]] or [5, 20, 70]:
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            rows = multiply(folder, copies)
            bare, bare_work = bare_read(folder)
            child = subprocess.run(
                [sys.executable, __file__, "--measure", name], capture_output=True, text=True, check=True
            )
            got = json.loads(child.stdout.splitlines()[-1])
        points.append((rows, got["seconds"]))
        print(
            f"{copies:3} copies, {rows:9,} booking rows: {got['seconds']:6.1f} s, {got['seconds'] / bare:4.1f} × "
            f"the bare read ({bare:.2f} s), in work {got['work'] / bare_work:.1f} × ({bare_work:.2f} s), "
            f"peak {got['peak_gb']:.2f} GB"
        )
        print("    " + ", ".join(f"{step} {took:.1f}" for step, took in got["steps"].items() if took >= 0.3))
    for (few, quick), (many, slow) in pairwise(points):
        print(f"exponent between {few:,} and {many:,} rows: {math.log(slow / quick) / math.log(many / few):.2f}")


if __name__ == "__main__":
    main()
