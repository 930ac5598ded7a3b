"""Exports -> a new book: text to typed rows, repeats and older states told apart, everything accounted for.

The book is built beside the old one and swapped in whole, so that a load that fails or is killed leaves the old book
as it was.
"""

import json
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from importlib.resources import files as package_files
from pathlib import Path

import duckdb
import polars as pl

from analytics import findings
from analytics.book import FORMAT
from analytics.intake.account import Report, account, set_aside
from analytics.intake.dialect import held_as_shares, in_contract_form
from analytics.intake.find import FOLDER, Export, find_exports
from analytics.intake.publish import new_book
from analytics.intake.read_ahead import read_ahead
from analytics.intake.recognise import Read, Recognised, recognise
from analytics.intake.shapes import in_lines, service_names, several_services
from analytics.intake.sheets import read_sheets
from analytics.intake.typed import typed_rows, typed_schema
from analytics.money import digits_of
from analytics.settings import Settings
from analytics.stops import WorkStopped
from analytics.tables import CORRECTS, TABLES, Table

PARTICULAR = {
    "services": "services",
    "bookings": "bookings",
    "product_log": "product_by_name",
    "sales": "product_by_name",
    "stock_moves": "product_by_name",
}

NOTED: dict[str, tuple[str, ...]] = defaultdict(
    tuple, bookings=("note_same_line_twice", "note_price_shared"), clients=("note_same_name",)
)

STATED = """SELECT ready.*, coalesce(states.state, 'used') AS state FROM ready LEFT JOIN states USING (rid)
    WHERE fault IS NULL"""

GUARDED = r"^'([=+\-@])"  # how a text that could start a formula is written out

Progress = Callable[[str, int, int], None]
"""Called with what is being done, how many steps are done, and how many there are."""
Check = Callable[[dict[str, pl.DataFrame]], pl.DataFrame]
"""Called with the loaded tables; answers further hits (findings.HITS)."""


@dataclass(frozen=True)
class Loaded:
    """frame: the rows used. rejected, noted: hits of rows set aside, of odd rows. accounts: rows per file and state.

    corrected: file and row of rows that were set aside and that usable rows of other files stand for.
    """

    frame: pl.DataFrame
    rejected: pl.DataFrame
    noted: pl.DataFrame
    accounts: pl.DataFrame
    corrected: pl.DataFrame


def load(
    folder: Path, settings: Settings, check: Check, progress: Progress, when_read: Callable[[], None] = lambda: None
) -> Report:
    """Build the book of the folder's exports and swap it in. Raises WorkStopped; the old book then stays as it was.

    when_read: called once all exports have been read and are tables.
    """
    exports = find_exports(folder)
    steps = len(exports) + len(TABLES) + 2
    with new_book(folder) as con:
        sheets, unread = _read_exports(con, exports, settings, lambda step, done: progress(step, done, steps))
        _need_tables(sheets)
        when_read()
        tables: dict[str, Loaded] = {}
        for number, table in enumerate(TABLES.values()):
            progress(f"Loading {table.name}", len(exports) + number, steps)
            tables[table.name] = _load_table(con, table, settings)
        progress("Checking", steps - 2, steps)
        noted = [check({name: loaded.frame for name, loaded in tables.items()})]
        noted += [*(loaded.noted for loaded in tables.values()), *(sheet.noted for sheet in sheets)]
        aside = pl.concat([*(loaded.rejected for loaded in tables.values()), *(sheet.faulty for sheet in sheets)])
        corrected = pl.concat(loaded.corrected for loaded in tables.values())
        accounts = pl.concat(loaded.accounts for loaded in tables.values())
        files, wrong = account(sheets, unread, aside, corrected, accounts)
        report = Report(files, findings.summarise(pl.concat([wrong, *noted])))
        _store(con, "files", report.files)
        _store(con, "findings", report.findings)
        _store(con, "set_aside", set_aside(sheets, wrong, lambda sheet, rows: _read_again(sheet, rows, settings)))
        con.execute(f"CREATE TABLE about AS SELECT {FORMAT} AS format")
        progress("Writing the book", steps - 1, steps)
    progress("Done", steps, steps)
    return report


def _read_exports(
    con: duckdb.DuckDBPyConnection, exports: list[Export], settings: Settings, progress: Callable[[str, int], None]
) -> tuple[list[Read], list[Export]]:
    """Put the rows of every recognised sheet into typed_<table>; the next exports are read meanwhile.

    Answers what is kept of each sheet, and the exports that are of no kind we read.
    """
    for table in TABLES.values():
        nothing = pl.DataFrame(schema=typed_schema(table)).with_row_index("rid")
        _store(con, f"typed_{table.name}", nothing, "TEMP TABLE")
    rows_read = 0
    sheets: list[Read] = []
    unread: list[Export] = []
    progress(f"Reading {exports[0].name}", 0)
    for done, (export, found) in enumerate(read_ahead(exports, lambda export: _sheets(export, settings)), start=1):
        if done < len(exports):
            progress(f"Reading {exports[done].name}", done)
        unread += [] if found else [export]
        for sheet, rows in found:
            if sheet.match and rows is not None:
                con.register("incoming", rows.with_row_index("rid", offset=rows_read))
                con.execute(f"INSERT INTO typed_{sheet.match.table.name} FROM incoming")
                con.unregister("incoming")
                rows_read += rows.height
            sheets.append(sheet)
    return sheets, unread


def _sheets(export: Export, settings: Settings) -> list[tuple[Read, pl.DataFrame | None]]:
    """What is kept of each sheet of the export, with its rows where it is a table."""
    recognised = (recognise(sheet, settings) for sheet in read_sheets(export, settings))
    return [_rows(sheet, settings) for sheet in recognised]


def _rows(sheet: Recognised, settings: Settings) -> tuple[Read, pl.DataFrame | None]:
    if sheet.match is None:
        return sheet.read(), None
    texts, noted = _texts(sheet.match.table, sheet, settings)
    return sheet.read(noted), typed_rows(texts, sheet.match.table, settings)


def _read_again(sheet: Read, rows: pl.Series, settings: Settings) -> dict[int, str]:
    """The cells of these rows as they were typed, as JSON."""
    again = next(found for found in read_sheets(sheet.export, settings) if found.name == sheet.name)
    cells = recognise(again, settings).cells(rows)
    return {row: json.dumps(named, ensure_ascii=False) for row, named in cells.items()}


def _need_tables(sheets: list[Read]) -> None:
    have = {sheet.match.table.name for sheet in sheets if sheet.match}
    lacking = [table.name for table in TABLES.values() if table.required and table.name not in have]
    if lacking:
        raise WorkStopped(
            f"None of the files in {FOLDER}/ is a table of {' or of '.join(lacking)}, which every figure needs; "
            "export it with the headings of the manual, or map its headings under [columns.<table>] in salon.toml."
        )


def _load_table(con: duckdb.DuckDBPyConnection, table: Table, settings: Settings) -> Loaded:
    """Make the table in the book from typed_<table>, its rows as they were read.

    ready: with what is particular to the table and the rank of their file. states: of rows that
    others compete with, whether they are used. stated: the usable rows with their state.
    """
    if table.name == "bookings":
        _find_several(con)
    con.execute(f"CREATE TEMP VIEW typed AS FROM typed_{table.name}")
    con.execute(f"CREATE TEMP TABLE ranked AS {_ranked_query(table)}")
    con.execute(f"CREATE TEMP VIEW ready AS {_ready_query(table)}")
    rejected = _rejected(con, table)
    con.execute(f"CREATE TEMP TABLE states AS {_state_query(table)}")
    con.execute("CREATE TEMP VIEW stated AS " + STATED)
    con.execute(f"CREATE TABLE {table.name} AS {_final_query(table)}")
    noted = _notes(con, table)
    accounts = _frame(con, 'SELECT file, state, count(*) AS "rows" FROM stated GROUP BY ALL')
    corrects = "SELECT corrects_file AS file, try_cast(corrects_row AS BIGINT) AS row FROM stated"
    corrected = _frame(con, f"{corrects} WHERE corrects_file <> ''").drop_nulls()
    con.execute("DROP VIEW stated; DROP VIEW ready; DROP TABLE states; DROP TABLE ranked; DROP VIEW typed")
    con.execute(f"DROP TABLE typed_{table.name}")
    if table.name == "bookings":
        _one_row_per_line(con, settings)
    frame = _frame(con, f"SELECT * FROM {table.name}").cast(table.schema)  # type: ignore[arg-type]
    return Loaded(frame, rejected, noted, accounts, corrected)


def _find_several(con: duckdb.DuckDBPyConnection) -> None:
    """Cells that name several services, in a table `several` beside typed_bookings."""
    cells = _frame(con, "SELECT DISTINCT service FROM typed_bookings")["service"]
    found = several_services(cells, service_names(_frame(con, "SELECT * FROM services")))
    schema = {"cell": pl.String(), "services": pl.String()}
    con.register("found", pl.DataFrame([*found.items()], schema=schema, orient="row"))
    con.execute("CREATE TEMP TABLE several AS FROM found")
    con.unregister("found")


def _one_row_per_line(con: duckdb.DuckDBPyConnection, settings: Settings) -> None:
    """Rows that name several services become a line for each; lines without numbers are numbered in file order."""
    as_lines = con.sql("SELECT count(*) FROM bookings WHERE services <> '' OR line IS NULL").fetchall()
    if as_lines == [(0,)]:
        con.execute("ALTER TABLE bookings DROP COLUMN services")
        return
    services = _frame(con, "SELECT * FROM services")
    lines = in_lines(_frame(con, "SELECT * FROM bookings"), services, digits_of(settings.salon.currency))
    con.register("lines", lines.with_row_index("place"))
    con.execute(f"""CREATE OR REPLACE TABLE bookings AS SELECT * EXCLUDE (place) REPLACE (
        CASE WHEN bool_or(line IS NULL) OVER visit THEN row_number() OVER in_order ELSE line END AS line
        ) FROM lines
        WINDOW visit AS (PARTITION BY site, booking_id),
            in_order AS (PARTITION BY site, booking_id ORDER BY "row", place)
        ORDER BY {TABLES["bookings"].time}, file, "row", line""")
    con.unregister("lines")


def _frame(con: duckdb.DuckDBPyConnection, query: str) -> pl.DataFrame:
    rows: pl.DataFrame = con.sql(query).pl()
    return rows


def _texts(table: Table, sheet: Recognised, settings: Settings) -> tuple[pl.DataFrame, pl.DataFrame]:
    """The rows of a sheet as text, as the contract writes it: file, row, and the columns it has; hits of what was
    read in a way that wants a look."""
    places = sheet.match.places if sheet.match else {}
    texts = sheet.rows.select("row", **{name: pl.col(f"c{place}") for name, place in places.items()})
    if "corrects_file" in places:
        texts = texts.with_columns(pl.exclude("row").str.replace(GUARDED, "${1}"))
    read = in_contract_form(texts, table, sheet.name, settings)
    columns = [name for name in [*table.names, *CORRECTS] if name in read.columns]
    shares = [
        ("rate_as_share", table.name, sheet.name, row, column, typed, percent)
        for column, row, typed, percent in held_as_shares(texts, read, table)
    ]
    return read.select(pl.lit(sheet.name).alias("file"), "row", *columns), findings.hits(shares)


def _sql(name: str) -> str:
    return package_files("analytics.intake").joinpath("sql", f"{name}.sql").read_text(encoding="utf-8")


def _particular(table: Table) -> str:
    return _sql(PARTICULAR[table.name]) if table.name in PARTICULAR else "FROM typed"


def _ranked_query(table: Table) -> str:
    """The rank of each file among the table's files: the one that reaches further in time is the newer."""
    return f"""
        WITH particular AS ({_particular(table)}),
        reach AS (
            SELECT file, max({table.time}) FILTER (WHERE fault IS NULL) AS reach FROM particular GROUP BY file
        )
        SELECT file, row_number() OVER (ORDER BY reach NULLS FIRST, parse_filename(file), file) AS file_rank
        FROM reach"""


def _ready_query(table: Table) -> str:
    """Typed rows with what is particular to the table, the rank of their file, and their content as one number."""
    content = ", ".join(f'coalesce("{name}"::VARCHAR, chr(30))' for name in table.names)
    columns = ", ".join(f'"{name}"' for name in table.names)
    return f"""
        WITH particular AS ({_particular(table)})
        SELECT particular.*,
            coalesce(corrected.file_rank, own.file_rank) AS file_rank,
            hash({columns}) AS likeness,
            md5_number(concat_ws(chr(31), {content})) AS content
        FROM particular
        JOIN ranked AS own ON own.file = particular.file
        LEFT JOIN ranked AS corrected ON corrected.file = corrects_file"""


def _rejected(con: duckdb.DuckDBPyConnection, table: Table) -> pl.DataFrame:
    query = f"""SELECT fault.code AS code, '{table.name}' AS "table", file, "row", fault."column" AS "column",
        fault.value AS value, fault.expected AS expected FROM ready WHERE fault IS NOT NULL ORDER BY file, "row" """
    return _frame(con, query).cast(findings.HITS)  # type: ignore[arg-type]


def _notes(con: duckdb.DuckDBPyConnection, table: Table) -> pl.DataFrame:
    """Hits of rows that were used but want a look."""
    return pl.concat([findings.hits([]), *(_frame(con, _sql(name)).cast(findings.HITS) for name in NOTED[table.name])])  # type: ignore[arg-type]


def _state_query(table: Table) -> str:
    if table.name == "bookings":
        return _sql("state_of_visits")
    if table.key:
        key = ", ".join(f'"{name}"' for name in table.key)
        return _sql("state_by_key").replace("{key}", key)
    return _sql("state_by_count")


def _final_query(table: Table) -> str:
    """The rows used, in the table's columns; of bookings also the services a row names."""
    more = ["services"] if table.name == "bookings" else []
    columns = ", ".join(f'"{name}"' for name in [*table.names, *more, "file", "row"])
    return f"""SELECT {columns} FROM stated WHERE state = 'used' ORDER BY {table.time}, file, "row" """


def _store(con: duckdb.DuckDBPyConnection, name: str, frame: pl.DataFrame, kind: str = "TABLE") -> None:
    con.register("incoming", frame)
    con.execute(f'CREATE {kind} "{name}" AS FROM incoming')
    con.unregister("incoming")
