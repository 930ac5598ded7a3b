"""What the page about coming back shows of the figures returns and return_curves."""

import polars as pl

from analytics import wording
from analytics.sentences import returns as said
from analytics.settings import Settings

SPLITS = {"kind": "By kind of first visit", "stylist": "By stylist", "cohort": "By quarter"}
WEEKS = (6, 8, 12)


def splits(curves: pl.DataFrame) -> list[str]:
    """How clients are split here: by quarter alone where nobody is likely to have been new when first seen."""
    return [split for split in SPLITS if groups(curves, split)]


def groups(curves: pl.DataFrame, split: str) -> list[str]:
    """The groups of one split, the most clients first; quarters with the last one first."""
    start = curves.filter(split=split, week=0)
    order, descending = (["name"], [True]) if split == "cohort" else (["clients", "name"], [True, False])
    return start.sort(order, descending=descending)["name"].to_list()


def table(curves: pl.DataFrame, split: str, settings: Settings) -> pl.DataFrame:
    """One row per group: name, clients, shares returned within WEEKS, still waited for at the last, and the median."""
    names = groups(curves, split)
    rows = []
    for name in names:
        start = said.row_at(curves, split, name, 0) or {}
        row = {"group": said.name_of(split, name), "clients": start.get("clients")}
        for weeks in WEEKS:
            at = said.row_at(curves, split, name, weeks) or {}
            row[f"returned_{weeks}w"], row["at_risk"] = at.get("returned"), at.get("at_risk")
        rows.append(row | {"median": said.median_words(start.get("median_days"), settings)})
    return pl.DataFrame(rows, infer_schema_length=None)


def quarters(returns: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """The figure returns with kinds and medians in words, the last quarter first."""
    return returns.sort("cohort", "kind", descending=[True, False]).with_columns(
        pl.col("kind").map_elements(wording.word, return_dtype=pl.String),
        median=pl.col("median_days").map_elements(
            lambda days: said.median_words(days, settings), return_dtype=pl.String, skip_nulls=False
        ),
    )
