"""Sheets as people lay them out -> sheets of one heading and one row per record, each row with its number as it was."""

from dataclasses import replace
from functools import reduce

from analytics.intake.meaning.sheets import Sheet
from analytics.intake.shapes.day_numbers import with_whole_days
from analytics.intake.shapes.grid import grid_of_takings, grid_with_days_across
from analytics.intake.shapes.headless import with_headings
from analytics.intake.shapes.notes import notes_into_rows
from analytics.intake.shapes.sections import lines_into_column
from analytics.intake.shapes.side_by_side import into_rows
from analytics.intake.shapes.stacked import taken_apart
from analytics.intake.shapes.two_names import names_together

WAYS = (
    lines_into_column,
    into_rows,
    grid_of_takings,
    grid_with_days_across,
    with_headings,
    notes_into_rows,
    names_together,
)


def laid_out(sheet: Sheet) -> list[Sheet]:
    """The tables that stand in the sheet, from top to bottom; further ones have numbers behind its name."""
    found = []
    for number, table in enumerate(taken_apart(sheet.records), start=1):
        records = reduce(lambda rows, way: way(rows), WAYS, table)
        name = sheet.name if number == 1 else f"{sheet.name} (table {number})"
        found.append(replace(sheet, name=name, records=with_whole_days(sheet.name, records)))
    return found
