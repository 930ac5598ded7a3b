"""Whether what was said came true: what was predicted against what was seen, in groups of about equal size.

A reliability diagram (for example Murphy and Winkler 1977, JRSS C 26:41–47; from memory).
"""

import polars as pl

MOST_GROUPS = 6
LEAST_IN_A_GROUP = 20  # in smaller groups the share seen wobbles too much to say anything


def reliability(predicted: pl.Series, seen: pl.Series) -> pl.DataFrame:
    """One row per group of like predictions, in order: predicted (mean), seen (mean of yes and no), n.

    Equal predictions stay together. Empty where there are too few for two groups.
    """
    rows = pl.DataFrame({"predicted": predicted.cast(pl.Float64), "seen": seen.cast(pl.Float64)}).drop_nulls()
    groups = min(MOST_GROUPS, rows.height // LEAST_IN_A_GROUP)
    if groups < 2:
        return pl.DataFrame(schema={"predicted": pl.Float64(), "seen": pl.Float64(), "n": pl.Int64()})
    group = (pl.col("predicted").rank("min") - 1) * groups // rows.height
    return (
        rows.group_by(group=group)
        .agg(pl.col("predicted").mean(), pl.col("seen").mean(), n=pl.len().cast(pl.Int64))
        .sort("predicted")
        .drop("group")
    )
