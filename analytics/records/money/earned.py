"""What was earned per service and by retail in spans of days, with how much was sold."""

from collections.abc import Mapping

import polars as pl

from analytics.definitions.results import MONEY, QUANTITY
from analytics.periods import Period, in_spans


def by_service(lines: pl.DataFrame, spans: Mapping[str, Period]) -> pl.DataFrame:
    """One row per span and service of completed lines: item (its id), service, kind, quantity (lines), net, refunded,
    price (median of one without tax, before discount).

    A refund is no line sold: what it pays back is not in net, and stands in refunded, below 0.
    """
    sold, net = pl.col("price") >= 0, pl.col("net")
    price = net.cast(pl.Float64) * pl.col("price").cast(pl.Float64) / pl.col("charged").cast(pl.Float64)
    return (
        in_spans(lines, "starts_at", spans)
        .sort("starts_at", "booking_id", "line")
        .group_by("month", item="service_id", maintain_order=True)
        .agg(
            pl.col("service", "kind").last(),
            quantity=sold.sum().cast(QUANTITY.dtype),
            net=net.filter(sold).sum().cast(MONEY.dtype),
            refunded=net.filter(~sold).sum().cast(MONEY.dtype),
            price=price.filter((pl.col("price") > 0) & (pl.col("charged") > 0)).median(),
        )
    )


def by_retail_product(retail: pl.DataFrame, spans: Mapping[str, Period]) -> pl.DataFrame:
    """One row per span and retail product: item (its id or name), quantity (pieces, returned ones off) and net."""
    return (
        in_spans(retail, "sold_at", spans)
        .with_columns(item=pl.coalesce("product_id", "product"))
        .group_by("month", "item", maintain_order=True)
        .agg(quantity=pl.col("quantity").sum().cast(QUANTITY.dtype), net=pl.col("net").sum().cast(MONEY.dtype))
        .select("month", "item", service=pl.lit("Retail"), kind=pl.lit("retail"), quantity="quantity", net="net")
    )
