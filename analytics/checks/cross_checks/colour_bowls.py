"""Bowls of colour for visits that have no line of a colouring kind."""

import polars as pl

from analytics.checks.cross_checks.cross_check import CrossCheck, Tables, number, with_lineage
from analytics.definitions.columns import LINEAGE
from analytics.definitions.tables import COLOUR_KINDS
from analytics.records.chairs.lines import on_the_menu
from analytics.records.chairs.stays import VISIT
from analytics.settings import Settings

MIXED_KINDS = ("colour", "developer", "lightener")


def bowls_of_visits(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per bowl of colour whose visit is in the bookings: colour_lines, the visit's lines of a colouring kind."""
    log = tables["product_log"].drop_nulls("booking_id").with_row_index("place")
    kinds = tables["products"].select("product_id", "kind").unique("product_id", keep="first")
    mixed = log.join(kinds, on="product_id", how="left").filter(pl.col("kind").is_in(MIXED_KINDS).fill_null(True))
    bowls = mixed.group_by(*VISIT, "service_id", "logged_at").agg(pl.col("place").min())
    bookings = tables["bookings"].select(*VISIT, "service_id", "service", "starts_at")
    lines = on_the_menu(bookings.join(bowls, on=VISIT, how="semi"), tables["services"])
    colour = lines.group_by(VISIT).agg(colour_lines=pl.col("kind").is_in(COLOUR_KINDS).sum().cast(pl.Int64))
    return with_lineage(bowls.join(colour, on=VISIT), log).select(*LINEAGE, "colour_lines")


CROSS_CHECKS = (
    CrossCheck(
        "bowl_without_colour",
        "product_log",
        "booking_id",
        number("colour_lines", "lines of the visit that colour", low=1),
        bowls_of_visits,
    ),
)
