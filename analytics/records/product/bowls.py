"""Rows of the mixing log with their product, its cost that day, and the service they were mixed for."""

import polars as pl

from analytics.definitions.tables import COLOUR_KINDS
from analytics.money import EXACT
from analytics.periods import month_of
from analytics.records.chairs.lines import on_the_menu
from analytics.records.chairs.stays import VISIT, chair_name
from analytics.records.chairs.validity import valid_that_day
from analytics.records.memo import memoised


@memoised
def priced_log(product_log: pl.DataFrame, products: pl.DataFrame) -> pl.DataFrame:
    """Log rows with month (of logged_at), product, kind, strength_percent, mixed_cost and left_cost (exact, unrounded).

    Costs are null where the products export does not know the product; left_cost is null where nothing was weighed.
    """
    priced = valid_that_day(
        product_log.rename({"product": "logged_product"}),
        products.select(
            "site", "product_id", "product", "kind", "pack_g", "pack_cost", "strength_percent", "valid_from"
        ),
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


def colour_lines(lines: pl.DataFrame, product_log: pl.DataFrame) -> pl.DataFrame:
    """The colour lines among booking lines with kind, each with whether it is `logged`.

    A line is logged where the log has a bowl for its visit and service, or for its visit without naming a service.
    """
    logged = product_log.filter(pl.col("booking_id").is_not_null())
    whole_visit = logged.filter(pl.col("service_id").is_null()).select(VISIT).unique()
    per_service = logged.select(*VISIT, "service_id").drop_nulls().unique()
    return (
        lines.filter(pl.col("kind").is_in(COLOUR_KINDS))
        .join(whole_visit.with_columns(_visit=pl.lit(True)), on=VISIT, how="left")
        .join(per_service.with_columns(_service=pl.lit(True)), on=[*VISIT, "service_id"], how="left")
        .with_columns(logged=pl.col("_visit").fill_null(False) | pl.col("_service").fill_null(False))
        .drop("_visit", "_service")
    )


@memoised
def placed_log(
    product_log: pl.DataFrame, products: pl.DataFrame, bookings: pl.DataFrame, services: pl.DataFrame
) -> pl.DataFrame:
    """The priced log with the service each bowl was mixed for, and the stylist and chair of that visit's line of it.

    A bowl without a known visit has whoever mixed it as its stylist, and no chair.
    """
    listed = on_the_menu(bookings, services)
    whose = (
        listed.sort("line")
        .group_by(*VISIT, "service_id", maintain_order=True)
        .agg(_stylist=pl.col("stylist").first(), chair=chair_name().first())
    )
    log = with_service(priced_log(product_log, products), listed)
    placed = log.join(whose, on=[*VISIT, "service_id"], how="left", maintain_order="left")
    return placed.with_columns(stylist=pl.coalesce("_stylist", "stylist")).drop("_stylist")
