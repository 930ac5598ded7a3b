"""How far off the weeks ahead were on the salon's own past, beside the rules people use."""

import polars as pl

from analytics.methods.scores import mean_scaled_error, pinball

OURS = "ahead"
RULES = ("same_week_last_year", "last_12_weeks")
QUANTILES = {0.1: "low", 0.5: "expected", 0.9: "high"}
FIRST_FAR, MOST = 2, 12
NEAR, FAR = "week_1", "weeks_2_to_12"


def week_scores(rows: pl.DataFrame) -> pl.DataFrame:
    """rows: of weeks_replayed. One row per horizon and method: group, method, n, mean_error_hours, pinball_hours (the
    mean of the three quantiles' loss), mase (over weeks of which a naive error is known), share_inside. All methods are
    held against the same weeks: those that every rule that can be asked at all answers."""
    able = [rule for rule in RULES if rows[rule].null_count() < rows.height]
    asked = rows.drop_nulls(able)
    far = pl.col("weeks_ahead") >= FIRST_FAR
    groups = {FAR: far} | {f"week_{week}": pl.col("weeks_ahead") == week for week in range(1, MOST + 1)}
    parts = [_scored(asked.filter(some), group, method) for group, some in groups.items() for method in (OURS, *able)]
    scored: pl.DataFrame = pl.concat(parts).filter(pl.col("n") > 0)
    return scored


def _scored(rows: pl.DataFrame, group: str, method: str) -> pl.DataFrame:
    came, ours = pl.col("came"), method == OURS
    says = {share: pl.col(name if ours else method) for share, name in QUANTILES.items()}
    loss = sum((pinball(said, came, share) for share, said in says.items()), pl.lit(0.0)) / len(says)
    inside = came.is_between(pl.col("low") - 1e-9, pl.col("high") + 1e-9).cast(pl.Float64).mean()
    return rows.select(
        group=pl.lit(group),
        method=pl.lit(method),
        n=pl.len().cast(pl.Int64),
        mean_error_hours=(came - says[0.5]).abs().mean(),
        pinball_hours=loss.mean(),
        mase=mean_scaled_error(says[0.5], came, pl.col("naive_error")),
        share_inside=inside if ours else pl.lit(None, pl.Float64),
    )
