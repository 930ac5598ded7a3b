"""Every row accounted for: used, repeat, superseded or set aside, per file; and what was wrong, in sentences."""

import json
from dataclasses import dataclass

import polars as pl

from analytics import findings
from analytics.book import FILES, SET_ASIDE
from analytics.intake.find import Export
from analytics.intake.recognise import Recognised


@dataclass(frozen=True)
class Report:
    """files: row accounting per file. findings: causes with count, sentence and what to do."""

    files: pl.DataFrame
    findings: pl.DataFrame


def account(
    sheets: list[Recognised], unread: list[Export], rejected: pl.DataFrame, accounts: pl.DataFrame, noted: pl.DataFrame
) -> Report:
    """rejected: hits of rows that could not be typed. accounts: file, state, rows. noted: hits of odd rows."""
    unknown = [("unknown_table", sheet.name) for sheet in sheets if not sheet.match]
    unknown += [("unknown_file", export.name) for export in unread]
    faulty = [sheet.hits() for sheet in sheets if sheet.match]
    found = pl.concat(
        [findings.hits([(code, "", name, None, None, None, None) for code, name in unknown]), *faulty, rejected, noted]
    )
    counts = {(file, state): rows for file, state, rows in accounts.iter_rows()}
    aside = dict(rejected.group_by("file").len().iter_rows())
    rows = [_row(sheet, counts, aside.get(sheet.name, 0)) for sheet in sheets]
    rows += [(export.name, "", 0, 0, 0, 0, 0, export.name, export.size_bytes) for export in unread]
    files = pl.DataFrame(rows, schema=FILES, orient="row").sort("table", "file")
    _must_add_up(files)
    return Report(files, findings.summarise(found))


def _row(sheet: Recognised, counts: dict[tuple[str, str], int], rejected: int) -> tuple[str | int, ...]:
    states = [counts.get((sheet.name, state), 0) for state in ("used", "repeat", "superseded")]
    aside = rejected + sheet.faulty.height if sheet.match else sheet.rows_read
    table = sheet.match.table.name if sheet.match else ""
    return sheet.name, table, sheet.rows_read, *states, aside, sheet.export.name, sheet.export.size_bytes


def _must_add_up(files: pl.DataFrame) -> None:
    parts = pl.sum_horizontal("rows_used", "repeats", "superseded", "set_aside")
    wrong = files.filter(pl.col("rows_read") != parts)
    if not wrong.is_empty():
        raise AssertionError(f"rows of {wrong['file'][0]} are not all accounted for")


def set_aside(sheets: list[Recognised], rejected: pl.DataFrame) -> pl.DataFrame:
    """Every row of recognised sheets that was set aside, with its cells as they were typed, as JSON."""
    parts = [_of_sheet(sheet, rejected.filter(pl.col("file") == sheet.name)) for sheet in sheets if sheet.match]
    return pl.concat([pl.DataFrame(schema=SET_ASIDE), *parts]).sort("file", "row")


def _of_sheet(sheet: Recognised, rejected: pl.DataFrame) -> pl.DataFrame:
    hits = pl.concat([sheet.hits(), rejected])
    cells = sheet.cells(hits["row"])
    texts = [json.dumps(cells[row], ensure_ascii=False) for row in hits["row"]]
    return hits.with_columns(cells=pl.Series(texts, dtype=pl.String)).select(list(SET_ASIDE))
