"""What the accountant's page shows of a handover: nothing of a client is in it, whoever looks."""

import io
import re
import zipfile
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any

import streamlit as st

from analytics import wording
from analytics.definitions.rows import Row
from analytics.handover.accountant.closed_periods import FOLDER, read_closed
from analytics.handover.accountant.folder import HANDOVER, verified
from analytics.handover.accountant.manifest import NAME, manifest
from analytics.handover.accountant.package import Handover
from analytics.handover.accountant.period_names import named_period, period_words, periods_of
from analytics.handover.accountant.sheets.cover import NOTHING
from analytics.handover.accountant.sheets.sheet import AccountSheet, heading
from analytics.periods import Period
from analytics.salon import Salon
from analytics.stops import WorkStopped
from dashboard.data import Reading, Stamp
from dashboard.frames import Frame, holds
from dashboard.parts import layout

HOW = (
    "A covering page to read first, a workbook with a sheet for each question, the same as CSV, every line down to its "
    "export row, the journal as a plain-text ledger, a statement to file, and a manifest that proves what was sent. No "
    "client is in it. salon-figures handover writes the same folder."
)
PLAIN = ("First handover", "Nothing", "In all")  # need no heading
MIDNIGHT = (1980, 1, 1, 0, 0, 0)  # of every file in the archive, so that the same handover is the same archive


@st.cache_resource(max_entries=6, show_spinner="Adding up …")
def _handover(key: tuple[str, Stamp, Stamp, date, str | None], name: str, _salon: Salon) -> Handover:
    """What the salon hands over of the period. key: folder, its stamp, that of its closed periods, day and site."""
    folder, *_, site = key
    closed = () if site else tuple(read_closed(Path(folder)))
    return Handover(_salon, named_period(name), closed)


@dataclass(frozen=True)
class Handed:
    """One period as the page shows it. name: 2026-Q3, 2026-09 or 2026."""

    read: Reading
    name: str

    @cached_property
    def made(self) -> Handover:
        read = self.read
        closings = tuple(path.stat().st_mtime_ns for path in sorted((read.folder / FOLDER).glob("*.json")))
        return _handover((str(read.folder), read.at, closings, read.today, read.site), self.name, read.salon)

    @property
    def sentence(self) -> str:
        """What was charged, the tax in it, and whether it agrees."""
        return f"{self.made.words}: {self.made.charged_words} {self.made.verdict_words}"

    def _sheet(self, name: str) -> AccountSheet:
        return next(sheet for sheet in self.made.sheets if sheet.name == name)

    @property
    def closed(self) -> bool:
        return any(one.period == self.made.period for one in self.made.closed)

    @property
    def decisions(self) -> list[str]:
        """What somebody has to look at, rows in no sum among it, a sentence each."""
        undecided = [f"{what}: {how}" for what, how in self.made.covering.decisions]
        told = {what for what, _ in self.made.covering.decisions}
        aside = [f"{what}: {how}" for what, how in self.made.left_out if what not in told]
        return [*undecided, *aside] or [NOTHING]

    @property
    def changed(self) -> list[str]:
        """What later exports changed in closed periods, a sentence each."""
        return [how if what in PLAIN else f"{what}: {how}" for what, how in self.made.covering.changed]

    def side(self, side: str) -> list[Row]:
        """What was due, or what was paid, part by part. side: due or paid."""
        return self.read.during("due_and_paid", named_period(self.name)).filter(side=side).to_dicts()

    def side_words(self, side: str) -> str:
        """What of it there was in all."""
        amounts = [row["side_amount"] for row in self.side(side)]
        return wording.money(amounts[0] if amounts else 0, self.read.settings)

    @property
    def scale(self) -> float:
        """The larger side, so that both can be held against each other."""
        return max((float(row["side_amount"]) for side in ("due", "paid") for row in self.side(side)), default=0) or 1.0

    @property
    def titles(self) -> list[str]:
        """The sheets, in the order of the workbook."""
        return [sheet.title for sheet in self.made.sheets]

    def preview(self, title: str) -> tuple[Frame, dict[str, Any], str]:
        """The rows of a sheet, how its columns are shown, and what stands under its title."""
        sheet = next(one for one in self.made.sheets if one.title == title)
        columns = {name: _column(sheet, name, self.read) for name in sheet.frame.columns}
        return sheet.frame, columns, f"{sheet.note} {_totals(sheet, self.read)}".strip()

    def archive(self) -> bytes:
        """All files in one .zip: of a closed period those that were handed over, else as they are now."""
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
            for name, content in self.files().items():
                entry = zipfile.ZipInfo(f"{self.name}/{name}", MIDNIGHT)
                entry.external_attr = 0o600 << 16
                archive.writestr(entry, content, zipfile.ZIP_DEFLATED)
        return packed.getvalue()

    def files(self) -> dict[str, bytes]:
        """Name -> content, the manifest among them."""
        if self.closed:
            return {path.name: path.read_bytes() for path in sorted(self._folder.iterdir())}
        return {**self.made.files, NAME: manifest(self.made)}

    @property
    def _folder(self) -> Path:
        return self.read.folder / HANDOVER / self.name

    @property
    def why_not(self) -> str:
        """Why nothing can be handed over from here; empty where it can."""
        if self.read.site is not None:
            return "Choose all salons to hand over: the folder holds every salon of the group."
        try:
            if self.closed and len(verified(self._folder)) > 1:
                return f"{self.name} is closed, and its folder is not as it was handed over."
        except WorkStopped as stopped:
            return str(stopped)
        return "Load the exports that have changed, then hand over." if self.read.stale else ""


def _totals(sheet: AccountSheet, read: Reading) -> str:
    """'In all: net €120.00, tax €25.20.'"""
    sums = [name for name in sheet.sums if sheet.is_money(name)]
    said = [f"{heading(name).lower()} {wording.money(sheet.total(name), read.settings)}" for name in sums]
    return f"In all: {', '.join(said)}." if said else ""


def _column(sheet: AccountSheet, name: str, read: Reading) -> Any:
    kind, label = holds(sheet.frame, name), heading(name)
    if sheet.is_money(name):
        return layout.money_column(label, read.settings)
    if kind == "days":
        return layout.day_column(label)
    if kind == "text":
        return st.column_config.TextColumn(label, width="large" if name == sheet.wide else None)
    return layout.number_column(label, 0 if kind == "whole numbers" else 2)


def names(read: Reading) -> dict[str, list[str]]:
    """Month, Quarter and Year -> the periods of the book, newest first."""
    return periods_of(Period(Period.month(read.months[0]).start, Period.month(read.months[-1]).end))


def words(name: str, read: Reading) -> str:
    """A period as people say it."""
    quarter = re.fullmatch(r"([0-9]{4})-Q([1-4])", name)
    return f"Quarter {quarter[2]} of {quarter[1]}" if quarter else period_words(named_period(name), read.settings)
