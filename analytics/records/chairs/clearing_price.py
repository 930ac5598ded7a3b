"""The price of a service at which each of its chair hours contributes a chosen rate, its product paid."""

import polars as pl

from analytics.money import digits_of, rounded
from analytics.settings import Settings


def clearing_price(rate: float | None, settings: Settings) -> pl.Expr:
    """rate × minutes_per_line + product_cost_per_line_in_all, with tax where prices include it; null without a rate."""
    hours = pl.col("minutes_per_line") / 60
    net = pl.lit(rate, pl.Float64) * hours + pl.col("product_cost_per_line_in_all")
    tax = pl.col("tax_rate").cast(pl.Float64) / 100 if settings.tax.prices == "included" else pl.lit(0.0)
    return rounded((net * (1 + tax)).cast(pl.Decimal(38, 12)), digits_of(settings.salon.currency))


def aimed(prices: pl.DataFrame, target: float, settings: Settings) -> pl.DataFrame:
    """The figure `prices` with another target for a chair hour: its price, and who reaches it."""
    return prices.with_columns(
        target_per_chair_hour=pl.lit(target, pl.Float64),
        price_to_clear_target=clearing_price(target, settings),
        reaches_target=pl.col("contribution_per_chair_hour") >= target,
    )
