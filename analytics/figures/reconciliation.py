"""Whether the month's money agrees with what was due: charged, retail, tips, vouchers and deposits against payments.

Received = charged + retail + tips + vouchers sold − vouchers used + deposits received − deposits used, and what is left
of it is the difference: positive where too much was paid, negative where something was not. Charged and tips are those
of completed lines, retail that of the sales table, all with tax. Received is every payment but those with vouchers,
which brought their money in when the voucher was sold. A payment that belongs to no visit is for a retail item sold
over the counter that day (and site); what comes in beyond those items is a voucher sold, unless a register says what
was sold that day, or payments say what they are for (none can be told otherwise where no payment names its visit). A
deposit is what was paid for a visit before its day (or what payments call one), less what was paid back; it is used on
that day, up to what was due. What is kept of deposits, and vouchers never used, move no money: see `vouchers`.
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
        "vouchers_sold": Column(MONEY, "vouchers sold: owed, not earned"),
        "vouchers_used": Column(MONEY, "paid with vouchers"),
        "deposits_received": Column(MONEY, "paid for visits before their day, what was paid back of it taken off"),
        "deposits_used": Column(MONEY, "of what was paid before, for visits that happened"),
        "received": Column(MONEY, "money received: all payments but those with vouchers"),
        "difference": Column(MONEY, "received less what should have been: see how it is worked out"),
    },
)

SUMS = [
    *("charged_gross", "retail_gross", "tips", "vouchers_sold", "vouchers_used", "deposits_received", "deposits_used"),
    "received",
]


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
