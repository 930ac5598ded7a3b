"""Completed visits with what was sold in them."""

from datetime import date

import polars as pl

from analytics.definitions.results import MONEY, NUMBER, PIECES, SHARE, TEXT, VISITS, Column
from analytics.methods.proportion import wilson
from analytics.periods import month_of
from analytics.records.chairs.stays import VISIT
from analytics.records.clients.first_visits import client_visits
from analytics.records.clients.root_visits import CLIENT

EVER = date(9999, 12, 31)
OF_A_STYLIST = {  # what by_stylist and with_shares answer
    "stylist": Column(TEXT, "who did the main line of the visit"),
    "visits": Column(VISITS, "completed visits"),
    "visits_with_sale": Column(VISITS, "visits in which something was sold"),
    "share": Column(SHARE, "visits with a sale ÷ visits"),
    "share_low": Column(SHARE, "low end of its 95 % range"),
    "share_high": Column(SHARE, "high end of its 95 % range"),
    "like_visits_with_sale": Column(NUMBER, "what the salon sells in as many visits of the same kinds", "visits"),
    "like_share": Column(SHARE, "that ÷ visits"),
    "units": Column(PIECES, "pieces sold in those visits"),
    "net": Column(MONEY, "what they brought, without tax"),
}


def visits_with_sales(bookings: pl.DataFrame, services: pl.DataFrame, sold: pl.DataFrame) -> pl.DataFrame:
    """One row per completed visit (first_visits.client_visits) with month, units and net of its retail rows, has_sale.

    sold: retail_rows. A retail row belongs to the visit it names; where it names none but a client, to that client's
    first visit of the day. What was brought back is taken off; a visit has a sale where more than nothing remains.
    Where no retail row ever names a visit or a client, has_sale is not known (null).
    """
    visits = client_visits(bookings, services, EVER).with_columns(month=month_of(pl.col("starts_at")))
    of_day = visits.unique([*CLIENT, "day"], keep="first", maintain_order=True).select(
        *CLIENT, "day", _then="booking_id"
    )
    placed = (
        sold.with_columns(day=pl.col("sold_at").dt.date())
        .join(of_day, on=[*CLIENT, "day"], how="left")
        .with_columns(booking_id=pl.coalesce("booking_id", "_then"))
        .group_by(VISIT)
        .agg(pl.col("units", "net").sum())
    )
    known = bool((sold["booking_id"].is_not_null() | sold["client_id"].is_not_null()).any())
    sale = (pl.col("units") > 0).fill_null(False)
    return visits.join(placed, on=VISIT, how="left", maintain_order="left").with_columns(
        pl.col("units", "net").fill_null(0), has_sale=pl.when(known).then(sale)
    )


def with_sale() -> pl.Expr:
    """How many of a group's visits had a sale; null where that is not known."""
    return pl.when(pl.col("has_sale").is_not_null().any()).then(pl.col("has_sale").sum())


def by_stylist(visits: pl.DataFrame) -> pl.DataFrame:
    """Of visits_with_sales, per month and stylist: visits, visits_with_sale, like_visits_with_sale, units and net.

    like_visits_with_sale: what they would be if each visit sold as often as all visits of the same kind that month.
    """
    return (
        visits.with_columns(_like=pl.col("has_sale").mean().over("month", "kind"))
        .group_by("month", "stylist", maintain_order=True)
        .agg(
            visits=pl.len(),
            visits_with_sale=with_sale(),
            like_visits_with_sale=pl.when(pl.col("_like").is_not_null().any()).then(pl.col("_like").sum()),
            units=pl.col("units").sum(),
            net=pl.col("net").sum(),
        )
        .sort("month", "stylist", nulls_last=True)
    )


def with_shares(sold: pl.DataFrame) -> pl.DataFrame:
    """With share, its 95 % range and the share of like visits; empty where it is not known what visits sold."""
    low, high = wilson(pl.col("visits_with_sale"), pl.col("visits"))
    return sold.with_columns(
        share=pl.col("visits_with_sale") / pl.col("visits"),
        share_low=low,
        share_high=high,
        like_share=pl.col("like_visits_with_sale") / pl.col("visits"),
    )
