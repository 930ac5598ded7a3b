"""Every row accounted for: used, repeat, superseded or set aside, per file; and what was wrong, in sentences."""

import json
from dataclasses import dataclass

import polars as pl

from analytics import findings
from analytics.book import FILES, SET_ASIDE
from analytics.intake.files import Sheet
from analytics.intake.recognise import Recognised


@dataclass(frozen=True)
class Report:
    """files: row accounting per file. findings: causes with count, sentence and what to do."""

    files: pl.DataFrame
    findings: pl.DataFrame


def account(
    sheets: list[Recognised],
    others: list[Sheet],
    rejected: pl.DataFrame,
    accounts: pl.DataFrame,
    checked: pl.DataFrame,
) -> Report:
    found = pl.concat([_faulty_hits(sheets, others), rejected, checked])
    counts = {(file, state): rows for file, state, rows in accounts.iter_rows()}
    aside = dict(rejected.group_by("file").len().iter_rows())
    rows = []
    for sheet in sheets:
        name, read = sheet.sheet.name, max(len(sheet.sheet.records) - 1, 0)
        states = [counts.get((name, state), 0) for state in ("used", "repeat", "superseded")]
        unusable = aside.get(name, 0) + len(sheet.faulty) if sheet.match else read
        table = sheet.match.table.name if sheet.match else ""
        rows.append((name, table, read, *states, unusable, sheet.sheet.size_bytes))
    rows += [(other.name, "", 0, 0, 0, 0, 0, other.size_bytes) for other in others]
    files = pl.DataFrame(rows, schema=FILES, orient="row").sort("table", "file")
    _must_add_up(files)
    return Report(files, findings.summarise(found))


def _must_add_up(files: pl.DataFrame) -> None:
    parts = pl.sum_horizontal("rows_used", "repeats", "superseded", "set_aside")
    wrong = files.filter(pl.col("rows_read") != parts)
    if not wrong.is_empty():
        raise AssertionError(f"rows of {wrong['file'][0]} are not all accounted for")


def _faulty_hits(sheets: list[Recognised], others: list[Sheet]) -> pl.DataFrame:
    """Hits of rows that cannot be rows, and of files whose headings or kind we do not know."""
    faulty = [
        (code, sheet.match.table.name, sheet.sheet.name, row, None, value, expected)
        for sheet in sheets
        if sheet.match
        for row, code, value, expected in sheet.faulty
    ]
    unknown = [("unknown_table", "", sheet.sheet.name, None, None, None, None) for sheet in sheets if not sheet.match]
    unread = [("unknown_file", "", sheet.name, None, None, None, None) for sheet in others]
    return findings.hits([*faulty, *unknown, *unread])


def set_aside(sheets: list[Recognised], rejected: pl.DataFrame) -> pl.DataFrame:
    """Every row set aside with its cells as they were typed, under its own headings, as JSON."""
    texts = {sheet.sheet.name: dict(sheet.sheet.records) for sheet in sheets}
    headings = {sheet.sheet.name: sheet.sheet.records[0][1] for sheet in sheets if sheet.sheet.records}
    hits = pl.concat([_faulty_hits(sheets, []), rejected]).drop_nulls("row")
    rows = [
        (hit["file"], hit["row"], hit["table"], hit["code"], hit["column"], hit["value"], _cells(headings, texts, hit))
        for hit in hits.iter_rows(named=True)
    ]
    return pl.DataFrame(rows, schema=SET_ASIDE, orient="row").sort("file", "row")


def _cells(headings: dict[str, list[str]], texts: dict[str, dict[int, list[str]]], hit: dict[str, object]) -> str:
    names, cells = headings[str(hit["file"])], texts[str(hit["file"])][int(str(hit["row"]))]
    extra = [f"cell {number + 1}" for number in range(len(names), len(cells))]
    return json.dumps(dict(zip([*names, *extra], cells, strict=False)), ensure_ascii=False)
