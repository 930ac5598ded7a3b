"""How far the mixing log covers the work."""

import polars as pl

from analytics import wording
from analytics.settings import Settings


def coverage_sentence(bowls: pl.DataFrame, settings: Settings, month: str) -> str:
    """How far the mixing log covers the colour work of the month; empty where there was none.

    bowls: the figure `bowls`.
    """
    found = bowls.filter((pl.col("month") == month) & pl.col("logged_share").is_not_null())
    if found.is_empty():
        return ""
    logged = wording.share(found["logged_share"][0], settings)
    return f"Product cost counts what was logged: {logged} of the month's colour services have a bowl in the log."
