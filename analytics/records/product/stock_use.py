"""How fast each shelf empties: use week by week, and how much of it the log does not see."""

from datetime import date, timedelta

import polars as pl

from analytics.definitions.tables import COLOUR_KINDS
from analytics.methods.quotient import per
from analytics.records.product.stock_moves import SHELF

WEEKS_SEEN = 26  # half a year, for the spread
RECENT_WEEKS = 8
USED = pl.col("movement").is_in(["mixed", "sold"])


def last_day(moves: pl.DataFrame, lines: pl.DataFrame, as_of: date) -> date:
    """The day up to which use is known: yesterday, or the last day with a movement or line where both end earlier."""
    days = pl.concat([moves["at"].dt.date(), lines["starts_at"].dt.date()])
    last = days.filter(days < as_of).max()
    return last if isinstance(last, date) else as_of - timedelta(days=1)


def weekly_use(moves: pl.DataFrame, until: date) -> pl.DataFrame:
    """One row per shelf and week before and with the day `until`: weeks_ago (0: the last seven days), grams.

    At most WEEKS_SEEN, and no more than whole weeks since the shelf's first movement (at least one); a week without use
    has nothing.
    """
    days_ago = (pl.lit(until) - pl.col("at").dt.date()).dt.total_days()
    known = (
        moves.filter(days_ago >= 0)
        .group_by(SHELF, maintain_order=True)
        .agg(weeks=((days_ago.max() + 1) // 7).clip(1, WEEKS_SEEN))
    )
    used = moves.filter(USED & (days_ago >= 0)).group_by(*SHELF, weeks_ago=days_ago // 7).agg(pl.col("grams").sum())
    return (
        known.with_columns(weeks_ago=pl.int_ranges("weeks"))
        .explode("weeks_ago")
        .join(used, on=[*SHELF, "weeks_ago"], how="left", maintain_order="left")
        .select(*SHELF, "weeks_ago", pl.col("grams").fill_null(0))
    )


def use_rate(weeks: pl.DataFrame) -> pl.DataFrame:
    """Of weekly_use, one row per shelf: weekly_g over the last RECENT_WEEKS, and weekly_sd_g over all of them.

    Where there is one week only its use stands for its spread.
    """
    grams = pl.col("grams").cast(pl.Float64)
    recent = grams.filter(pl.col("weeks_ago") < RECENT_WEEKS).mean()
    return weeks.group_by(SHELF, maintain_order=True).agg(
        weekly_g=recent, weekly_sd_g=pl.when(pl.len() > 1).then(grams.std()).otherwise(recent)
    )


def seen_share(parts: pl.DataFrame, lines: pl.DataFrame, until: date) -> pl.DataFrame:
    """Per site and kind of product: true_use, what leaves the shelf for each gram the log and the till see leave it.

    The larger of what counts found (used + unexplained ÷ used, over the last full stretch of each product of the kind)
    and, but for retail, what the log says of itself (colour lines ÷ colour lines with a bowl in the last WEEKS_SEEN);
    at least 1, and 1 where neither is known.
    parts: records.stock_stretches. lines: records.bowls.colour_lines.
    """
    used = pl.col("mixed_g") + pl.col("sold_g")
    counted = (
        parts.filter(pl.col("from_on").is_not_null() & pl.col("counted_g").is_not_null())
        .group_by(SHELF, maintain_order=True)
        .last()
        .group_by("site", "kind", maintain_order=True)
        .agg(by_count=per((used + pl.col("unexplained_g")).sum(), used.sum()))
    )
    days_ago = (pl.lit(until) - pl.col("starts_at").dt.date()).dt.total_days()
    recent = lines.filter(pl.col("kind").is_in(COLOUR_KINDS) & days_ago.is_between(0, 7 * WEEKS_SEEN - 1))
    if (parts["site"] == "").all():
        recent = recent.with_columns(site=pl.lit(""))
    logged = recent.group_by("site").agg(by_log=per(pl.len(), pl.col("logged").sum()))
    kinds = parts.select("site", "kind").unique(maintain_order=True)
    by_log = pl.when((pl.col("kind") != "retail").fill_null(True)).then("by_log")
    return (
        kinds.join(counted, on=["site", "kind"], how="left", nulls_equal=True)
        .join(logged, on="site", how="left")
        .select("site", "kind", true_use=pl.max_horizontal("by_count", by_log, pl.lit(1.0)))
    )
