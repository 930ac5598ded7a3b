"""A name in two columns: together, in one column more, they are the client's."""

from functools import cache

import polars as pl

from analytics.intake.meaning import words
from analytics.intake.meaning.words.spelling import spelling
from analytics.intake.shapes.heading import cell_names, heading_at

AND = " + "


def half_name(heading: str) -> bool:
    """Whether a heading is a general word for a part of a name."""
    return spelling(heading).key in _keys(words.HALF_NAMES)


def bare_name(heading: str) -> bool:
    """Whether it is a word for anybody's name, which beside a part of a name is the other part."""
    return spelling(heading).key in _keys(words.BARE_NAMES)


@cache
def _keys(listed: tuple[str, ...]) -> frozenset[str]:
    return frozenset(spelling(word).key for word in listed)


def is_whole_name(heading: str) -> bool:
    """Whether it is the heading of two parts put together here."""
    parts = heading.split(AND)
    return len(parts) == 2 and any(map(half_name, parts)) and all(half_name(part) or bare_name(part) for part in parts)


def names_together(records: pl.DataFrame) -> pl.DataFrame:
    """With a column of both parts where exactly two headings are words for them."""
    at = heading_at(records)
    if at is None:
        return records
    names = cell_names(records)
    halves = [name for name in names if half_name(str(records[name][at]).strip())]
    if len(halves) == 1:
        halves += [name for name in names if bare_name(str(records[name][at]).strip())]
        halves.sort(key=names.index)
    if len(halves) != 2:
        return records
    first, last = (pl.col(name).str.strip_chars() for name in halves)
    title = AND.join(str(records[name][at]).strip() for name in halves)
    place = pl.int_range(pl.len()) == at
    both = pl.when(place).then(pl.lit(title)).otherwise(pl.concat_str(first, last, separator=" ").str.strip_chars())
    padded = pl.max_horizontal("count", pl.lit(len(names), pl.Int64)) + 1
    return records.with_columns(both.alias(f"c{len(names)}"), padded.alias("count"))
