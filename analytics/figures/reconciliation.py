"""Whether the month's money agrees: charged + retail + tips + vouchers sold − vouchers used = received.

Charged and tips are those of completed lines, retail that of the sales table, all with tax. Received is every payment
but those with vouchers, which brought their money in when the voucher was sold. A payment that belongs to no visit is
for a retail item sold over the counter that day (and site); what comes in beyond those items is a voucher or deposit
sold (none can be told where no payment names its visit). The difference is received less what should have been:
positive where too much was paid, negative where something was not.
"""

import polars as pl

from analytics.definitions.results import MONEY, MONTH_KEY, Column, Figure, Result
from analytics.periods import Period, month_of
from analytics.records.money.money_rows import MoneyRows

RESULT = Result(
    "one row per month",
    key=("month",),
    columns={
        **MONTH_KEY,
        "charged_gross": Column(MONEY, "charged for services, tax included"),
        "retail_gross": Column(MONEY, "charged for retail items, tax included"),
        "tips": Column(MONEY, "tips"),
        "vouchers_sold": Column(MONEY, "vouchers and deposits sold: owed, not earned"),
        "vouchers_used": Column(MONEY, "paid with vouchers"),
        "received": Column(MONEY, "money received: all payments but those with vouchers"),
        "difference": Column(MONEY, "received − (charged + retail + tips + vouchers sold − vouchers used)"),
    },
)

SUMS = ["charged_gross", "retail_gross", "tips", "vouchers_sold", "vouchers_used", "received"]


def reconciliation(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per month of the period; money in the currency."""
    days = reconciliation_rows(money, period=period)
    months = pl.DataFrame({"month": period.months()}, schema={"month": pl.String()})
    sums = days.with_columns(month=month_of(pl.col("day"))).group_by("month").agg(pl.col(*SUMS, "difference").sum())
    return RESULT.shape(
        months.join(sums, on="month", how="left").with_columns(pl.col(*SUMS, "difference").fill_null(0))
    )


def reconciliation_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The same by day and site."""
    return (
        money.settlements.filter(period.holds(pl.col("day")))
        .group_by("day", "site")
        .agg(pl.col(*SUMS, "difference").sum())
        .sort("day", "site")
    )


FIGURE = Figure(reconciliation, reconciliation_rows, RESULT)
