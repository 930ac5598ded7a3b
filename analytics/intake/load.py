"""Exports -> a new book: text to typed rows, repeats and older states told apart, everything accounted for.

The book is built beside the old one and swapped in whole, so that a load that fails or is killed leaves the old book
as it was.
"""

import json
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from pathlib import Path

import duckdb
import polars as pl

from analytics.definitions import findings
from analytics.definitions.columns import CORRECTS, Table
from analytics.definitions.tables import TABLES
from analytics.intake.cells.column_patterns import wants_a_look
from analytics.intake.cells.dialect import in_contract_form
from analytics.intake.cells.made import Made, days_filled_down, filled_down, of_places, out_of_cents, with_made
from analytics.intake.cells.typed import typed_rows
from analytics.intake.evidence.plan import Plan
from analytics.intake.meaning.erased_rows import without_erased
from analytics.intake.meaning.recognise import Read, Recognised, left_out, recognise
from analytics.intake.meaning.sheets import Sheet
from analytics.intake.meaning.table_rules import idle_rules, leaves_out_file
from analytics.intake.publishing.accounting import account, set_aside
from analytics.intake.publishing.drafted_menu import DRAFT, DRAFTED, drafted_menu, said_of_draft, with_usual_minutes
from analytics.intake.publishing.publish import new_book
from analytics.intake.publishing.report import Report
from analytics.intake.publishing.row_states import Loaded, tell_apart
from analytics.intake.reading.find import FOLDER, Export, find_exports
from analytics.intake.reading.read_ahead import read_ahead
from analytics.intake.reading.split import split_records
from analytics.intake.reading_plan import Sheets, planned
from analytics.settings import FILE_NAME, Settings
from analytics.stops import TablesLacking
from analytics.storage.book import FORMAT, MADE
from analytics.storage.erased import Erased, read_erased

MOST_NAMED = 12  # headings in one sentence
UNASKED = ("client_id", "chair")  # made without a finding: many exports have none; figures say what rests on them
GUARDED = r"^'([=+\-@])"  # how a text that could start a formula is written out

Typed = dict[str, list[pl.DataFrame]]
"""Of each table typed_schema's rows with their number `rid`, one frame per sheet."""
Progress = Callable[[str, int, int], None]
"""Called with what is being done, how many steps are done, and how many there are."""
Check = Callable[[dict[str, pl.DataFrame]], pl.DataFrame]
"""Called with the loaded tables; answers further hits (findings.HITS)."""


def load(
    folder: Path, settings: Settings, check: Check, progress: Progress, when_read: Callable[[], None] = lambda: None
) -> Report:
    """Build the book of the folder's exports and swap it in. Raises WorkStopped; the old book then stays as it was.

    when_read: called once all exports have been read and are tables.
    """
    exports, erased = find_exports(folder), read_erased(folder)
    steps = len(exports) + len(TABLES) + 2
    with new_book(folder) as con, ThreadPoolExecutor(1) as beside:
        reader = Sheets(settings)
        progress("Looking at the exports", 0, steps)
        plan = planned(exports, reader)
        sheets, unread, typed = _read_exports(
            exports, reader, plan, erased, lambda step, done: progress(step, done, steps)
        )
        _need_tables(sheets)
        drafted = _menu(typed, sheets, settings)
        when_read()
        loaded: dict[str, Loaded] = {}
        for number, table in enumerate(TABLES.values()):
            progress(f"Loading {table.name}", len(exports) + number, steps)
            loaded[table.name] = tell_apart(con, table, typed.pop(table.name), settings)
        frames = {name: table.frame for name, table in loaded.items()}
        writing = beside.submit(_write_beside, con.cursor(), frames)
        aside = pl.concat([*(table.rejected for table in loaded.values()), *(sheet.faulty for sheet in sheets)])
        corrected = pl.concat(table.corrected for table in loaded.values())
        worth = pl.concat(table.worth for table in loaded.values())
        accounts = pl.concat(table.accounts for table in loaded.values())
        files, wrong = account(sheets, unread, aside, corrected, accounts)
        again = partial(_read_again, plan=plan, erased=erased, settings=settings)
        typing = beside.submit(set_aside, sheets, wrong, worth, again)
        progress("Checking", steps - 2, steps)
        noted = [check(frames), *(table.noted for table in loaded.values()), *(sheet.noted for sheet in sheets)]
        made = _made(sheets, not drafted.is_empty())
        noted += [_idle(sheets, unread, settings), _unused(sheets), plan.noted, drafted, _made_hits(made)]
        report = Report(files, findings.summarise(pl.concat([wrong, *noted]), _headings(sheets)))
        progress("Writing the book", steps - 1, steps)
        writing.result()
        _write(con, {"files": report.files, "findings": report.findings, "set_aside": typing.result(), "made": made})
        con.execute("CREATE TABLE about AS SELECT ? AS format, ? AS of_reading", [FORMAT, settings.of_reading])
    progress("Done", steps, steps)
    return report


def _read_exports(
    exports: list[Export],
    reader: Sheets,
    plan: Plan,
    erased: Erased | None,
    progress: Callable[[str, int], None],
) -> tuple[list[Read], list[Export], Typed]:
    """What is kept of each sheet, the exports that are of no kind we read, and the rows of each table in the order of
    their exports; the next exports are read meanwhile."""
    typed: Typed = {name: [] for name in TABLES}
    sheets: list[Read] = []
    unread: list[Export] = []

    def read(export: Export) -> tuple[Export, list[tuple[Read, pl.DataFrame | None]]]:
        known = export.fingerprinted() if export.readable else export
        return known, _sheets(known, reader, plan, erased)

    progress(f"Reading {exports[0].name}", 0)
    for done, (export, found) in enumerate(read_ahead(exports, read), start=1):
        if done < len(exports):
            progress(f"Reading {exports[done].name}", done)
        unread += [] if found else [export]
        for sheet, rows in found:
            if sheet.match and rows is not None:
                before = typed[sheet.match.table.name]
                before.append(rows.with_row_index("rid", offset=sum(frame.height for frame in before)))
            sheets.append(sheet)
    return sheets, unread, typed


def _sheets(
    export: Export, reader: Sheets, plan: Plan, erased: Erased | None
) -> list[tuple[Read, pl.DataFrame | None]]:
    """What is kept of each sheet of the export, with its rows where it is a table."""
    settings = reader.settings
    if leaves_out_file(export.name, settings):
        return [(left_out(Sheet(export.name, split_records("", ","), export)).read(), None)]
    recognised = (recognise(sheet, settings, plan) for sheet in reader.of(export))
    return [_rows(*without_erased(sheet, erased), settings) for sheet in recognised]


def _rows(sheet: Recognised, erased: pl.DataFrame, settings: Settings) -> tuple[Read, pl.DataFrame | None]:
    if sheet.match is None:
        return sheet.read(), None
    texts, noted, made = _texts(sheet.match.table, sheet, settings)
    return sheet.read(pl.concat([noted, erased]), made), typed_rows(texts, sheet.match.table, settings).rechunk()


def _read_again(sheet: Read, rows: pl.Series, plan: Plan, erased: Erased | None, settings: Settings) -> dict[int, str]:
    """The cells of these rows as they were typed, as JSON."""
    again = next(found for found in Sheets(settings).of(sheet.export) if found.name == sheet.name)
    cells = without_erased(recognise(again, settings, plan), erased)[0].cells(rows)
    return {row: json.dumps(named, ensure_ascii=False) for row, named in cells.items()}


def _idle(sheets: list[Read], unread: list[Export], settings: Settings) -> pl.DataFrame:
    """Hits of the names under [tables] that nothing is called."""
    idle = idle_rules([*(sheet.name for sheet in sheets), *(export.name for export in unread)], settings)
    return findings.hits([("idle_rule", "", FILE_NAME, None, None, rule, None) for rule in idle])


def _unused(sheets: list[Read]) -> pl.DataFrame:
    """Hits of headings that mean no column, of the first of the sheets that have the same ones."""
    first: dict[tuple[str, tuple[str, ...]], str] = {}
    for sheet in sheets:
        if sheet.match and sheet.unused:
            first.setdefault((sheet.match.table.name, sheet.unused), sheet.name)
    return findings.hits(
        [("heading_not_used", table, file, None, None, _named(unused), None) for (table, unused), file in first.items()]
    )


def _named(headings: tuple[str, ...]) -> str:
    more = len(headings) - MOST_NAMED
    return ", ".join(map(repr, headings[:MOST_NAMED])) + (f" and {more} more" if more > 0 else "")


def _need_tables(sheets: list[Read]) -> None:
    have = {sheet.match.table.name for sheet in sheets if sheet.match}
    lacking = () if "bookings" in have else tuple(name for name in ("services", "bookings") if name not in have)
    if lacking:
        raise TablesLacking(
            f"None of the files in {FOLDER}/ is a table of {' or of '.join(lacking)}, which every figure needs; "
            "export it with the headings of the reference, or say in salon.toml what the files are, under [tables], and"
            " what their headings mean, under [columns.<table>].",
            lacking,
        )


def _menu(typed: Typed, sheets: list[Read], settings: Settings) -> pl.DataFrame:
    """Draft a menu from the bookings where there is none, or the minutes of one that has none; hits that say so."""
    if not any(sheet.match and sheet.match.table.name == "services" and sheet.rows_read for sheet in sheets):
        draft = drafted_menu(typed["bookings"], settings).with_row_index("rid")
        typed["services"] = [draft]
        return said_of_draft(draft) if draft.height else findings.hits([])
    without = {sheet.name for sheet in sheets if any(one.column == "hands_on_min" for one in sheet.made)}
    typed["services"] = with_usual_minutes(typed["services"], without, typed["bookings"])
    return findings.hits([])


def _headings(sheets: list[Read]) -> dict[tuple[str, str], str]:
    """What each sheet calls its columns, and those that are made of several."""
    said: dict[tuple[str, str], str] = {}
    for sheet in (one for one in sheets if one.match):
        assert sheet.match is not None
        why, places = sheet.match.why, sheet.match.places
        own = {column: why[place].heading.strip() for column, place in places.items() if place < len(why)}
        made = {
            column: " and ".join(own[part] for part in parts)
            for column, parts in sheet.match.table.made_from.items()
            if column not in own and all(part in own for part in parts)
        }
        said |= {(sheet.name, column): heading for column, heading in (own | made).items() if heading}
    return said


def _made(sheets: list[Read], drafted: bool) -> pl.DataFrame:
    """What was made, as book.MADE; drafted: whether there was no menu."""
    rows = [
        (sheet.name, sheet.match.table.name, one.column, one.how)
        for sheet in sheets
        if sheet.match
        for one in sheet.made
    ]
    if drafted:
        rows += [(DRAFT, "services", column, how) for column, how in DRAFTED.items()]
    return pl.DataFrame(rows, schema=MADE, orient="row")


def _made_hits(made: pl.DataFrame) -> pl.DataFrame:
    """Hits of what was made, of the first of the sheets for which the same was."""
    told = ~pl.col("column").is_in(UNASKED) & (pl.col("file") != DRAFT)
    first = made.filter(told).unique(["table", "column", "how"], keep="first", maintain_order=True)
    return findings.hits(
        [("column_made", table, file, None, column, how, None) for file, table, column, how in first.iter_rows()]
    )


def _texts(table: Table, sheet: Recognised, settings: Settings) -> tuple[pl.DataFrame, pl.DataFrame, list[Made]]:
    """The rows of a sheet as text, as the contract writes it: file, row, and the columns it has or that can be made;
    hits of what was read in a way that wants a look; what was made."""
    places = sheet.match.places if sheet.match else {}
    texts = sheet.rows.select("row", **{name: pl.col(f"c{place}") for name, place in places.items()})
    if "corrects_file" in places:
        texts = texts.with_columns(pl.exclude("row").str.replace(GUARDED, "${1}"))
    constants = {name: value for name, value in sheet.constants.items() if name not in places}
    texts = texts.with_columns(pl.lit(value).alias(name) for name, value in constants.items())
    blanks = days = 0
    if table.name == "bookings":
        texts, blanks = filled_down(texts)
        texts, days = days_filled_down(texts)
    read = in_contract_form(texts, table, sheet.name, settings)
    noted = wants_a_look(texts, read, table, sheet.name)
    read = out_of_cents(read, sheet.cents)
    read, made = with_made(read, table, settings)
    made = [
        *of_places(table, places),
        *made,
        *(Made(name, f"{value!r} in every row") for name, value in constants.items()),
    ]
    once = {"visit_once": blanks, "day_once": days}
    said = [(code, table.name, sheet.name, None, None, str(rows), None) for code, rows in once.items() if rows]
    noted = pl.concat([noted, findings.hits(said)])
    columns = [name for name in [*table.names, *CORRECTS] if name in read.columns]
    return read.select(pl.lit(sheet.name).alias("file"), "row", *columns), noted, made


def _write(con: duckdb.DuckDBPyConnection, frames: dict[str, pl.DataFrame]) -> None:
    for name, frame in frames.items():
        con.register("incoming", frame.to_arrow(compat_level=pl.CompatLevel.newest()))
        con.execute(f'CREATE TABLE "{name}" AS FROM incoming')
        con.unregister("incoming")


def _write_beside(con: duckdb.DuckDBPyConnection, frames: dict[str, pl.DataFrame]) -> None:
    """Write in a thread of its own, by a connection of its own, while the tables are being checked."""
    with con:
        _write(con, frames)
