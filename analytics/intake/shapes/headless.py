"""A sheet whose first record is a row already: it gets headings that say which column each is, and nothing more."""

import polars as pl

from analytics.intake.reading.split import LEADING
from analytics.intake.shapes.heading import VALUE, cell_names, heading_at

FEWEST_CELLS, FEWEST_ROWS, LOOKED_AT = 3, 5, 40
NEARLY_ALL = 0.9
TITLE = "column {}"


def with_headings(records: pl.DataFrame) -> pl.DataFrame:
    """As it is where a record looks like a heading, or the first is not filled and written as those below it are.

    The heading stands in row 0, which no file has.
    """
    if records.height <= FEWEST_ROWS or heading_at(records) is not None:
        return records
    names = cell_names(records)
    first = [str(records[name][0]).strip() for name in names]
    if sum(map(bool, first)) < FEWEST_CELLS or not any(map(VALUE.match, first)) or records["row"][0] < 1:
        return records
    below = records.slice(1, LOOKED_AT)
    for name, cell in zip(names, first, strict=True):
        filled = [text for text in below[name].to_list() if text.strip()]
        alike = sum(bool(VALUE.match(text)) == bool(VALUE.match(cell)) for text in filled)
        if cell and alike < NEARLY_ALL * len(filled):
            return records
    titles = [pl.lit(TITLE.format(number)).alias(name) for number, name in enumerate(names, 1)]
    head = records.slice(0, 1).select(
        pl.lit(0, pl.Int64).alias("row"), pl.lit(len(names), pl.Int64).alias("count"), pl.lit(False).alias("spoilt"),
        *titles,
    )  # fmt: skip
    return pl.concat([head.select(*LEADING, *names), records])
