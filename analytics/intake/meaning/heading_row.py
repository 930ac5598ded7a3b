"""Which record of a sheet is its heading: titles and blank lines may stand above it."""

import re

import polars as pl

from analytics.intake.meaning.headings import best_fit, best_match, match_headings
from analytics.intake.meaning.match import Match
from analytics.intake.meaning.table_rules import told_table
from analytics.intake.reading.split import LEADING
from analytics.settings import Settings

AMOUNT = re.compile(r"\s*[-+(]?[€$£]?\s*\d[\d.,:/\-\s]*\)?\s*$")
LONGEST_HEADING = 200
MOST_ABOVE = 30  # records that may stand above the heading


def find_headings(records: pl.DataFrame, name: str, settings: Settings) -> tuple[int, Match] | None:
    """Place of the heading among the records, and its match; None where no record fits a table.

    Raises WorkStopped where the heading fits a table but lacks a column it needs, or names one twice.
    """
    fits = _fits(records, name, settings)
    if not fits or not (any(fits) or told_table(name, settings)):
        return None
    whole = [at for at, fit in enumerate(fits) if fit and _is_whole(shortened(cells_of(records, at)), name, settings)]
    at = whole[0] if whole else fits.index(max(fits))
    match = match_headings(shortened(cells_of(records, at)), name, settings)
    return (at, match) if match else None


def shortened(cells: list[str]) -> list[str]:
    """Cells as headings: what is longer than any heading is cut, since every word of it would be looked up."""
    return [cell[:LONGEST_HEADING] for cell in cells]


def _is_whole(headings: list[str], name: str, settings: Settings) -> bool:
    match = best_match(headings, name, settings)
    return match is not None and not match.missing


def best_heading_fit(records: pl.DataFrame, name: str, settings: Settings) -> int:
    """How many columns the record that fits best names; 0 where none fits."""
    return max(_fits(records, name, settings), default=0)


def cells_of(records: pl.DataFrame, at: int) -> list[str]:
    """The cells of the record at this place, without the padding at its end."""
    values = records.row(at)
    cells = [str(value) for value in values[len(LEADING) :]]
    return cells[: values[records.get_column_index("count")]]


def _fits(records: pl.DataFrame, name: str, settings: Settings) -> list[int]:
    """How many columns each of the first records names; 0 where one holds amounts or days, as headings do not."""
    above = [shortened(cells_of(records, at)) for at in range(min(MOST_ABOVE, records.height))]
    return [0 if any(map(AMOUNT.match, cells)) else best_fit(cells, name, settings) for cells in above]
