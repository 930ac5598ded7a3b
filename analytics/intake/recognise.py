"""Sheets told apart by table, and rows by whether they can be rows of it at all."""

from dataclasses import dataclass

from analytics.intake.files import Sheet
from analytics.intake.headings import Match, folded, match_headings
from analytics.settings import Settings

TOTAL_WORDS = ("total", "totals", "subtotal", "sum", "grand total", "totaal", "summe", "gesamt")


@dataclass(frozen=True)
class Recognised:
    """A sheet, the table it is, its rows as text under the table's columns, and the rows that cannot be such rows."""

    sheet: Sheet
    match: Match | None
    rows: list[tuple[int, list[str]]]
    faulty: list[tuple[int, str, str, str]]  # row, code, value, expected


def recognise(sheet: Sheet, settings: Settings) -> Recognised:
    if not sheet.records:
        return Recognised(sheet, None, [], [])
    headings = sheet.records[0][1]
    match = match_headings(headings, sheet.name, settings)
    if match is None:
        return Recognised(sheet, None, [], [])
    rows: list[tuple[int, list[str]]] = []
    faulty: list[tuple[int, str, str, str]] = []
    for row, cells in sheet.records[1:]:
        fault = _not_a_row(cells, headings)
        if fault:
            faulty.append((row, *fault))
        else:
            rows.append((row, cells))
    return Recognised(sheet, match, rows, faulty)


def _not_a_row(cells: list[str], headings: list[str]) -> tuple[str, str, str] | None:
    """(code, value, expected) of a record that is no row of its table."""
    first = next(cell.strip() for cell in cells if cell.strip())
    if first.casefold().rstrip(":") in TOTAL_WORDS:
        return "total_line", first, ""
    if cells[0].casefold() == headings[0].casefold() and [*map(folded, cells)] == [*map(folded, headings)]:
        return "repeated_heading", "", ""
    if len(cells) < len(headings) or any(cell.strip() for cell in cells[len(headings) :]):
        return "ragged_row", str(len(cells)), str(len(headings))
    return None
