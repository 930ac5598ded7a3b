"""Root visits as a stylist remembers them: what is usually done, how long it takes, what was mixed last."""

from datetime import date

import polars as pl

from analytics.records.chairs.lines import on_the_menu
from analytics.records.chairs.stays import VISIT, chair_stays
from analytics.records.clients.root_visits import CLIENT
from analytics.records.product.bowls import priced_log, with_service

USUAL_VISITS = 5  # what is usual is what her last visits were


def root_visit_lines(bookings: pl.DataFrame, services: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """Every completed line, up to `as_of`, of visits in which the roots were coloured; with day, kind, resets_roots."""
    done = (pl.col("status") == "completed") & (pl.col("price") >= 0) & (pl.col("starts_at").dt.date() <= as_of)
    lines = on_the_menu(bookings.filter(done), services).with_columns(day=pl.col("starts_at").dt.date())
    return lines.filter(pl.col("resets_roots").fill_null(False).any().over(VISIT))


def visit_minutes(bookings: pl.DataFrame, timezone: str) -> pl.DataFrame:
    """Chair minutes of each completed visit, all its chairs together: site, booking_id, chair_minutes."""
    length = (pl.col("ends") - pl.col("starts")).dt.total_seconds() / 60
    return chair_stays(bookings, timezone).group_by(VISIT).agg(chair_minutes=length.sum())


def last_visits(lines: pl.DataFrame) -> pl.DataFrame:
    """The last USUAL_VISITS visits of each client, newest first: client, booking_id, day."""
    return (
        lines.group_by(*CLIENT, "booking_id")
        .agg(pl.col("day", "starts_at").max())
        .sort(*CLIENT, "starts_at", "booking_id", descending=[False, False, True, True])
        .group_by(CLIENT, maintain_order=True)
        .head(USUAL_VISITS)
        .drop("starts_at")
    )


def root_bowls(product_log: pl.DataFrame, products: pl.DataFrame, lines: pl.DataFrame) -> pl.DataFrame:
    """What was mixed for the lines that coloured the roots: client, day of the visit, product, mixed_g, left_g.

    One row per product of a visit, the developer last. left_g is null where any of it was not weighed.
    """
    coloured = lines.filter("resets_roots").select(*CLIENT, *VISIT[1:], "service_id", "day").unique()
    weighed_all = pl.when(pl.col("left_g").is_not_null().all()).then(pl.col("left_g").sum())
    return (
        with_service(priced_log(product_log, products), lines)
        .join(coloured, on=[*VISIT, "service_id"])
        .group_by(*CLIENT, "booking_id", "day", "product")
        .agg(pl.col("mixed_g").sum(), left_g=weighed_all, developer=(pl.col("kind") == "developer").any())
        .sort("developer", "mixed_g", "product", descending=[False, True, False], nulls_last=True)
        .drop("developer")
    )
