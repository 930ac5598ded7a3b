"""An export file -> its sheets as records of text."""

import json
import subprocess
import sys
import tempfile
from dataclasses import dataclass, replace
from pathlib import Path

import polars as pl

from analytics.intake.meaning.heading_row import MOST_ABOVE, best_heading_fit
from analytics.intake.reading.decode import decode
from analytics.intake.reading.find import TEXTS, WORKBOOKS, Export
from analytics.intake.reading.quoting import as_rfc_4180
from analytics.intake.reading.split import DELIMITERS, MOST_COLUMNS, split_records
from analytics.settings import Settings
from analytics.stops import WorkStopped

WORKBOOK_SECONDS = 300
MOST_CELLS = 100_000_000  # of a text file; each takes memory, however little it holds
HEAD_CHARACTERS = 100_000  # enough to tell the delimiter
HEADING_CHARACTERS = 16_000  # mostly enough for the records that may be headings


@dataclass(frozen=True)
class Sheet:
    """One table of text: the name people know it by, its records as split_records gives them, and its file.

    passed_over: titles of hidden sheets beside the first sheet of a workbook.
    """

    name: str
    records: pl.DataFrame
    export: Export
    passed_over: tuple[str, ...] = ()


def read_sheets(export: Export, settings: Settings) -> list[Sheet]:
    """The sheets of an export; none where its kind is not one we read. Raises WorkStopped where it is unreadable."""
    if export.suffix in WORKBOOKS:
        return _workbook(export)
    if export.suffix in TEXTS:
        return [Sheet(export.name, _text_records(export, export.content(), settings), export)]
    return []


def first_records(export: Export, most_bytes: int, settings: Settings) -> list[Sheet]:
    """The beginning of a text file as a sheet: its whole lines within so many bytes."""
    return [Sheet(export.name, _text_records(export, export.beginning(most_bytes), settings), export)]


def _text_records(export: Export, content: bytes, settings: Settings) -> pl.DataFrame:
    text = decode(content, export.name, settings.files.encoding)
    if len(text) > MOST_CELLS and text.count("\n") + max(map(text.count, DELIMITERS)) > MOST_CELLS:
        raise WorkStopped(f"{export.name} has more than {MOST_CELLS:,} cells; export it in smaller spans of time.")
    delimiter, text = separator_line(text)
    text = as_rfc_4180(text)
    return split_records(text, delimiter or delimiter_of(text, export.name, settings))


def separator_line(text: str) -> tuple[str | None, str]:
    """A first line such as `sep=;` names the delimiter and is no row."""
    first, _, rest = text.partition("\n")
    mark = first.strip().strip('"')
    if mark.lower().startswith("sep=") and len(mark) <= 5:
        return mark[4:] or "\t", rest
    return None, text


def delimiter_of(text: str, name: str, settings: Settings) -> str:
    """The delimiter under which the headings fit a table best; else the one that stands most often."""
    head = text[:HEAD_CHARACTERS]
    found = [delimiter for delimiter in DELIMITERS if delimiter in head] or [DELIMITERS[0]]
    if len(found) == 1:
        return found[0]
    fits = {delimiter: best_heading_fit(_first_records(head, delimiter), name, settings) for delimiter in found}
    return max(found, key=lambda delimiter: (fits[delimiter], head.count(delimiter)))


def _first_records(head: str, delimiter: str) -> pl.DataFrame:
    """At least all those that may be a heading, none of them cut off."""
    records = split_records(head[:HEADING_CHARACTERS], delimiter)
    return records if records.height > MOST_ABOVE else split_records(head, delimiter)


def _workbook(export: Export) -> list[Sheet]:
    """Sheets of a workbook, read in a child process: a broken workbook can end the process that reads it."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        path = export.path
        if export.member is not None:
            path = folder / f"workbook{export.suffix}"
            path.write_bytes(export.content())
        _read_apart(path, folder, export.name)
        index = json.loads((folder / "index.json").read_text(encoding="utf-8"))
        titles, hidden = index["titles"], tuple(index["hidden"])
        tables = [_as_records(pl.read_ipc((folder / f"{number}.arrow").read_bytes())) for number in range(len(titles))]
    filled = [(title, table) for title, table in zip(titles, tables, strict=True) if not table.is_empty()]
    if len(filled) == 1:
        return [Sheet(export.name, filled[0][1], export, hidden)]
    sheets = [Sheet(f"{export.name}#{title}", table, export) for title, table in filled]
    return [replace(sheet, passed_over=hidden) if sheet is sheets[0] else sheet for sheet in sheets]


def _read_apart(path: Path, folder: Path, name: str) -> None:
    command = [sys.executable, "-P", "-m", "analytics.intake.reading.workbook", str(path), str(folder)]
    try:
        child = subprocess.run(command, capture_output=True, timeout=WORKBOOK_SECONDS, check=False)
    except subprocess.TimeoutExpired:
        raise WorkStopped(f"{name} took more than {WORKBOOK_SECONDS} s to read; save it again as .csv.") from None
    if child.returncode != 0:
        raise WorkStopped(f"{name} cannot be read as a workbook; open it in a spreadsheet and save it again.")


def _as_records(table: pl.DataFrame) -> pl.DataFrame:
    """Cells of a sheet in the shape of split_records; a sheet is a rectangle, so no row is ragged."""
    width, table = table.width, table[:, :MOST_COLUMNS]
    names = [f"c{number}" for number in range(table.width)]
    if not names:
        return split_records("", ",")
    return (
        table.rename(dict(zip(table.columns, names, strict=True)))
        .with_columns(pl.col(names).cast(pl.String).fill_null(""))
        .with_row_index("row", offset=1)
        .select(
            pl.col("row").cast(pl.Int64),
            pl.lit(width, pl.Int64).alias("count"),
            pl.lit(False).alias("spoilt"),
            pl.col(names),
        )
        .filter(pl.any_horizontal(pl.col(names).str.contains(r"\S")))
    )
