"""Two tables in one sheet, one below the other: each becomes a sheet of its own."""

import polars as pl

from analytics.intake.shapes.heading import VALUE, cell_names, heading_at

LONGEST_TITLE = 3  # records between the blank row and the heading of the next table
FEWEST_BELOW = 2
MOST_LOOKED_AT, MOST_GAPS = 100_000, 100  # records and blank rows among which a further table is looked for


def taken_apart(records: pl.DataFrame) -> list[pl.DataFrame]:
    """The tables of the sheet from top to bottom: a further one begins after a blank row with a heading of its own."""
    if records.height < FEWEST_BELOW * 2:
        return [records]
    gaps = (records["row"].diff().fill_null(1) > 1).head(MOST_LOOKED_AT).arg_true().to_list()[:MOST_GAPS]
    first = heading_at(records)
    begins = [0] + [at for at in gaps if first is not None and at > first + 1 and _begins_table(records, at, first)]
    if len(begins) == 1:
        return [records]
    ends = [*begins[1:], records.height]
    return [_narrow(records.slice(begin, end - begin)) for begin, end in zip(begins, ends, strict=True)]


def _begins_table(records: pl.DataFrame, at: int, first: int) -> bool:
    """Whether a heading other than the first stands at or shortly below this record."""
    part = records.slice(at, 40)
    place = heading_at(part)
    if place is None or place > LONGEST_TITLE or part.height - place - 1 < FEWEST_BELOW:
        return False
    texts, known = _texts(part, place), _texts(records, first)
    other = set(texts) != set(known)
    values_below = any(VALUE.match(cell) for row in range(place + 1, part.height) for cell in _texts(part, row))
    return other and values_below and len(texts) >= 2 and not any(len(text) > 40 for text in texts)


def _texts(records: pl.DataFrame, at: int) -> list[str]:
    return [str(records[name][at]).strip() for name in cell_names(records) if str(records[name][at]).strip()]


def _narrow(records: pl.DataFrame) -> pl.DataFrame:
    """Without the empty cells at the end that only the wider table beside it has."""
    if records.is_empty():
        return records
    widest = max(
        (number for number, name in enumerate(cell_names(records), 1) if (records[name].str.strip_chars() != "").any()),
        default=1,
    )
    return records.with_columns(pl.min_horizontal("count", pl.lit(widest, pl.Int64)).alias("count"))
