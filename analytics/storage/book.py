"""The loaded book, salon.duckdb: read whole into memory and closed again, never written in place."""

from dataclasses import dataclass, field
from pathlib import Path

import duckdb
import polars as pl

from analytics.definitions.tables import TABLES
from analytics.stops import WorkStopped

BOOK = "salon.duckdb"
FILES = {
    "file": pl.String(),
    "table": pl.String(),
    "rows_read": pl.Int64(),
    "rows_used": pl.Int64(),
    "repeats": pl.Int64(),
    "superseded": pl.Int64(),
    "set_aside": pl.Int64(),
    "export": pl.String(),
    "size_bytes": pl.Int64(),
    "sha256": pl.String(),
}
SET_ASIDE = {
    "file": pl.String(),
    "row": pl.Int64(),
    "table": pl.String(),
    "code": pl.String(),
    "column": pl.String(),
    "value": pl.String(),
    "cells": pl.String(),
    "day": pl.Date(),
    "amount": pl.Decimal(18, 4),
}
"""day, amount: of rows that say them, when it was and what it would add to the month's sums."""
MADE = {"file": pl.String(), "table": pl.String(), "column": pl.String(), "how": pl.String()}
MOST_MEMORY = "1GB"  # what does not fit is put beside the file for as long as it is open
LOCKED = "Could not set lock"  # how DuckDB says that another process holds the file
FORMAT = 8  # raised when the book's own tables change, so that an older book is rebuilt


@dataclass(frozen=True)
class Book:
    """tables: each table in, typed. files: row accounting per sheet. findings, set_aside: what was wrong.

    of_reading: the settings it was read under (Settings.of_reading); None where it was not read from exports. made:
    which columns of which file were made of others, and how.
    """

    tables: dict[str, pl.DataFrame]
    files: pl.DataFrame
    findings: pl.DataFrame
    set_aside: pl.DataFrame
    of_reading: str | None = None
    made: pl.DataFrame = field(default_factory=lambda: pl.DataFrame(schema=MADE))


COUNTS = ("rows_read", "rows_used", "repeats", "superseded", "set_aside")


def rows_in_all(files: pl.DataFrame) -> dict[str, int]:
    """The row accounting of all files together: each of COUNTS, and `older`, the repeats and superseded rows."""
    counts = {name: int(files[name].sum()) for name in COUNTS}
    return counts | {"older": counts["repeats"] + counts["superseded"]}


def by_export(files: pl.DataFrame) -> pl.DataFrame:
    """The row accounting by export, a workbook's sheets added up: export, COUNTS, sha256, table (a list)."""
    counts = pl.col(*COUNTS).sum()
    return files.group_by("export").agg(counts, pl.col("sha256").first(), pl.col("table").unique().sort())


def connect(path: Path, read_only: bool) -> duckdb.DuckDBPyConnection:
    """A connection that loads no extensions, reaches no file but the book, and keeps within MOST_MEMORY."""
    config: dict[str, str | bool | int | float | list[str]] = {
        "autoinstall_known_extensions": "false",
        "autoload_known_extensions": "false",
    }
    config["memory_limit"] = MOST_MEMORY
    con = duckdb.connect(str(path), read_only=read_only, config=config)
    con.execute("SET enable_external_access = false")
    con.execute("SET lock_configuration = true")
    return con


def read_book(folder: Path) -> Book:
    """Everything in the book. Raises WorkStopped where it is missing or cannot be read."""
    path = folder / BOOK
    if path.exists() and not path.is_file():
        raise WorkStopped(f"{path} is not a file; move it away and run salon-figures load.")
    if not path.exists():
        raise WorkStopped(f"{folder} has no {BOOK} yet; run salon-figures load --salon {folder} first.")
    try:
        con = connect(path, read_only=True)
        try:
            return _read(con)
        finally:
            con.close()
    except duckdb.Error as error:
        raise WorkStopped(_why(path, error)) from None


def _read(con: duckdb.DuckDBPyConnection) -> Book:
    def frame(name: str) -> pl.DataFrame:
        rows: pl.DataFrame = con.sql(f'SELECT * FROM "{name}"').pl()
        return rows

    about = con.sql("SELECT * FROM about").fetchall()[0]
    if about[0] != FORMAT:
        raise WorkStopped(f"{BOOK} was made by another version of salon-figures; run salon-figures load to rebuild it.")
    tables = {name: frame(name).cast(table.schema) for name, table in TABLES.items()}  # type: ignore[arg-type]
    return Book(tables, frame("files"), frame("findings"), frame("set_aside"), about[1], frame("made"))


def _why(path: Path, error: duckdb.Error) -> str:
    """DuckDB's own texts may quote cells, so they are told apart and not repeated."""
    text = str(error)
    if LOCKED in text:
        return f"{path.name} is being used by another program; close it there and run the command again."
    if "version number" in text or "newer" in text:
        return (
            f"{path.name} was written by another version of DuckDB than {duckdb.__version__}; "
            "delete it and run salon-figures load to rebuild it from exports/."
        )
    return f"{path.name} cannot be read as a book; delete it and run salon-figures load to rebuild it from exports/."
