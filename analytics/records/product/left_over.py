"""What was left in bowls, month by month and by product, kind, service and stylist: sums, shares and their ranges."""

import polars as pl

from analytics.methods.price_quantity import price_variance, quantity_variance
from analytics.methods.quotient import per
from analytics.methods.ratio import ratio_range
from analytics.money import EXACT, rounded

ALL = "all"
SPLITS = {ALL: None, "product": "product_id", "kind": "kind", "service": "service_id", "stylist": "stylist"}
BY = ["month", "split", "item_id"]


def _keyed(rows: pl.DataFrame, split: str) -> pl.DataFrame:
    item = SPLITS[split]
    return rows.with_columns(split=pl.lit(split), item_id=pl.col(item) if item else pl.lit(""))


def sums_of_bowls(rows: pl.DataFrame, split: str) -> pl.DataFrame:
    """Sums per month and item, and of squares over its bowls."""
    weighed = pl.col("left_g").is_not_null()
    known = weighed & pl.col("mixed_cost").is_not_null()
    by_bowl = (
        _keyed(rows, split)
        .group_by(*BY, "bowl", maintain_order=True)
        .agg(
            pl.col("mixed_g").sum(),
            pl.when(pl.col("mixed_cost").is_not_null().any()).then(pl.col("mixed_cost").sum()).alias("mixed_cost"),
            price_variance=price_variance(pl.col("mixed_cost"), pl.col("mixed_cost_before")).sum(),
            quantity_variance=quantity_variance(
                pl.col("mixed_cost_before"), pl.col("mixed_cost_before") - pl.col("left_cost_before")
            ).sum(),
            weighed=weighed.any(),
            costed=known.any(),
            weighed_mixed_g=pl.col("mixed_g").filter(weighed).sum(),
            left_g=pl.col("left_g").sum(),
            weighed_cost=pl.col("mixed_cost").filter(known).sum(),
            left_cost=pl.col("left_cost").sum(),
        )
    )
    grams, cost = ("left_g", "weighed_mixed_g"), ("left_cost", "weighed_cost")
    return by_bowl.group_by(BY).agg(
        pl.col("mixed_g", "price_variance", "quantity_variance", "weighed_mixed_g").sum(),
        pl.when(pl.col("mixed_cost").is_not_null().any()).then(pl.col("mixed_cost").sum()).alias("mixed_cost"),
        *(pl.col(name).cast(pl.Float64).pow(2).sum().alias(f"{name}_2") for name in (*grams, *cost)),
        *(
            (pl.col(left).cast(pl.Float64) * pl.col(mixed).cast(pl.Float64)).sum().alias(f"{left}_x")
            for left, mixed in (grams, cost)
        ),
        pl.col("weighed_cost").sum(),
        bowls=pl.len().cast(pl.Int64),
        weighed_bowls=pl.col("weighed").sum().cast(pl.Int64),
        left_g=pl.when(pl.col("weighed").any()).then(pl.col("left_g").sum()),
        left_cost=pl.when(pl.col("costed").any()).then(pl.col("left_cost").sum()),
    )


def lines_covered(lines: pl.DataFrame) -> pl.DataFrame:
    """Per month and item of the splits that a line has: colour_lines, and colour_lines_logged of them."""
    parts = [
        _keyed(lines, split)
        .group_by(BY)
        .agg(colour_lines=pl.len().cast(pl.Int64), colour_lines_logged=pl.col("logged").sum().cast(pl.Int64))
        for split in (ALL, "service", "stylist")
    ]
    return pl.concat(parts)


def with_ranges(sums: pl.DataFrame, digits: int) -> pl.DataFrame:
    logged = per("colour_lines_logged", "colour_lines")
    weighed = per("weighed_bowls", "bowls")
    low, high = _range(
        sums.with_columns(sampled=(weighed * logged.fill_null(1.0)).fill_null(0.0)), "left_g", "weighed_mixed_g"
    )
    cheap, dear = _range(sums.with_columns(sampled=weighed.fill_null(0.0)), "left_cost", "weighed_cost")
    mixed_cost = pl.col("mixed_cost").cast(pl.Float64)
    money = ["mixed_cost", "left_cost", "price_variance", "quantity_variance"]
    return sums.with_columns(
        weighed_share=per("weighed_bowls", "bowls"),
        logged_share=per("colour_lines_logged", "colour_lines"),
        left_share=per("left_g", "weighed_mixed_g"),
        left_share_low=low,
        left_share_high=high.clip(None, 1.0),
        left_cost_likely=per("left_cost", "weighed_cost") * mixed_cost,
        left_cost_low=pl.max_horizontal(cheap * mixed_cost, pl.col("left_cost").cast(pl.Float64)),
        left_cost_high=dear * mixed_cost,
    ).with_columns(
        *(rounded(pl.col(name), digits) for name in money),
        *(
            rounded(pl.col(name).round(9).cast(EXACT), digits)
            for name in ("left_cost_likely", "left_cost_low", "left_cost_high")
        ),
    )


def _range(sums: pl.DataFrame, left: str, mixed: str) -> tuple[pl.Series, pl.Series]:
    floats = sums.with_columns(pl.col(left, mixed).cast(pl.Float64).fill_null(0.0), n=pl.col("weighed_bowls"))
    return ratio_range(floats.with_columns(pl.col(f"{left}_2", f"{mixed}_2", f"{left}_x").fill_null(0.0)), left, mixed)
