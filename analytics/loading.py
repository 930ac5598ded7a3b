"""Load a salon and check what was loaded: the wiring of intake, checks and oddities."""

from pathlib import Path

import polars as pl

from analytics.checks.expectations import check_crossings, check_tables, import_ahead
from analytics.checks.oddities import oddities
from analytics.intake.load import Progress, load
from analytics.intake.publishing.report import Report
from analytics.settings import read_settings


def in_silence(step: str, done: int, steps: int) -> None:
    """A progress that shows nothing."""


def load_salon(folder: Path, progress: Progress = in_silence) -> Report:
    """Build the book of the folder's exports. Raises WorkStopped; the old book then stays as it was."""
    settings = read_settings(folder)

    def check(tables: dict[str, pl.DataFrame]) -> pl.DataFrame:
        return pl.concat([check_tables(tables), check_crossings(tables, settings), oddities(tables, settings)])

    return load(folder, settings, check, progress, when_read=import_ahead)
