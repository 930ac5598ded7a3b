"""What several commands share: loading with a bar, opening a salon, narrowing to a period, starting the pages."""

import subprocess
import sys
from datetime import date
from pathlib import Path

import polars as pl

from analytics.catalogue import figure
from analytics.definitions.tables import TABLES
from analytics.intake.publishing.report import Report
from analytics.periods import Period
from analytics.salon import Salon, need_month, open_salon
from analytics.sentences.not_in_sums import not_in_sums_sentence
from analytics.settings import read_settings
from analytics.stops import WorkStopped
from analytics.storage.book import BOOK
from analytics.storage.private_files import write_private
from analytics.storage.together import ERASING, HANDING_OVER, throw_away
from analytics.storage.together import go_on as go_on_together
from analytics.storage.working import sweep, working_privately


def load_with_bar(folder: Path) -> Report:
    """Load the folder's exports, with a progress bar on stderr, and check what was loaded."""
    from rich.console import Console
    from rich.progress import Progress

    from analytics.loading import load_salon

    finish_stopped(folder)
    with working_privately(folder), Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("Loading", total=None)
        return load_salon(
            folder, lambda step, done, steps: bar.update(task, description=step, completed=done, total=steps)
        )


def finish_stopped(folder: Path) -> None:
    """Finish what was stopped after it began to count, a handover or an erasing, before anything is read."""
    if (folder / HANDING_OVER).exists() and go_on_together(folder, HANDING_OVER):
        throw_away(folder, HANDING_OVER)
    if not (folder / ERASING).exists():
        return
    from analytics.erasing.erase import go_on
    from analytics.loading import load_salon

    with working_privately(folder):
        if go_on(folder, lambda: load_salon(folder)):
            print("An erasing that was stopped is finished now.", file=sys.stderr)


def open_or_load(folder: Path, today: date) -> Salon:
    """The salon of the folder; its exports are loaded first where there is no book yet."""
    read_settings(folder)
    finish_stopped(folder)
    sweep(folder)
    if not (folder / BOOK).exists():
        print("There is no book yet: loading the exports.", file=sys.stderr)
        load_with_bar(folder)
    salon = open_salon(folder, today)
    if salon.stale:
        print(
            "The exports, or how salon.toml reads them, have changed since the book was made; salon-figures load reads "
            "them.",
            file=sys.stderr,
        )
    return salon


def asked_period(salon: Salon, month: str | None, start: date | None, end: date | None) -> Period | None:
    """The days asked for, cut to the months the book covers; None for all of them. Raises WorkStopped."""
    if month is None and start is None and end is None:
        return None
    if month is not None and (start is not None or end is not None):
        raise WorkStopped("--month and --from or --to exclude each other; use one of them.")
    if month is not None:
        return need_month(salon, Period.month(month))
    asked = Period(start or date.min, end or date.max)
    if asked.empty:
        raise WorkStopped(f"--to {asked.end} is not after --from {asked.start}; --to is the day after the last.")
    return need_month(salon, asked)


def kept_out(salon: Salon, name: str, period: Period | None) -> list[str]:
    """What keeps rows of the period out of the sums of the figure, as a sentence; none where nothing does."""
    if not figure(name).takes("period"):
        return []
    asked = tuple(table for table in TABLES if figure(name).takes(table))
    of_product = "product_log" in asked and "payments" not in asked
    causes, received = salon.not_in_sums(period, asked if of_product else ())
    said = not_in_sums_sentence(causes, received, salon.settings)
    return [said] if said else []


def start_dashboard(folder: Path, today: date | None, port: int, on_network: str | None = None) -> int:
    """Start the pages as a process of their own and wait for it.

    What the folder lacks, settings or exports, is said, and the pages start all the same: they say what is missing.
    """
    print(f"Opening the pages of the salon in {folder.resolve()}.", flush=True)
    try:
        open_or_load(folder, today or date.today())
    except WorkStopped as stop:
        print(stop, file=sys.stderr)
    command = [sys.executable, "-P", "-m", "dashboard.start", "--salon", str(folder.resolve()), "--port", str(port)]
    if today is not None:
        command += ["--today", today.isoformat()]
    if on_network is not None:
        command += ["--on-network", *([on_network] if on_network else [])]
    try:
        return subprocess.call(command)
    except KeyboardInterrupt:
        return 0


def written(frame: pl.DataFrame, path: Path) -> Path:
    """The frame as a CSV file that only its owner reads."""
    from analytics.output import as_csv

    return write_private(as_csv(frame).encode(), path)
