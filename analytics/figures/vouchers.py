"""What vouchers and deposits brought in, what of them was used, and what the salon still owes for them.

A voucher sold is a payment over the counter beyond the items sold there that day; used is what was paid with vouchers.
A deposit is what was paid for a visit before its day, and is used on that day. Owed is vouchers sold − used + deposits
in − used, of all days up to the end of the month (or of the period, where that cuts it); what was owed before the
records begin is not in it. Money paid back that belongs to no visit is a difference of `reconciliation`. Single-purpose
vouchers are taxed when they are sold, others when they are used: see `tax`.
"""

import polars as pl

from analytics.definitions.results import MONEY, MONTH_KEY, Column, Figure, Result
from analytics.periods import Period, month_of
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.owed import MOVED

RESULT = Result(
    "one row per month",
    key=("month",),
    columns={
        **MONTH_KEY,
        "vouchers_sold": Column(MONEY, "vouchers sold"),
        "vouchers_used": Column(MONEY, "paid with vouchers"),
        "deposits_in": Column(MONEY, "paid for visits before their day"),
        "deposits_used": Column(MONEY, "of what was paid before, for visits that happened"),
        "owed": Column(MONEY, "vouchers and deposits not used by the end of the month"),
    },
)


def vouchers(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per month of the period; money in the currency."""
    days = money.owed
    months = pl.DataFrame({"month": period.months()}, schema={"month": pl.String()})
    inside = days.filter(period.holds(pl.col("day"))).group_by(month=month_of(pl.col("day"))).agg(pl.col(MOVED).sum())
    ended = {month: days.filter(pl.col("day") < part.end) for month, part in period.parts().items()}
    owed = {month: so_far.group_by("site").last()["owed"].sum() for month, so_far in ended.items()}
    return RESULT.shape(
        months.join(inside, on="month", how="left")
        .with_columns(pl.col(MOVED).fill_null(0), owed=pl.Series(list(owed.values()), dtype=MONEY.dtype))
        .sort("month")
    )


def vouchers_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The same by day and site, with what is owed by then, on days on which any of it moved."""
    return money.owed.filter(period.holds(pl.col("day")))


FIGURE = Figure(vouchers, vouchers_rows, RESULT)
