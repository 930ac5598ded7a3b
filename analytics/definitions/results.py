"""What a figure answers with: a table's grain and key, and of each column what it holds, its unit and its meaning.

Each figure states its own RESULT and FIGURE in its file. Money is net of tax unless the name says gross.
"""

import inspect
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import polars as pl

COMPARISONS = {"previous": 1, "year_ago": 12}  # what a month is held against -> how many months before it lies
EXPECTED = "expected"  # what a month is held against as well


@dataclass(frozen=True)
class Kind:
    """What a column can hold: its polars type and its unit."""

    dtype: pl.DataType
    unit: str = ""


TEXT, YES_NO = Kind(pl.String()), Kind(pl.Boolean())
MONTH, QUARTER = Kind(pl.String(), "YYYY-MM"), Kind(pl.String(), "YYYY-Qn")
DAY, MOMENT, CLOCK_HOUR = Kind(pl.Date()), Kind(pl.Datetime("us")), Kind(pl.Int64())

AMOUNT = pl.Decimal(38, 4)
# Exact: added up, never divided. Written with the currency's own digits where it is money.
MONEY = Kind(AMOUNT, "currency")
GRAMS, PIECES, QUANTITY = Kind(pl.Decimal(38, 3), "g"), Kind(pl.Decimal(38, 3), "pieces"), Kind(pl.Decimal(38, 3))
TAX_RATE = Kind(pl.Decimal(9, 4), "%")
VALUE = Kind(AMOUNT, "as unit says")  # of a row whose own column says in what it is counted

COUNT = Kind(pl.Int64())  # of what, the column says
CLIENTS, VISITS, LINES = Kind(pl.Int64(), "clients"), Kind(pl.Int64(), "visits"), Kind(pl.Int64(), "lines")
BOWLS, PACKS = Kind(pl.Int64(), "bowls"), Kind(pl.Int64(), "packs")
WHOLE_DAYS, WEEKS = Kind(pl.Int64(), "days"), Kind(pl.Int64(), "weeks")

# Worked out: divided, averaged or estimated.
NUMBER, FACTOR = Kind(pl.Float64()), Kind(pl.Float64())  # of what, the column says; of nothing
SHARE, STRENGTH, PARTS = Kind(pl.Float64(), "0–1"), Kind(pl.Float64(), "%"), Kind(pl.Float64(), "parts")
HOURS, MINUTES, DAYS = Kind(pl.Float64(), "h"), Kind(pl.Float64(), "min"), Kind(pl.Float64(), "days")
MONEY_PER_HOUR, MONEY_PER_GRAM = Kind(pl.Float64(), "currency/h"), Kind(pl.Float64(), "currency/g")
MONEY_WORKED_OUT = Kind(pl.Float64(), "currency")
GRAMS_WORKED_OUT, GRAMS_PER_WEEK = Kind(pl.Float64(), "g"), Kind(pl.Float64(), "g a week")
MM, MM_PER_DAY = Kind(pl.Float64(), "mm"), Kind(pl.Float64(), "mm a day")


@dataclass(frozen=True)
class Column:
    """counted: what a COUNT or NUMBER counts."""

    kind: Kind
    meaning: str
    counted: str = ""

    @property
    def unit(self) -> str:
        return self.counted or self.kind.unit

    @property
    def money(self) -> bool:
        """Whether it is in the salon's currency: an amount, or one per hour or gram."""
        return self.unit.startswith("currency")


@dataclass(frozen=True)
class Result:
    """grain: what one row is. key: the columns that no two rows share. for_people: those a terminal has room for."""

    grain: str
    key: tuple[str, ...]
    columns: dict[str, Column]
    for_people: tuple[str, ...] = ()  # empty: all of them

    @property
    def schema(self) -> dict[str, pl.DataType]:
        return {name: column.kind.dtype for name, column in self.columns.items()}

    @property
    def amounts(self) -> list[str]:
        """The columns of exact money."""
        return [name for name, column in self.columns.items() if column.kind is MONEY]

    def has_money(self, shown: Iterable[str]) -> bool:
        """Whether any of the columns shown is in the salon's currency."""
        return any(self.columns[name].money for name in shown if name in self.columns)

    def empty(self) -> pl.DataFrame:
        return pl.DataFrame(schema=self.schema)

    def shape(self, frame: pl.DataFrame) -> pl.DataFrame:
        """The frame with exactly this result's columns, order and types."""
        return frame.select(pl.col(name).cast(dtype) for name, dtype in self.schema.items())


Work = Callable[..., pl.DataFrame]


@dataclass(frozen=True)
class Figure:
    """A figure: the function that works it out, the one that answers the rows it adds up, and what it answers with.

    Both are pure. Parameters named after tables are filled with them; settings, period, cover and as_of by keyword.
    """

    function: Work
    rows: Work
    result: Result

    def takes(self, parameter: str) -> bool:
        return parameter in inspect.signature(self.function).parameters


def filled(work: Work, known: Mapping[str, Any]) -> pl.DataFrame:
    """What the function answers, each parameter filled with what is known under its name."""
    return work(**{name: known[name] for name in inspect.signature(work).parameters})


MONTH_KEY = {"month": Column(MONTH, "calendar month")}
SITE_KEY = {"site": Column(TEXT, "the salon of a group; empty where there is one")}
COMPARED = {
    "compared_with": Column(TEXT, "expected, previous (the month before) or year_ago; a part-month: the same days then")
}
