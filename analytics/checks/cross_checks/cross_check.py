"""What a check is: rows of tables seen together, each with its file and row and one number that has a range."""

from collections.abc import Callable
from dataclasses import dataclass

import polars as pl

from analytics.definitions.columns import LINEAGE, Column
from analytics.money import digits_of
from analytics.settings import Settings

Tables = dict[str, pl.DataFrame]
Rows = Callable[[Tables, Settings], pl.DataFrame]


@dataclass(frozen=True)
class CrossCheck:
    """rows: frame with file, row and the judged column; a value outside the column's range is a finding of `code`.

    Crossings of the same rows stand one after another, so that these are made once.

    value, expected: what the finding's sentence says of such a row; value only where it tells one cause from another.
    """

    code: str
    table: str
    column: str
    judged: Column
    rows: Rows
    value: pl.Expr | None = None
    expected: pl.Expr | Callable[[Settings], pl.Expr] | None = None

    def texts(self, settings: Settings) -> dict[str, pl.Expr]:
        """value and expected, as far as there is something to say."""
        expected = self.expected(settings) if callable(self.expected) else self.expected
        return {name: text for name, text in (("value", self.value), ("expected", expected)) if text is not None}


def number(name: str, meaning: str, low: float | None = None, high: float | None = None) -> Column:
    return Column(name, "number", meaning, low=low, high=high)


def with_lineage(rows: pl.DataFrame, source: pl.DataFrame) -> pl.DataFrame:
    """The file and row of each row's `place` in the table it was made from."""
    return rows.hstack(source.select(*LINEAGE)[rows["place"]]).drop("place")


def with_site(text: pl.Expr) -> pl.Expr:
    """The text, and in which salon of a group."""
    return text + pl.when(pl.col("site") == "").then(pl.lit("")).otherwise(" in " + pl.col("site"))


def money_text(amount: pl.Expr, settings: Settings) -> pl.Expr:
    """The amount with as many digits as the currency has."""
    digits = digits_of(settings.salon.currency)
    return amount.cast(pl.Float64).round(digits).cast(pl.Decimal(18, digits)).cast(pl.String)
