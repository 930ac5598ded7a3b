"""What was taken off prices, by what was sold and kind of work, over the period.

Completed lines and retail rows with a discount, counted and added up as prices are: with the tax in them where prices
include it, else without. What vouchers sold below their face take off is none of it (see `revenue`).
"""

import polars as pl

from analytics.definitions.results import LINES, MONEY, SITE_KEY, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.revenue import SERVICES_FIRST

RESULT = Result(
    "one row per site, what was sold and kind, with a discount in the period",
    key=("site", "supply", "kind"),
    columns={
        **SITE_KEY,
        "supply": Column(TEXT, "services or retail"),
        "kind": Column(TEXT, "kind of work, or retail"),
        "discounts": Column(LINES, "lines of which something was taken off"),
        "discount": Column(MONEY, "what was taken off, as prices are"),
    },
)


def discounts(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per site, what was sold and kind; money in the currency."""
    return RESULT.shape(
        discounts_rows(money, period=period)
        .group_by("site", "supply", "kind")
        .agg(pl.col("discount").sum(), discounts=pl.len())
        .sort("site", SERVICES_FIRST, "supply", "kind")
    )


def discounts_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The lines and retail rows of which something was taken off."""
    return money.taxed.filter(period.holds(pl.col("day")) & (pl.col("discount") != 0))


FIGURE = Figure(discounts, discounts_rows, RESULT)
