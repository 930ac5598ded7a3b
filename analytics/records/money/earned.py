"""What was earned per service and by retail in spans of days, with how much was sold."""

from collections.abc import Mapping

import polars as pl

from analytics.definitions.results import MONEY, QUANTITY
from analytics.periods import Period, in_spans


def by_service(lines: pl.DataFrame, spans: Mapping[str, Period]) -> pl.DataFrame:
    """One row per span and service of completed lines: item (its id), service, kind, quantity (lines) and net.

    A refund is no line sold: its net counts, its line does not.
    """
    return (
        in_spans(lines, "starts_at", spans)
        .sort("starts_at", "booking_id", "line")
        .group_by("month", item="service_id")
        .agg(
            pl.col("service", "kind").last(),
            quantity=(pl.col("price") >= 0).sum().cast(QUANTITY.dtype),
            net=pl.col("net").sum().cast(MONEY.dtype),
        )
    )


def by_retail_product(retail: pl.DataFrame, spans: Mapping[str, Period]) -> pl.DataFrame:
    """One row per span and retail product: item (its id or name), quantity (pieces, returned ones off) and net."""
    return (
        in_spans(retail, "sold_at", spans)
        .with_columns(item=pl.coalesce("product_id", "product"))
        .group_by("month", "item")
        .agg(quantity=pl.col("quantity").sum().cast(QUANTITY.dtype), net=pl.col("net").sum().cast(MONEY.dtype))
        .select("month", "item", service=pl.lit("Retail"), kind=pl.lit("retail"), quantity="quantity", net="net")
    )
