"""Tables as the pages hand them on, and what is done to one so that it can be shown. No other module knows polars."""

from typing import Literal

import polars as pl

from analytics.definitions.rows import Row

Frame = pl.DataFrame
Panic = pl.exceptions.PanicException
Holds = Literal["days", "text", "whole numbers", "numbers"]


def of_rows(rows: list[Row]) -> Frame:
    """The rows as a table."""
    return pl.DataFrame(rows, infer_schema_length=None)


def in_words(frame: Frame, column: str, words: dict[str, str]) -> Frame:
    """The table with what stands in this column as people say it."""
    return frame.with_columns(pl.col(column).replace(words))


def in_percent(frame: Frame, shares: tuple[str, ...]) -> Frame:
    """The table with its shares of 1 as shares of 100, which is how they are shown."""
    return frame.with_columns(pl.col(name) * 100 for name in shares if name in frame.columns)


def holds(frame: Frame, column: str) -> Holds:
    """What stands in this column."""
    kind = frame.schema[column]
    if kind == pl.Date:
        return "days"
    if kind == pl.String:
        return "text"
    return "whole numbers" if kind.is_integer() else "numbers"
