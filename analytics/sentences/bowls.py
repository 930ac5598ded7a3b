"""How far the mixing log covers the work."""

import polars as pl

from analytics import wording
from analytics.settings import Settings


def coverage_sentence(months: pl.DataFrame, settings: Settings, month: str) -> str:
    """How far the mixing log covers the colour work of the month; empty where there was none."""
    found = months.filter((pl.col("month") == month) & pl.col("logged_share").is_not_null())
    if found.is_empty():
        return ""
    logged = wording.share(found["logged_share"][0], settings)
    return f"Product cost counts what was logged: {logged} of the month's colour services have a bowl in the log."


def bowl_totals(bowls: pl.DataFrame) -> pl.DataFrame:
    """The figure `bowls` by month: grams, left_share of the weighed bowls, left_cost, and how far the log covers."""
    return (
        bowls.group_by("month")
        .agg(
            pl.col("mixed_g", "weighed_mixed_g", "left_g").sum(),
            pl.when(pl.col("left_cost").is_not_null().any()).then(pl.col("left_cost").sum()).alias("left_cost"),
            pl.col("colour_lines", "colour_lines_logged").max(),
        )
        .with_columns(
            left_share=_ratio("left_g", "weighed_mixed_g"),
            weighed_share=_ratio("weighed_mixed_g", "mixed_g"),
            logged_share=_ratio("colour_lines_logged", "colour_lines"),
        )
        .sort("month")
    )


def _ratio(top: str, bottom: str) -> pl.Expr:
    return pl.when(pl.col(bottom) > 0).then(pl.col(top).cast(pl.Float64) / pl.col(bottom).cast(pl.Float64))
