"""What was to be expected to be left of a month: what was to come in, less product, less what being open costs."""

import polars as pl

LEFT = "left_after_costs"


def with_left(told: pl.DataFrame, measured: pl.DataFrame) -> pl.DataFrame:
    """`told` of records/months/expected with rows for what is left, whose range is as wide as that of net revenue.

    measured: those months with product_cost and open_cost. Product is expected as it is told, or as it was where
    nothing is; costs are known before. Where salon.toml names none, nothing is expected to be left.
    """
    came = told.filter(figure="net_revenue")
    product = told.filter(figure="product_cost").select("month", mixed="expected")
    costs = measured.select("month", "open_cost", "product_cost")
    spent = pl.coalesce("mixed", "product_cost") + pl.col("open_cost")
    left = (
        came.join(product, on="month", how="left", maintain_order="left")
        .join(costs, on="month", how="left", maintain_order="left")
        .with_columns(
            pl.lit(LEFT).alias("figure"), *[pl.col(name) - spent for name in ("expected", "usual_low", "usual_high")]
        )
    )
    nothing = pl.lit(None, told.schema["slope"]).alias("slope")
    return pl.concat([told, left.with_columns(nothing).select(told.columns).cast(told.schema)])
