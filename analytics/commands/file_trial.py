"""`salon-figures try`: how a file would be read, printed, with nothing kept."""

import json
import sys
from dataclasses import asdict
from pathlib import Path
from typing import Any

import polars as pl

from analytics.intake.preview import TriedFile, try_file
from analytics.output import write
from analytics.plain_text import visible
from analytics.sentences.tried_file import matched_by, taken_for, tried_sentence
from analytics.settings import Settings, read_settings
from analytics.stops import WorkStopped
from analytics.storage.book import COUNTS

HEADINGS = ("file", "table", "heading", "column", "matched_by")


def try_and_print(path: Path, folder: Path, style: str) -> None:
    """Print what would become of the file. Raises WorkStopped, after that, where it could not be used."""
    settings = read_settings(folder)
    if not path.is_file():
        raise WorkStopped(f"There is no file {path.name or path}; name an export, for example a .csv.")
    tried = try_file(path, path.name, folder, settings)
    if style == "json":
        json.dump([_as_object(one) for one in tried], sys.stdout, ensure_ascii=False, indent=1)
        sys.stdout.write("\n")
    elif style == "csv":
        write(_flat(tried), "csv")
    else:
        for one in tried:
            _print(one, settings)
    _stop_where_unusable(tried)


def _stop_where_unusable(tried: list[TriedFile]) -> None:
    if any(one.usable for one in tried) and not any(one.stopped for one in tried):
        return
    wrong = next((one for one in tried if one.stopped), next((one for one in tried if not one.usable), None))
    if wrong is not None:
        aside = f"Every row of {wrong.name} would be set aside; correct what is wrong and try again."
        raise WorkStopped(wrong.stopped or (taken_for(wrong) if wrong.table is None else aside))


def _as_object(tried: TriedFile) -> dict[str, Any]:
    return {
        "file": tried.name,
        "table": tried.table,
        "why": taken_for(tried),
        "usable": tried.usable,
        "stopped": tried.stopped,
        "missing": tried.missing,
        "headings": [asdict(one) for one in tried.headings],
        "first_rows": tried.rows.to_dicts(),
        "counts": asdict(tried.counts) if tried.counts else None,
        "findings": tried.findings.to_dicts(),
    }


def _flat(tried: list[TriedFile]) -> pl.DataFrame:
    """One row per heading, the counts of its sheet beside it."""
    rows = [
        (
            one.name,
            one.table,
            meaning.heading,
            meaning.column,
            meaning.by,
            *(getattr(one.counts, name) if one.counts else None for name in COUNTS),
        )
        for one in tried
        for meaning in one.headings
    ]
    schema = dict.fromkeys(HEADINGS, pl.String()) | dict.fromkeys(COUNTS, pl.Int64())
    return pl.DataFrame(rows, schema=schema, orient="row")


def _print(tried: TriedFile, settings: Settings) -> None:
    """Sentence, headings, first rows (standing upright, so that they fit a terminal) and findings.

    What stops the work is the command's last word, so it is not said here.
    """
    if not tried.headings:
        return
    print(visible(taken_for(tried) if tried.stopped else tried_sentence(tried, settings)), end="\n\n")
    rows = [(one.heading, one.column or "", matched_by(one.by)) for one in tried.headings]
    write(pl.DataFrame(rows, schema=["heading", "read as", "because"], orient="row"), "table")
    if tried.rows.height:
        print()
        write(_upright(tried.rows), "table")
    if tried.table and tried.findings.height:
        print()
        write(tried.findings.select("row", "message", "what_to_do"), "table")
    print()


def _upright(rows: pl.DataFrame) -> pl.DataFrame:
    names = [f"row {row}" for row in rows["row"]]
    return rows.drop("row").transpose(include_header=True, header_name="column", column_names=names)
