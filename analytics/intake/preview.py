"""How one file would be read if it were among the salon's exports, without putting it there.

What the rows would become is told by the real load, into a temporary folder that holds the salon's exports and the
file. What stops the work is carried along with everything that can still be shown, so that a match can be corrected.
"""

import os
import shutil
import tempfile
from dataclasses import dataclass, field, replace
from pathlib import Path

import duckdb
import polars as pl

from analytics import findings
from analytics.findings import CATALOGUE
from analytics.intake.account import Report
from analytics.intake.casts import cast
from analytics.intake.dialect import in_contract_form
from analytics.intake.find import FOLDER, Export, find_exports
from analytics.intake.heading_row import AMOUNT, MOST_ABOVE, cells_of
from analytics.intake.headings import Match, Meaning, best_match
from analytics.intake.load import load
from analytics.intake.recognise import recognise
from analytics.intake.sheets import Sheet, read_sheets
from analytics.keeping import free_name
from analytics.settings import Settings
from analytics.stops import WorkStopped
from analytics.tables import Table

ROWS_SHOWN = 5


@dataclass(frozen=True)
class Counts:
    """What the rows of a sheet would become."""

    rows_read: int
    rows_used: int
    repeats: int
    superseded: int
    set_aside: int


@dataclass(frozen=True)
class Tried:
    """One sheet of the file.

    name: as the book would call it. table: None where the headings fit none. missing: columns the table needs and the
    headings do not have. headings: each with its column and by what it was matched. rows: the first rows, as text in
    the contract's own way of writing. counts: None where the load would stop. stopped: what stops it, in a sentence.
    """

    name: str
    table: str | None = None
    missing: tuple[str, ...] = ()
    headings: tuple[Meaning, ...] = ()
    rows: pl.DataFrame = field(default_factory=pl.DataFrame)
    counts: Counts | None = None
    findings: pl.DataFrame = field(default_factory=lambda: findings.summarise(findings.hits([])))
    stopped: str | None = None

    @property
    def usable(self) -> bool:
        """Whether the file could be kept and something of this sheet would count; a sheet without rows does no harm."""
        if self.stopped or self.counts is None or self.table is None:
            return False
        return self.counts.set_aside < self.counts.rows_read or self.counts.rows_read == 0


def try_file(path: Path, name: str, folder: Path, settings: Settings) -> list[Tried]:
    """Each sheet of the file at `path` as it would be read under the safe form of `name` among the folder's exports.

    Nothing is written into the folder, and nothing is raised: a sentence that stops the work stands in `stopped`.
    """
    with tempfile.TemporaryDirectory(prefix="salon-figures-") as made:
        kept_as, _ = free_name(name, path, folder)
        try:
            tried = _alone(path, kept_as, Path(made) / "alone", settings)
            stopped = next((one.stopped for one in tried if one.stopped), None)
            if stopped is None:
                return _counted(tried, _report(path, kept_as, folder, Path(made) / "all", settings))
        except WorkStopped as stop:
            stopped = str(stop).replace(str(Path(made) / "all"), str(folder))
            tried = tried if "tried" in locals() else [Tried(kept_as)]
        return [one if one.stopped else replace(one, stopped=stopped) for one in tried]
