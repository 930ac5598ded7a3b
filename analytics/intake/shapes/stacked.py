"""Two tables in one sheet, one below the other: each becomes a sheet of its own."""

from functools import cache

import polars as pl

from analytics.intake.meaning import words
from analytics.intake.meaning.words.spelling import spelling
from analytics.intake.shapes.heading import VALUE, cell_names, heading_at

LONGEST_TITLE = 3  # records between the blank row and the heading of the next table
FEWEST_BELOW = 2
MOST_LOOKED_AT, MOST_GAPS = 100_000, 100  # records and blank rows among which a further table is looked for
FEWEST_KNOWN, MOSTLY = 3, 0.6  # headings, and their share, that are known of a heading right below rows
FEWEST_AGAIN, NEARLY_ALL = 3, 0.9  # rows, and their share, that stand above the same heading already


def taken_apart(records: pl.DataFrame) -> list[pl.DataFrame]:
    """The tables of the sheet from top to bottom: a further one begins after a blank row with a heading of its own, or
    right below the rows with one that mostly consists of known headings."""
    if records.height < FEWEST_BELOW * 2:
        return [records]
    first = heading_at(records)
    begins = {0} if first is None else {0, *_after_gaps(records, first), *_right_below(records, first)}
    if len(begins) == 1:
        return [records]
    starts = sorted(begins)
    ends = [*starts[1:], records.height]
    return [_narrow(records.slice(begin, end - begin)) for begin, end in zip(starts, ends, strict=True)]


def _after_gaps(records: pl.DataFrame, first: int) -> list[int]:
    gaps = (records["row"].diff().fill_null(1) > 1).head(MOST_LOOKED_AT).arg_true().to_list()[:MOST_GAPS]
    return [at for at in gaps if at > first + 1 and _begins_table(records, at, first)]


def _right_below(records: pl.DataFrame, first: int) -> list[int]:
    """Places of records below the first heading that are headings by their words; of the first one again only where
    the rows below it are those above once more, as they then are repeats."""
    known = _texts(records, first)
    names = cell_names(records)[:2]
    words_only = (~records["c0"].head(MOST_LOOKED_AT).str.contains(r"\d")).arg_true()  # most rows begin otherwise
    if words_only.is_empty():
        return []
    listed = [*_listed(), *(text.lower() for text in known)]
    plain = pl.col(names).str.strip_chars().str.to_lowercase()
    maybe = words_only.filter(records[words_only].select(pl.all_horizontal(plain.is_in(listed))).to_series()).to_list()
    return [
        at
        for at in maybe[:MOST_GAPS]
        if at > first + 1 and (_is_heading(texts := _texts(records, at), known) or _again(records, at, first, texts))
    ]


def _again(records: pl.DataFrame, at: int, first: int, texts: list[str]) -> bool:
    """Whether the same heading and nearly the same rows stand there a second time."""
    if texts != _texts(records, first):
        return False
    names = cell_names(records)
    above, below = records.slice(first + 1, at - first - 1), records.slice(at + 1)
    twice = below.join(above, on=names, how="semi").height
    return twice >= FEWEST_AGAIN and twice >= NEARLY_ALL * below.height


def _is_heading(texts: list[str], first: list[str]) -> bool:
    """Whether most of them are headings, of any table or of the first, and none is a value."""
    said = [text for text in texts if text in first or spelling(text).key in _keys()]
    enough = len(said) >= max(FEWEST_KNOWN, MOSTLY * len(texts))
    return texts != first and enough and len(set(texts)) == len(texts) and not any(map(VALUE.match, texts))


@cache
def _listed() -> frozenset[str]:
    """The headings that are known, as they are listed, and the names of columns."""
    columns = {
        (table, column): lists for table, by_column in words.HEADINGS.items() for column, lists in by_column.items()
    }
    listed = {heading.lower() for lists in columns.values() for headings in lists.values() for heading in headings}
    return frozenset(listed | {column for _, column in columns})


@cache
def _keys() -> frozenset[str]:
    return frozenset(spelling(heading).key for heading in _listed())


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
