"""What is said of a table that exports are read into: grain, key, and of each column its type, meaning and rule."""

from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

import polars as pl

Type = Literal[
    "text",
    "word",
    "yes_no",
    "whole",
    "number",
    "quantity",
    "grams",
    "money",
    "percent",
    "day",
    "moment",
    "moment_or_day",
]

MONEY = pl.Decimal(18, 4)
GRAMS = pl.Decimal(12, 3)
PERCENT = pl.Decimal(9, 4)

POLARS_TYPES: dict[str, pl.DataType] = {
    "text": pl.String(),
    "word": pl.String(),
    "yes_no": pl.Boolean(),
    "whole": pl.Int64(),
    "number": pl.Float64(),
    "quantity": GRAMS,
    "grams": GRAMS,
    "money": MONEY,
    "percent": PERCENT,
    "day": pl.Date(),
    "moment": pl.Datetime("us"),
    "moment_or_day": pl.Datetime("us"),
}

MADE_OF = " · "  # stands between the parts of an id that loading put together, such as a visit of day and client
LINEAGE = {"file": pl.String(), "row": pl.Int64()}
CORRECTS = ("corrects_file", "corrects_row")  # which set-aside row of which file a corrected row stands for
NOBODY = r"^no name [0-9a-f]{8}$"  # what stands in the place of a client who was erased


@dataclass(frozen=True)
class Column:
    """One column of a table in: `low` and `high` are the values beyond which a cell is a finding."""

    name: str
    type: Type
    meaning: str
    required: bool = False
    words: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    default: str | None = None  # text, as it would stand in a cell


@dataclass(frozen=True)
class Table:
    """One table in.

    key: the columns that identify a row across files (empty: the table has no key, rows are counted).
    time: the column by which one file reaches further in time than another.
    either: groups of columns of which one must be filled, for example an id or a name.
    at_least: pairs of columns of which the first is never less than the second.
    parts: further columns an export may have, from which columns of the table are made; they are not kept themselves.
    made_from: column -> the columns it is made from where an export does not have it.
    """

    name: str
    grain: str
    columns: tuple[Column, ...]
    key: tuple[str, ...] = ()
    time: str | None = None
    either: tuple[tuple[str, ...], ...] = ()
    at_least: tuple[tuple[str, str], ...] = ()
    parts: tuple[str, ...] = ()
    made_from: dict[str, tuple[str, ...]] = field(default_factory=dict)
    required: bool = False

    @property
    def headings(self) -> list[str]:
        """Every column that an export may have."""
        return [*self.names, *self.parts, *CORRECTS]

    @property
    def names(self) -> list[str]:
        return [column.name for column in self.columns]

    @cached_property
    def schema(self) -> dict[str, pl.DataType]:
        """Column types of the loaded table, lineage (file, row as a spreadsheet counts it) last."""
        return {column.name: POLARS_TYPES[column.type] for column in self.columns} | LINEAGE

    def empty(self) -> pl.DataFrame:
        """No rows; a frame made once and copied, since it is asked for at every step of a small load."""
        return self._empty.clone()

    @cached_property
    def _empty(self) -> pl.DataFrame:
        return pl.DataFrame(schema=self.schema)
