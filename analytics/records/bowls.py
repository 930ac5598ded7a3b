"""Rows of the mixing log with their product, its cost that day, and the service they were mixed for."""

import polars as pl

from analytics.money import EXACT
from analytics.periods import month_of
from analytics.records.kept import kept
from analytics.records.stays import VISIT
from analytics.records.validity import valid_that_day
from analytics.tables import COLOUR_KINDS


@kept
def priced_log(product_log: pl.DataFrame, products: pl.DataFrame) -> pl.DataFrame:
    """Log rows with month (of logged_at), product, kind, mixed_cost and left_cost (exact, not yet rounded).

    Costs are null where the products export does not know the product; left_cost is null where nothing was weighed.
    """
    priced = valid_that_day(
        product_log.rename({"product": "logged_product"}),
        products.select("site", "product_id", "product", "kind", "pack_g", "pack_cost", "valid_from"),
        "product_id",
        pl.col("logged_at"),
    )
    return priced.with_columns(
        month=month_of(pl.col("logged_at")),
        product=pl.coalesce("product", "logged_product", "product_id"),
        mixed_cost=_cost("mixed_g"),
        left_cost=_cost("left_g"),
    )


def _cost(grams: str) -> pl.Expr:
    """Grams × pack cost ÷ grams in a pack; multiplied first, because decimal division keeps the scale."""
    packs_hold = pl.when(pl.col("pack_g") > 0).then(pl.col("pack_g").cast(EXACT))
    return pl.col(grams).cast(EXACT) * pl.col("pack_cost") / packs_hold


def with_service(log: pl.DataFrame, lines: pl.DataFrame) -> pl.DataFrame:
    """Log rows whose service_id is empty take the first colour line of their visit, or else its first line.

    lines: booking lines with kind. A row without a known visit stays without a service.
    """
    first = (
        lines.sort(~pl.col("kind").is_in(COLOUR_KINDS), "line")
        .group_by(VISIT, maintain_order=True)
        .agg(_service=pl.col("service_id").first())
    )
    joined = log.join(first, on=VISIT, how="left", maintain_order="left")
    return joined.with_columns(pl.coalesce("service_id", "_service").alias("service_id")).drop("_service")
