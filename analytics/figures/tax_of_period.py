"""The tax of the whole period, by salon, how it is taxed and rate: the boxes of a return, a summary and not advice.

The rows of `tax` added up over the period instead of by month, with the days on which each rate was first and last
charged. At 0 % a line is exempt where [accounting] exempt names its service or product, else zero-rated.
"""

import polars as pl

from analytics.definitions.results import DAY, MONEY, SITE_KEY, TAX_RATE, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.revenue import treated
from analytics.settings import Settings

RESULT = Result(
    "one row per site, how it is taxed and tax rate, over the period",
    key=("site", "treatment", "tax_rate"),
    columns={
        **SITE_KEY,
        "treatment": Column(TEXT, "taxed, zero-rated or exempt"),
        "tax_rate": Column(TAX_RATE, "tax rate"),
        "first_on": Column(DAY, "first day of the period on which it was charged"),
        "last_on": Column(DAY, "last day of the period on which it was charged"),
        "gross": Column(MONEY, "charged, tax included"),
        "net": Column(MONEY, "charged, without tax"),
        "tax": Column(MONEY, "the tax"),
    },
)


def tax_of_period(money: MoneyRows, *, settings: Settings, period: Period) -> pl.DataFrame:
    """One row per site, treatment and rate; money in the currency, net + tax = gross."""
    day = pl.col("day")
    return RESULT.shape(
        tax_of_period_rows(money, settings=settings, period=period)
        .group_by("site", "treatment", "tax_rate")
        .agg(pl.col("gross", "net", "tax").sum(), first_on=day.min(), last_on=day.max())
        .sort("site", "tax_rate", "treatment")
    )


def tax_of_period_rows(money: MoneyRows, *, settings: Settings, period: Period) -> pl.DataFrame:
    """The lines and retail rows the figure adds up, and by setting tips, vouchers and deposits."""
    return treated(money.taxed.filter(period.holds(pl.col("day"))), settings.accounting.exempt)


FIGURE = Figure(tax_of_period, tax_of_period_rows, RESULT)
