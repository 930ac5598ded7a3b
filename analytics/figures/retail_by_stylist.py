"""In how many visits each stylist sells something, against the salon on like visits.

A visit belongs to the stylist of its main line (the longest by the menu) and is of that line's kind. The share is
visits with a sale ÷ visits, with its 95 % range (Wilson), which shows how little a few visits say. The salon's share on
like visits is what it would be if each of those visits sold as often as all visits of the same kind in that month: a
stylist who mostly cuts is compared with cuts. All of it stays empty where no retail row names a visit or a client.
"""

import polars as pl

from analytics.definitions.results import MONTH_KEY, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.retail_visits import OF_A_STYLIST, by_stylist, with_shares

RESULT = Result(
    "one row per month and stylist with completed visits",
    key=("month", "stylist"),
    columns={
        **MONTH_KEY,
        **OF_A_STYLIST,
    },
)


def retail_by_stylist(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per month and stylist; money in the currency."""
    visits = retail_by_stylist_rows(money, period=period)
    return RESULT.shape(with_shares(by_stylist(visits)))


def retail_by_stylist_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The completed visits the figure counts, each with what was sold in it."""
    return money.visits.filter(period.holds(pl.col("starts_at"))).sort("starts_at", "site", "booking_id")


FIGURE = Figure(retail_by_stylist, retail_by_stylist_rows, RESULT)
