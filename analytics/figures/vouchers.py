"""What vouchers and deposits brought in, what of them was used, kept and expired, and what the salon still owes.

Opening is what was owed before the month, what moved adds up to what is owed at its end: opening + sold − used (less
what of the use was a discount or beyond what was owed) − never used, + deposits received − returned − used − kept.

A voucher sold is a row of the register where there is one, else a payment over the counter beyond the items sold there
that day; used is what was paid with vouchers, at its face. Of a voucher sold below its face, a part that is used takes
the same part of what was paid with it; the rest of that part is a discount. Never used is earned when a voucher expires
or, by [accounting] breakage, in proportion to what is used. What is used beyond all that is known to be owed is no
part of what is owed: enter [accounting] vouchers_opening or the register. A deposit is what was paid for a visit before
its day; it is used on that day up to what was due, and after a no-show owed until it is returned, or kept, by
[accounting] missed_deposits.

Owed is what clients may still use or ask back, of all days up to the end of the month (or of the period, where that
cuts it). The liability is that less the tax that was accounted for when it came in, and is what the journal's accounts
say. Money paid back that belongs to no visit is a difference of `reconciliation`.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import MONEY, MONTH_KEY, Column, Figure, Result
from analytics.periods import Period, month_of
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.owed import MOVED, OWED

RESULT = Result(
    "one row per month",
    key=("month",),
    columns={
        **MONTH_KEY,
        "opening": Column(MONEY, "owed for vouchers and deposits before the month"),
        "vouchers_sold": Column(MONEY, "paid for vouchers"),
        "vouchers_used": Column(MONEY, "paid with vouchers, at face"),
        "voucher_discounts": Column(MONEY, "of the use, what was never paid for the vouchers"),
        "vouchers_beyond": Column(MONEY, "of the use, more than was owed"),
        "vouchers_unused": Column(MONEY, "earned of vouchers never used"),
        "deposits_received": Column(MONEY, "paid for visits before their day"),
        "deposits_returned": Column(MONEY, "of it paid back"),
        "deposits_used": Column(MONEY, "of what was paid before, for visits that happened"),
        "deposits_kept": Column(MONEY, "of what was paid before, kept after a no-show"),
        "vouchers_owed": Column(MONEY, "vouchers not used by the end of the month"),
        "deposits_owed": Column(MONEY, "deposits not used by the end of the month"),
        "owed": Column(MONEY, "both"),
        "tax_in_owed": Column(MONEY, "of it the tax that was accounted for when it came in"),
        "vouchers_liability": Column(MONEY, "vouchers owed less that tax, as the journal has it"),
        "deposits_liability": Column(MONEY, "deposits owed less that tax, as the journal has it"),
    },
)


def vouchers(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per month of the period; money in the currency."""
    days = money.owed
    months = pl.DataFrame({"month": period.months()}, schema={"month": pl.String()})
    inside = days.filter(period.holds(pl.col("day"))).group_by(month=month_of(pl.col("day"))).agg(pl.col(MOVED).sum())
    spans = [(name, part.start, part.end) for name, part in period.parts().items()]
    standing = [_standing(days, end).with_columns(month=pl.lit(name)) for name, _, end in spans]
    opening = [_standing(days, start).select("owed", month=pl.lit(name)) for name, start, _ in spans]
    if not spans:
        return RESULT.empty()
    return RESULT.shape(
        months.join(inside, on="month", how="left")
        .join(pl.concat(standing), on="month", how="left")
        .join(pl.concat(opening).rename({"owed": "opening"}), on="month", how="left")
        .with_columns(pl.col(MOVED).fill_null(0))
        .sort("month")
    )


def _standing(days: pl.DataFrame, end: date) -> pl.DataFrame:
    """OWED of all salons before that day, one row."""
    last = days.filter(pl.col("day") < end).group_by("site").agg(pl.col(OWED).last())
    return last.select(pl.col(OWED).sum())


def vouchers_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The same by day and site, with what is owed by then, on days on which any of it moved."""
    return money.owed.filter(period.holds(pl.col("day")))


FIGURE = Figure(vouchers, vouchers_rows, RESULT)
