"""In how many visits each stylist sells something over twelve months, against the salon on like visits.

The last 12 months of the period (or all of it, where it is shorter), each as in `retail_by_stylist`, added up: the
share is visits with a sale ÷ visits, with its 95 % range (Wilson), and the salon's share on like visits is what it
would be if each visit sold as often as all visits of the same kind in its month. They differ where there are 30 visits
or more and the range does not hold the salon's share on like visits: fewer, or a smaller difference, chance would do.
Visits without a stylist are left out. There are no rows where no retail row names a visit or a client.
"""

import polars as pl

from analytics.definitions.results import YES_NO, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.retail_visits import OF_A_STYLIST, by_stylist, with_shares

RESULT = Result(
    "one row per stylist, over the last 12 months of the period",
    key=("stylist",),
    columns={
        **OF_A_STYLIST,
        "differs": Column(YES_NO, "30 visits or more, and the range does not hold the share of like visits"),
    },
)

MONTHS = 12
FEW_VISITS = 30


def retail_year_by_stylist(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per stylist with completed visits, in order of name; money in the currency."""
    visits = retail_year_by_stylist_rows(money, period=period)
    enough = pl.col("visits") >= FEW_VISITS
    return RESULT.shape(
        with_shares(
            by_stylist(visits)
            .drop_nulls(["stylist", "visits_with_sale"])
            .group_by("stylist", maintain_order=True)
            .agg(pl.col("visits", "visits_with_sale", "like_visits_with_sale", "units", "net").sum())
        )
        .with_columns(differs=enough & ~pl.col("like_share").is_between("share_low", "share_high"))
        .sort("stylist")
    )


def retail_year_by_stylist_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The completed visits the figure counts, each with what was sold in it."""
    return money.visits.filter(period.last_months(MONTHS).holds(pl.col("starts_at"))).sort(
        "starts_at", "site", "booking_id"
    )


FIGURE = Figure(retail_year_by_stylist, retail_year_by_stylist_rows, RESULT)
