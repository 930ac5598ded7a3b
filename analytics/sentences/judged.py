"""Whether a value is news: a change inside its usual range is ordinary, and a month that is not over is not judged."""

from decimal import Decimal

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

ORDINARY, ABOVE, BELOW, UNKNOWN, PART = "usual", "above usual", "below usual", "no usual range yet", "month not over"
YEAR = 12  # months


def row_of(month_frame: pl.DataFrame, month: str, figure: str) -> Row | None:
    """The row of one figure in one month, if the frame has it."""
    found = month_frame.filter((pl.col("month") == month) & (pl.col("figure") == figure))
    return found.row(0, named=True) if found.height else None


def standing(row: Row) -> str:
    """Where a value stands against its usual range."""
    if row["part_month"]:
        return PART
    if not row["judged"]:
        return UNKNOWN
    return {"below": BELOW, "above": ABOVE}.get(row["flag"] or "", ORDINARY)


def usual(row: Row, settings: Settings) -> str:
    """The usual range of a value, as text."""
    return wording.quantities(row["usual_low"], row["usual_high"], row["unit"], settings)


def against(row: Row, settings: Settings) -> str:
    """The clause that says whether a whole month's value is news."""
    place = standing(row)
    if place == UNKNOWN:
        return "; there are too few months before it to say what is usual"
    wide = young(row, settings)
    if place == ORDINARY:
        return f", inside its usual {usual(row, settings)}{wide}"
    return f", {place.split()[0]} its usual {usual(row, settings)}{wide}: that is news"


def young(row: Row, settings: Settings) -> str:
    """' (wide, as only 5 months lie before it)', where the range rests on less than a year."""
    before = row.get("months_before")
    if before is None or before >= YEAR:
        return ""
    verb = "month lies" if before == 1 else "months lie"
    return f" (wide, as only {wording.number(before, settings)} {verb} before it)"


def lasting(row: Row, settings: Settings) -> list[str]:
    """What is news of more months than this one: 'below what was to be expected for 9 months in a row', …"""
    said = []
    if row["one_side"]:
        months = wording.number(row["months_one_side"], settings)
        said.append(f"{row['one_side']} what was to be expected for {months} months in a row")
    if row["drift"] is not None:
        way = "rising" if row["drift"] > 0 else "falling"
        said.append(f"{way} for a year, by about {_step(abs(row['drift']), row['unit'], settings)} a month")
    return said


def _step(size: Decimal, unit: str, settings: Settings) -> str:
    """What a month adds: smaller than a value, so with a digit more."""
    if unit == "share":
        return wording.points(size, settings)
    if unit in (settings.salon.currency, f"{settings.salon.currency}/h", "h"):
        return wording.quantity(size, unit, settings)
    return f"{wording.number(size, settings, 1)} {unit}"


def is_news(row: Row) -> bool:
    """Whether anything of the value is news: the month itself, or what has lasted up to it."""
    return standing(row) in (ABOVE, BELOW) or bool(row["one_side"]) or row["drift"] is not None
