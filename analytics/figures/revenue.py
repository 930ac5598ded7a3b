"""What was earned, by what was sold, kind of work, tax rate and how it is taxed.

The rows of `tax`: completed service lines and retail rows of the month, refunds negative, and tips where they are
inside the tax; vouchers and deposits are owed and not earned, whenever they are taxed. Beside them what vouchers sold
below their face take off what they bought, what is kept of deposits after a no-show, and what is earned of vouchers
that are never used (both by setting: see `vouchers`). Gross is what was charged with tax, net
without it. At 0 % a line is exempt where [accounting] exempt names its service or product, else zero-rated. Discounts
are counted where anything was taken off a price, and add up as prices are (with tax where prices include it).
"""

import polars as pl

from analytics.definitions.results import LINES, MONEY, MONTH_KEY, TAX_RATE, TEXT, Column, Figure, Result
from analytics.periods import Period, month_of
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.revenue import revenue_by

RESULT = Result(
    "one row per month, what was sold, kind, tax rate and how it is taxed",
    key=("month", "supply", "kind", "tax_rate", "treatment"),
    columns={
        **MONTH_KEY,
        "supply": Column(TEXT, "services, retail, tips, voucher_discounts, deposits_kept or vouchers_unused"),
        "kind": Column(TEXT, "kind of work, retail, vouchers or deposits"),
        "tax_rate": Column(TAX_RATE, "tax rate"),
        "treatment": Column(TEXT, "taxed, zero-rated, exempt or outside the tax"),
        "lines": Column(LINES, "lines, refunds included"),
        "gross": Column(MONEY, "charged, tax included"),
        "net": Column(MONEY, "charged, without tax"),
        "tax": Column(MONEY, "the tax"),
        "discounts": Column(LINES, "of the lines, those of which something was taken off"),
        "discount": Column(MONEY, "what was taken off, as prices are"),
    },
)


def revenue(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per month, what was sold, kind, tax rate and treatment; money in the currency, net + tax = gross."""
    rows = revenue_rows(money, period=period)
    return RESULT.shape(revenue_by(rows, "month"))


def revenue_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The lines and retail rows the figure adds up, and by setting tips."""
    return money.earned.filter(period.holds(pl.col("day"))).with_columns(month=month_of(pl.col("day")))


FIGURE = Figure(revenue, revenue_rows, RESULT)
