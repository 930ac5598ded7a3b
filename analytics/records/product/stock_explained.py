"""The shelf from count to count in money, with what bowls that nobody logged would account for."""

from datetime import date

import polars as pl

from analytics.methods.quotient import per
from analytics.money import EXACT, rounded
from analytics.records.memo import memoised
from analytics.records.product.stock_moves import SHELF
from analytics.records.product.stock_rows import StockRows
from analytics.records.product.stock_stretches import stretches

TO_THE_COUNT = pl.col("from_on").is_not_null() & pl.col("counted_g").is_not_null()


@memoised
def stock_explained(stocked: StockRows, as_of: date) -> pl.DataFrame:
    """Of each stretch (stock_stretches) its money rounded, its colour lines, and what of the missing they explain.

    last_counted marks the last stretch of a shelf that was counted at both ends. unlogged_g: what colour lines without
    a bowl would have taken, were they like the others; unlogged_cost: the part of unexplained_cost that this would be;
    unaccounted_cost: the rest of it.
    """
    book = stocked.ledger
    lines = stocked.colour_lines
    digits = stocked.digits
    return (
        _with_coverage(stretches(book, as_of), lines)
        .with_columns(_money(digits))
        .with_columns(
            used_cost=_used(),
            closing_packs=per("closing_g", "pack_g"),
            unexplained_packs=per("unexplained_g", "pack_g"),
        )
        .with_columns(unlogged_cost=_unlogged_cost(digits))
        .with_columns(unaccounted_cost=pl.col("unexplained_cost") - pl.col("unlogged_cost"))
        .sort(*SHELF, "to_on", "stretch")
        .with_columns(last_counted=TO_THE_COUNT & (pl.col("stretch") == _last_stretch()))
    )


def _last_stretch() -> pl.Expr:
    return pl.col("stretch").filter(TO_THE_COUNT).last().over(SHELF)


def _unlogged_cost(digits: int) -> pl.Expr:
    """Of what is missing, at most all of it; nothing where nothing is missing or no bowl of that time was logged."""
    missing = pl.col("unexplained_g").cast(pl.Float64)
    share = pl.when(missing > 0).then((pl.col("unlogged_g") / missing).clip(0, 1)).fill_null(0.0)
    part = (pl.col("unexplained_cost").cast(pl.Float64) * share).round(9).cast(EXACT)
    return rounded(part, digits)


def _with_coverage(parts: pl.DataFrame, lines: pl.DataFrame) -> pl.DataFrame:
    """Colour lines of each stretch, and those logged; nothing of retail, which no log of bowls covers."""
    spans = parts.select("site", "begins", "ends").unique()
    covered = (
        lines.select("starts_at", "logged", _site="site")
        .join_where(spans, pl.col("starts_at") > pl.col("begins"), pl.col("starts_at") <= pl.col("ends"))
        .filter((pl.col("site") == "") | (pl.col("site") == pl.col("_site")))
        .group_by("site", "begins", "ends")
        .agg(colour_lines=pl.len(), colour_lines_logged=pl.col("logged").sum())
    )
    mixed = (pl.col("kind") != "retail").fill_null(True)
    logged = pl.col("colour_lines_logged")
    missed = (pl.col("colour_lines") - logged) / logged
    worked = pl.col("colour_lines") > 0
    return (
        parts.join(covered, on=["site", "begins", "ends"], how="left")
        .with_columns(pl.when(mixed).then(pl.col("colour_lines", "colour_lines_logged").fill_null(0)))
        .with_columns(
            unlogged_g=pl.when(logged > 0).then(pl.col("mixed_g").cast(pl.Float64) * missed),
            logged_share=pl.when(worked).then(logged / pl.col("colour_lines")),
        )
    )


def _money(digits: int) -> list[pl.Expr]:
    valued = pl.col("closing_value").is_not_null()
    names = ("opening_value", "delivered_cost", "unexplained_cost", "closing_value")
    return [pl.when(valued).then(rounded(pl.col(name), digits)).alias(name) for name in names]


def _used() -> pl.Expr:
    left = pl.col("opening_value") + pl.col("delivered_cost") - pl.col("closing_value")
    return left - pl.col("unexplained_cost").fill_null(0)
