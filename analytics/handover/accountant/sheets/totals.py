"""Sums of what stands in a sheet: at its foot, by one of its columns, and over the lines of the trail.

The one place of the folder that adds up. Every amount in a sheet is a figure's; a sum of them here is exact, since
amounts are decimals of at most four digits.
"""

from collections.abc import Sequence
from decimal import Decimal

import polars as pl

from analytics.definitions.results import AMOUNT, MONEY


def total(frame: pl.DataFrame, column: str) -> Decimal:
    """The sum of a column; nothing where there are no rows."""
    return Decimal(str(frame[column].sum() or 0))


def totals_by(frame: pl.DataFrame, by: Sequence[str], columns: Sequence[str]) -> pl.DataFrame:
    """The sums of columns per value of `by`, in its order; what is no amount stays a whole number."""
    kinds = {name: MONEY.dtype if frame.schema[name] == AMOUNT else pl.Int64() for name in columns}
    sums = [pl.col(name).sum().cast(kind) for name, kind in kinds.items()]
    return frame.group_by(by, maintain_order=True).agg(sums).sort(by, nulls_last=True)


def balance(frame: pl.DataFrame, debit: str, credit: str) -> Decimal:
    """Debits less credits."""
    return total(frame, debit) - total(frame, credit)


def differing(frame: pl.DataFrame, amount: str, other: str) -> pl.DataFrame:
    """The frame with `difference`, the amount less the other."""
    return frame.with_columns(difference=(pl.col(amount) - pl.col(other)).cast(MONEY.dtype))
