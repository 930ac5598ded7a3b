"""How one file would be read if it were among the salon's exports, without putting it there.

What the rows would become is told by the real load, into a temporary folder that holds the salon's exports and the
file. What stops the work is carried along with everything that can still be shown, so that a match can be corrected.
"""

import os
import shutil
import tempfile
from dataclasses import dataclass, field, replace
from pathlib import Path

import polars as pl

from analytics.definitions import findings
from analytics.definitions.columns import Table
from analytics.definitions.findings import CATALOGUE
from analytics.intake.cells.casts import folded_word, known_words
from analytics.intake.cells.dialect import in_contract_form
from analytics.intake.evidence.decide import Decided, decide
from analytics.intake.evidence.plan import Plan, SheetPlan
from analytics.intake.load import load
from analytics.intake.meaning.heading_row import AMOUNT, MOST_ABOVE, cells_of, shortened
from analytics.intake.meaning.headings import best_match
from analytics.intake.meaning.match import NOT_USED, Match, Meaning
from analytics.intake.meaning.recognise import as_corrected, recognise
from analytics.intake.meaning.sheets import Sheet
from analytics.intake.meaning.table_rules import LEFT_OUT, leaves_out_file, rule_for, told_table
from analytics.intake.publishing.report import Report
from analytics.intake.reading.find import FOLDER, WORKBOOKS, Export, find_exports
from analytics.intake.reading_plan import Sheets
from analytics.settings import Settings
from analytics.stops import LeftOpen, TablesLacking, WorkStopped
from analytics.storage.keeping import free_name

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
class TriedFile:
    """One sheet of the file.

    name: as the book would call it. table: None where the headings fit none. rule: the name under [tables] by which it
    was read so, or left out. missing: columns the table needs and the headings do not have. headings: each with its
    column and by what it was matched. rows: the first rows, as text in the contract's own way of writing. counts: None
    where the load would stop, or nothing is read. stopped: what stops it, in a sentence. waits_for: the tables that no
    export is yet, where that is all that stops it. leaves_open: the section of salon.toml that has to say how it is
    written, where the file does not show it.
    """

    name: str
    table: str | None = None
    rule: str | None = None
    left_out: bool = False
    missing: tuple[str, ...] = ()
    headings: tuple[Meaning, ...] = ()
    rows: pl.DataFrame = field(default_factory=pl.DataFrame)
    counts: Counts | None = None
    findings: pl.DataFrame = field(default_factory=lambda: findings.summarise(findings.hits([])))
    stopped: str | None = None
    waits_for: tuple[str, ...] = ()
    leaves_open: str | None = None

    @property
    def usable(self) -> bool:
        """Whether the file could be kept and something of this sheet would count; a sheet without rows does no harm."""
        if self.stopped or self.counts is None or self.table is None:
            return False
        return self.counts.set_aside < self.counts.rows_read or self.counts.rows_read == 0


def try_file(path: Path, name: str, folder: Path, settings: Settings) -> list[TriedFile]:
    """Each sheet of the file at `path` as it would be read under the safe form of `name` among the folder's exports.

    A file that lies among them is looked at where it lies. Nothing is written into the folder, and nothing is raised: a
    sentence that stops the work stands in `stopped`.
    """
    with tempfile.TemporaryDirectory(prefix="salon-figures-") as made:
        alone, together = Path(made) / "alone", Path(made) / "together"
        kept_as = _name_there(path, folder) or free_name(name, path, folder)[0]
        tried = _alone(path, kept_as, alone, folder, settings)
        stopped = next((one.stopped for one in tried if one.stopped), None)
        if stopped is None:
            try:
                return _counted(tried, _report(path, kept_as, folder, together, settings))
            except TablesLacking as stop:
                return [replace(one, stopped=str(stop), waits_for=stop.tables) for one in tried]
            except WorkStopped as stop:
                stopped = str(stop).replace(str(together), str(folder))
        return [replace(one, stopped=one.stopped or stopped) for one in tried]


def _name_there(path: Path, folder: Path) -> str | None:
    """What the file is called where it is one of the folder's exports."""
    there, exports = path.resolve(), (folder / FOLDER).resolve()
    return there.relative_to(exports).as_posix() if there.is_relative_to(exports) else None


def _alone(path: Path, name: str, folder: Path, salon: Path, settings: Settings) -> list[TriedFile]:
    """The sheets of the file, not counted yet; what they are is told with the salon's other exports beside them."""
    _place(path, folder / FOLDER / name)
    try:
        exports = find_exports(folder)
    except WorkStopped as stop:
        empty = f"{name} holds no files; pack the exports into it again."
        return [TriedFile(name, stopped=empty if str(folder) in str(stop) else str(stop))]
    reader = Sheets(settings)
    others = [sheet for export in _exports(salon) if export.name != name for sheet in _beginning(export, reader)]
    decided = decide([*others, *(sheet for export in exports for sheet in _beginning(export, reader))], settings)
    return [tried for export in exports for tried in _of_export(export, reader, decided)]


def _beginning(export: Export, reader: Sheets) -> list[Sheet]:
    """Its first rows; none where it is left out or cannot be read, which is said elsewhere."""
    try:
        return [] if leaves_out_file(export.name, reader.settings) else reader.beginning_of(export)
    except WorkStopped:
        return []


def _of_export(export: Export, reader: Sheets, decided: dict[str, Decided]) -> list[TriedFile]:
    settings = reader.settings
    unwanted = leaves_out_file(export.name, settings)
    try:
        sheets = reader.of(export)
    except WorkStopped as stop:
        return [_left_out(export.name, settings) if unwanted else TriedFile(export.name, stopped=str(stop))]
    if sheets:
        return [_of_sheet(sheet, settings, decided.get(sheet.name)) for sheet in sheets]
    if export.suffix in WORKBOOKS:
        return [TriedFile(export.name, stopped=f"{export.name} has no sheet with anything in it; export it again.")]
    if unwanted:
        return [_left_out(export.name, settings)]
    fault = CATALOGUE["unknown_file"]
    return [TriedFile(export.name, stopped=f"{fault.says.format(file=export.name)}; {fault.what_to_do}.")]


def _left_out(name: str, settings: Settings, rows: pl.DataFrame | None = None) -> TriedFile:
    rule = rule_for(name, settings)
    return TriedFile(name, rule=rule, left_out=True, rows=pl.DataFrame() if rows is None else rows)


def _of_sheet(sheet: Sheet, settings: Settings, decided: Decided | None) -> TriedFile:
    settings = as_corrected(sheet, settings)
    unwanted = told_table(sheet.name, settings) == LEFT_OUT
    if sheet.records.is_empty():
        empty = TriedFile(sheet.name, stopped=f"{sheet.name} is empty; export it again.")
        return _left_out(sheet.name, settings) if unwanted else empty
    at, match, plan = _meant(sheet, settings, decided)
    headings = cells_of(sheet.records, at)
    below = sheet.records.slice(at + 1)
    if unwanted:
        return _left_out(sheet.name, settings, _as_typed(below, headings))
    if match is None:
        unused = tuple(Meaning(heading, None, NOT_USED) for heading in headings)
        return TriedFile(sheet.name, headings=unused, rows=_as_typed(below, headings))
    rows, stopped = below, None
    try:
        rows = recognise(sheet, settings, plan).rows
    except WorkStopped as stop:
        stopped = str(stop)
    shown, open_way = _as_read(rows, match, sheet.name, settings)
    return TriedFile(
        sheet.name,
        match.table.name,
        rule_for(sheet.name, settings),
        missing=tuple(_missing(match, decided)),
        headings=match.why,
        rows=shown,
        stopped=stopped or (str(open_way) if open_way else None),
        leaves_open=open_way.section if open_way else None,
    )


def _meant(sheet: Sheet, settings: Settings, decided: Decided | None) -> tuple[int, Match | None, Plan]:
    """Place of the heading, what it is read as (by its words where values were not asked), and the plan for it."""
    if decided is None:
        at = _heading_place(sheet, settings)
        return at, best_match(cells_of(sheet.records, at), sheet.name, settings), Plan()
    reading = decided.reading
    if decided.whole:
        match = reading.match
        return reading.view.at, match, Plan({sheet.name: SheetPlan(reading.view.at, match)})
    likely = len(reading.places) >= 2
    return reading.view.at, reading.match if likely else None, Plan(passed_by=frozenset({sheet.name}))


def _missing(match: Match, decided: Decided | None) -> list[str]:
    if decided is None:
        return match.missing
    return [] if decided.whole else [" or ".join(names).replace("+", " and ") for names in decided.reading.lacking]


def _heading_place(sheet: Sheet, settings: Settings) -> int:
    """The record that is the heading, or comes nearest to one; the first where none does."""

    def fit(at: int) -> tuple[bool, int, int]:
        cells = shortened(cells_of(sheet.records, at))
        if any(map(AMOUNT.match, cells)):
            return False, 0, 0
        match = best_match(cells, sheet.name, settings)
        filled = sum(1 for cell in cells if cell.strip())
        return (not match.missing, len(match.places), filled) if match else (False, 0, filled)

    fits = [fit(at) for at in range(min(MOST_ABOVE, sheet.records.height))]
    whole = [at for at, (complete, *_) in enumerate(fits) if complete]
    return whole[0] if whole else max(range(len(fits)), key=lambda at: fits[at][1])


def _as_typed(rows: pl.DataFrame, headings: list[str]) -> pl.DataFrame:
    """The first rows under their headings, as they stand in the file."""
    names: dict[str, str] = {}
    for place, heading in enumerate(headings):
        if f"c{place}" in rows.columns:
            alone = heading.strip() and heading not in names and heading != "row"
            names[heading if alone else f"{heading} ({place + 1})".strip()] = f"c{place}"
    return rows.head(ROWS_SHOWN).select("row", **{name: pl.col(place) for name, place in names.items()})


def _as_read(rows: pl.DataFrame, match: Match, name: str, settings: Settings) -> tuple[pl.DataFrame, LeftOpen | None]:
    """The first rows under the table's columns; what a file leaves open is told, and its cells stay as typed.

    The whole file is looked at, since all its dates together tell which number of them is the day.
    """
    texts = rows.select("row", **{column: pl.col(f"c{place}") for column, place in match.places.items()})
    try:
        read = in_contract_form(texts, match.table, name, settings).head(ROWS_SHOWN)
    except LeftOpen as stop:
        return texts.head(ROWS_SHOWN), stop
    order = [column for column in match.table.headings if column in read.columns]
    return _words_known(read, match.table, settings).select("row", *order), None


def _words_known(rows: pl.DataFrame, table: Table, settings: Settings) -> pl.DataFrame:
    """Words that are known are shown as the contract's word for them, the others as typed."""
    known = {
        column.name: [words.get(folded_word(text), text) for text in rows[column.name]]
        for column in table.columns
        if column.name in rows.columns and column.type in ("word", "yes_no")
        for words in [known_words(table, column, settings)]
    }
    return rows.with_columns(pl.Series(name, texts, dtype=pl.String) for name, texts in known.items())


def _report(path: Path, name: str, folder: Path, together: Path, settings: Settings) -> Report:
    """The real load of the salon's exports and the file, without the checks of loaded tables, which count nothing."""
    for one in dict.fromkeys(export.path for export in _exports(folder)):
        _place(one, together / FOLDER / one.relative_to(folder / FOLDER))
    _place(path, together / FOLDER / name)
    return load(together, settings, lambda _: findings.hits([]), lambda *_: None)


def _exports(folder: Path) -> list[Export]:
    """The exports that are there; a salon may have none yet."""
    there = folder / FOLDER
    return find_exports(folder) if there.is_dir() and any(one.is_file() for one in there.rglob("*")) else []


def _place(path: Path, place: Path) -> None:
    """The same file under another name; a copy only where it cannot have two names."""
    if place.exists():
        return
    place.parent.mkdir(parents=True, exist_ok=True)
    try:
        os.link(path.resolve(), place)
    except OSError:
        shutil.copyfile(path, place)


def _counted(tried: list[TriedFile], report: Report) -> list[TriedFile]:
    counts = {row["file"]: row for row in report.files.iter_rows(named=True)}
    names = Counts.__dataclass_fields__
    return [
        replace(
            one,
            counts=Counts(**{name: counts[one.name][name] for name in names}) if _is_counted(one, counts) else None,
            findings=report.findings.filter(pl.col("file") == one.name),
        )
        for one in tried
    ]


def _is_counted(tried: TriedFile, counts: dict[str, dict[str, object]]) -> bool:
    return tried.name in counts and not tried.left_out
