"""Rows set aside, written out as CSV to be corrected and dropped back in.

Each file with such rows gives one CSV with its own headings and two more, corrects_file and corrects_row, which say
whose place a corrected row takes: put back into exports/ it stands where the old row stood, which then is an older
state.
"""

import json
from pathlib import Path

import polars as pl

from analytics.definitions.columns import CORRECTS
from analytics.output import as_csv
from analytics.storage.book import Book
from analytics.storage.private_files import write_private

SKIPPED = ("total_line", "repeated_heading")  # no records: nothing to correct


def write_corrections(book: Book, folder: Path) -> list[Path]:
    """One CSV per file with rows to correct, in order of name."""
    rows = book.set_aside.filter(~pl.col("code").is_in(SKIPPED))
    return [_written(str(name[0]), part, folder) for name, part in rows.group_by("file", maintain_order=True)]


def _written(file: str, rows: pl.DataFrame, folder: Path) -> Path:
    path = folder / f"corrections {file.replace('/', ' ').replace('#', ' ')}.csv"
    records = [
        dict(zip(CORRECTS, (file, str(row)), strict=True)) | json.loads(cells)
        for row, cells in rows.select("row", "cells").iter_rows()
    ]
    names = dict.fromkeys(name for record in records for name in record)
    order = [*(name for name in names if name not in CORRECTS), *CORRECTS]
    frame = pl.DataFrame(records, schema=dict.fromkeys(order, pl.String())).fill_null("")
    return write_private(as_csv(frame).encode(), path)
