"""In how many visits each stylist sells something, against the salon on like visits.

A visit belongs to the stylist of its main line (the longest by the menu) and is of that line's kind. The share is
visits with a sale ÷ visits, with its 95 % range (Wilson), which shows how little a few visits say. The salon's share on
like visits is what it would be if each of those visits sold as often as all visits of the same kind in that month: a
stylist who mostly cuts is compared with cuts. All of it stays empty where no retail row names a visit or a client.
"""

import polars as pl

from analytics.definitions.results import MONEY, MONTH_KEY, NUMBER, PIECES, SHARE, TEXT, VISITS, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.retail_visits import by_stylist, visits_with_sales, with_shares
from analytics.records.product.retail import retail_rows
from analytics.settings import Settings

RESULT = Result(
    "one row per month and stylist with completed visits",
    key=("month", "stylist"),
    columns={
        **MONTH_KEY,
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
    },
)


def retail_by_stylist(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    products: pl.DataFrame,
    sales: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
) -> pl.DataFrame:
    """One row per month and stylist; money in the currency."""
    visits = retail_by_stylist_rows(bookings, services, products, sales, settings=settings, period=period)
    return RESULT.shape(with_shares(by_stylist(visits)))


def retail_by_stylist_rows(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    products: pl.DataFrame,
    sales: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
) -> pl.DataFrame:
    """The completed visits the figure counts, each with what was sold in it."""
    visits = visits_with_sales(bookings, services, retail_rows(sales, products, settings))
    return visits.filter(period.holds(pl.col("starts_at"))).sort("starts_at", "site", "booking_id")


FIGURE = Figure(retail_by_stylist, retail_by_stylist_rows, RESULT)
