"""What was earned in the whole period, by salon, what was sold, kind of work, tax rate and how it is taxed.

The rows of `revenue` added up over the period instead of by month.
"""

import polars as pl

from analytics.definitions.results import LINES, MONEY, SITE_KEY, TAX_RATE, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.revenue import revenue_by

RESULT = Result(
    "one row per site, what was sold, kind, tax rate and how it is taxed, over the period",
    key=("site", "supply", "kind", "tax_rate", "treatment"),
    columns={
        **SITE_KEY,
        "supply": Column(TEXT, "services, retail, tips, voucher_discounts, deposits_kept or vouchers_unused"),
        "kind": Column(TEXT, "kind of work, retail, vouchers or deposits"),
        "tax_rate": Column(TAX_RATE, "tax rate"),
        "treatment": Column(TEXT, "taxed, zero-rated, exempt or outside the tax"),
        "lines": Column(LINES, "lines, refunds included"),
        "gross": Column(MONEY, "charged, tax included"),
        "net": Column(MONEY, "charged, without tax"),
        "tax": Column(MONEY, "the tax"),
    },
)


def revenue_of_period(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per site, what was sold, kind, rate and treatment; money in the currency, net + tax = gross."""
    return RESULT.shape(revenue_by(revenue_of_period_rows(money, period=period), "site"))


def revenue_of_period_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The lines and retail rows the figure adds up, and by setting tips."""
    return money.earned.filter(period.holds(pl.col("day")))


FIGURE = Figure(revenue_of_period, revenue_of_period_rows, RESULT)
