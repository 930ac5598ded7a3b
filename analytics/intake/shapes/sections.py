"""A stylist or a day as a line of its own above the rows it stands for: it becomes a column of those rows."""

import polars as pl

from analytics.intake.meaning.words import TOTAL_WORDS
from analytics.intake.shapes.heading import cell_names, filled_cells, heading_at

LABEL = "(the line above)"
FEWEST_LINES = 2
FEWEST_CELLS = 3  # of a row below such a line


def lines_into_column(records: pl.DataFrame) -> pl.DataFrame:
    """The records without lines of a single cell, which stand in a column of their own; as they are where the first
    record below the heading is no such line, or there are fewer than two.

    The first record below the heading must be one, as a row of no section would have none to belong to.
    """
    at = heading_at(records)
    if at is None or at + 2 >= records.height or not _single(records.slice(at + 1, 1)):
        return records
    below = records.slice(at + 1)
    filled = filled_cells(below)
    first = pl.coalesce(pl.col(name).str.strip_chars().replace("", None) for name in cell_names(records))
    said = below.select(first.alias("said"))["said"]
    lines = (filled == 1) & ~said.str.to_lowercase().str.strip_chars_end(":").is_in(sorted(TOTAL_WORDS))
    rows = below.filter(~lines)
    usual = filled.filter(~lines).to_list()
    if lines.sum() < FEWEST_LINES or rows.is_empty() or sorted(usual)[len(usual) // 2] < FEWEST_CELLS:
        return records
    name = f"c{len(cell_names(records))}"
    above = said.set(~lines, None).forward_fill()
    with_line = below.with_columns(above.alias(name), pl.col("count") + 1).filter(~lines)
    head = records.slice(at, 1).with_columns(pl.lit(LABEL).alias(name), pl.col("count") + 1)
    return pl.concat([head, with_line])


def _single(record: pl.DataFrame) -> bool:
    return bool(filled_cells(record)[0] == 1)
