"""What was left in the bowls, and how far the mixing log covers the work."""

import polars as pl

from analytics import wording
from analytics.sentences.judged import Row, against
from analytics.settings import Settings


def bowls_sentence(months: pl.DataFrame, settings: Settings, month: str) -> str:
    """What was left in the bowls, whether that is news, and how far the log covers the work.

    months: bowl_totals with, for left_share, value, previous, year_ago, usual_low, usual_high and part_month.
    """
    title, found = wording.month_title(month, settings), months.filter(pl.col("month") == month).to_dicts()
    if not found or not found[0]["mixed_g"]:
        return f"No bowl was logged in {title}, so nothing can be said about what was left over."
    row = found[0]
    if row["left_share"] is None:
        mixed = wording.grams(row["mixed_g"], settings)
        known = f"{title}: {mixed} were mixed and no bowl was weighed afterwards, so what was left is not known"
        return f"{known}{_logged(row, settings)}."
    left = wording.share(row["left_share"], settings)
    cost = f" ({wording.money(row['left_cost'], settings)} of product)" if row["left_cost"] is not None else ""
    if row["part_month"]:
        return f"So far in {title}, {left} of what was weighed was left in the bowl{cost}{_logged(row, settings)}."
    news = against(row | {"unit": "share"}, settings)
    return f"In {title}, {left} of what was weighed was left in the bowl{cost}{news}{_logged(row, settings)}."


def _logged(row: Row, settings: Settings) -> str:
    if row["logged_share"] is None:
        return ""
    return f"; {wording.share(row['logged_share'], settings)} of colour services have a bowl logged"


def weighed_sentence(bowls: pl.DataFrame, settings: Settings) -> str:
    """How much of what was mixed in the month was weighed afterwards; empty where nothing was mixed."""
    mixed, weighed = float(bowls["mixed_g"].sum()), float(bowls["weighed_mixed_g"].sum())
    if not mixed:
        return ""
    share, all_of_it = wording.share(weighed / mixed, settings), wording.grams(mixed, settings)
    return f"{share} of the {all_of_it} mixed were in bowls weighed afterwards; of the rest nothing is known."


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
