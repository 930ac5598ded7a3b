"""A stylist or a day as a line of its own above the rows it stands for: it becomes a column of those rows."""

import polars as pl

from analytics.intake.meaning.words import TOTAL_WORDS
from analytics.intake.shapes.heading import cell_names, filled_cells, heading_at, is_day

LABEL = "(the line above)"
FEWEST_LINES = 2
FEWEST_CELLS = 3  # of a row below such a line


def lines_into_column(records: pl.DataFrame) -> pl.DataFrame:
    """The records without lines of a single cell, which stand in a column of their own, days apart from others; as
    they are where the first record below the heading is no such line, or there are fewer than two.

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
    kinds = _levels(said, lines)
    head, below = records.slice(at, 1), below.with_columns(_said=said)
    for number, kind in enumerate(kinds):
        name = f"c{len(cell_names(records)) + number}"
        # A line further out ends what the lines within it said.
        outer = pl.any_horizontal(pl.lit(False), *(pl.Series(one) for one in kinds[:number]))
        said_here = pl.when(pl.Series(kind)).then("_said").when(outer).then(pl.lit(""))
        below = below.with_columns(said_here.forward_fill().fill_null("").alias(name), pl.col("count") + 1)
        title = LABEL if number == 0 else f"{LABEL[:-1]} {number + 1})"
        head = head.with_columns(pl.lit(title).alias(name), pl.col("count") + 1)
    return pl.concat([head, below.drop("_said").filter(~lines)])


def _levels(said: pl.Series, lines: pl.Series) -> list[pl.Series]:
    """Of each kind of line, days and others, which records are lines of it; the kind that stands first is the outer."""
    days = lines & said.fill_null("").map_elements(is_day, return_dtype=pl.Boolean)
    others = lines & ~days
    if not days.any() or not others.any():
        return [lines]
    return [days, others] if days.arg_max() < others.arg_max() else [others, days]  # type: ignore[operator]


def _single(record: pl.DataFrame) -> bool:
    return bool(filled_cells(record)[0] == 1)
