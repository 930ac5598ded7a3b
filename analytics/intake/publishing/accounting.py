"""Every row accounted for: used, repeat, superseded or set aside, per file; and what was wrong, in sentences."""

from collections.abc import Callable

import polars as pl

from analytics.definitions import findings
from analytics.intake.meaning.recognise import Read
from analytics.intake.reading.find import Export
from analytics.storage.book import FILES, SET_ASIDE

CellsOf = Callable[[Read, pl.Series], dict[int, str]]
"""Reads a sheet again and answers the cells of some of its rows as JSON."""


def account(
    sheets: list[Read], unread: list[Export], aside: pl.DataFrame, corrected: pl.DataFrame, accounts: pl.DataFrame
) -> tuple[pl.DataFrame, pl.DataFrame]:
    """(row accounting per sheet, hits of the rows that stay set aside and of files we do not know or leave out).

    aside: hits of rows that cannot be used. corrected: file and row of those for which a corrected row is there, which
    makes them an older state. accounts: file, state, rows.
    """
    key = ["file", "row"]
    left, replaced = aside.join(corrected, on=key, how="anti"), aside.join(corrected, on=key, how="semi")
    counts = {(file, state): rows for file, state, rows in accounts.iter_rows()}
    set_aside, replaced_by = (dict(hits.group_by("file").len().iter_rows()) for hits in (left, replaced))
    rows = []
    for sheet in sheets:
        used, repeats, superseded = (counts.get((sheet.name, state), 0) for state in ("used", "repeat", "superseded"))
        superseded += replaced_by.get(sheet.name, 0)
        unusable = set_aside.get(sheet.name, 0) if sheet.match else sheet.rows_read
        became = (sheet.rows_read, used, repeats, superseded, unusable)
        rows.append((sheet.name, sheet.match.table.name if sheet.match else "", *became, *_lies(sheet.export)))
    rows += [(export.name, "", 0, 0, 0, 0, 0, *_lies(export)) for export in unread]
    files = pl.DataFrame(rows, schema=FILES, orient="row").sort("table", "file")
    _must_add_up(files)
    return files, pl.concat([_unknown(sheets, unread), left])


def _lies(export: Export) -> tuple[str, int, str]:
    return export.name, export.size_bytes, export.sha256


def _unknown(sheets: list[Read], unread: list[Export]) -> pl.DataFrame:
    nothing = [
        sheet for sheet in sheets if not sheet.match and (sheet.rows_read or sheet.left_out or "#" not in sheet.name)
    ]
    codes = [("left_out" if sheet.left_out else "unknown_table", sheet.name) for sheet in nothing]
    codes += [("unknown_file", export.name) for export in unread]
    return findings.hits([(code, "", name, None, None, None, None) for code, name in codes])


def _must_add_up(files: pl.DataFrame) -> None:
    parts = pl.sum_horizontal("rows_used", "repeats", "superseded", "set_aside")
    wrong = files.filter(pl.col("rows_read") != parts)
    if not wrong.is_empty():
        raise AssertionError(f"rows of {wrong['file'][0]} are not all accounted for")


def set_aside(sheets: list[Read], aside: pl.DataFrame, worth: pl.DataFrame, cells_of: CellsOf) -> pl.DataFrame:
    """Of rows set aside (hits) everything with the cells as they were typed, as JSON. worth: row_states.WORTH."""
    known = aside.join(worth.unique(["file", "row"], keep="first"), on=["file", "row"], how="left")
    parts = [_of_sheet(sheet, known.filter(pl.col("file") == sheet.name), cells_of) for sheet in sheets if sheet.match]
    return pl.concat([pl.DataFrame(schema=SET_ASIDE), *parts]).sort("file", "row")


def _of_sheet(sheet: Read, hits: pl.DataFrame, cells_of: CellsOf) -> pl.DataFrame:
    untyped = hits.filter(~pl.col("row").is_in(list(sheet.cells)))["row"]
    cells = sheet.cells | (cells_of(sheet, untyped) if len(untyped) else {})
    texts = [cells[row] for row in hits["row"]]
    return hits.with_columns(cells=pl.Series(texts, dtype=pl.String)).select(list(SET_ASIDE))
