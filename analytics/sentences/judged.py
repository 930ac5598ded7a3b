"""Whether a value is news: a change inside its usual range is ordinary, and a month that is not over is not judged."""

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

ORDINARY, ABOVE, BELOW, UNKNOWN, PART = "usual", "above usual", "below usual", "no usual range yet", "month not over"


def row_of(month_frame: pl.DataFrame, month: str, figure: str) -> Row | None:
    """The row of one figure in one month, if the frame has it."""
    found = month_frame.filter((pl.col("month") == month) & (pl.col("figure") == figure))
    return found.row(0, named=True) if found.height else None


def standing(row: Row) -> str:
    """Where a value stands against its usual range."""
    if row["part_month"]:
        return PART
    if row["value"] is None or row["usual_low"] is None or row["usual_high"] is None:
        return UNKNOWN
    if row["value"] < row["usual_low"]:
        return BELOW
    return ABOVE if row["value"] > row["usual_high"] else ORDINARY


def usual(row: Row, settings: Settings) -> str:
    """The usual range of a value, as text."""
    return wording.quantities(row["usual_low"], row["usual_high"], row["unit"], settings)


def against(row: Row, settings: Settings) -> str:
    """The clause that says whether a whole month's value is news."""
    place = standing(row)
    if place == UNKNOWN:
        return "; a usual range needs 12 months before it"
    if place == ORDINARY:
        return f", inside its usual {usual(row, settings)}"
    return f", {place.split()[0]} its usual {usual(row, settings)}: that is news"
