"""Every deposit, by the visit it is for: what came in, what became of it, and what is still owed.

A deposit is what was paid for a visit before its day, while its visit is only booked, or what an export calls one. It
is used on the visit's day, up to what was due; what is paid back before a visit, or of one missed or cancelled, is
returned; after a no-show the rest is owed until it is returned, or kept, by [accounting] missed_deposits. Deposits
are those of which something moved in the period or was owed at its end; amounts are of all days up to that end. The
liability is what is owed less the tax that was accounted for when it came in (by [accounting] deposits: see `tax`). A
deposit that names no visit of the bookings is owed until it is matched, and has no tax yet. Beyond its visit's day
something is still owed where less was due, or where the visit was missed or cancelled: give it back, or settle it.
"""

import polars as pl

from analytics.definitions.results import DAY, MONEY, SITE_KEY, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.deposits import deposits_by_visit
from analytics.records.money.money_rows import MoneyRows

RESULT = Result(
    "one row per site and visit with a deposit",
    key=("site", "booking_id"),
    columns={
        **SITE_KEY,
        "booking_id": Column(TEXT, "the visit; empty for deposits that name none"),
        "first_on": Column(DAY, "the day the first of it was received"),
        "visit_on": Column(DAY, "day of the visit"),
        "state": Column(TEXT, "completed, booked, no_show or cancelled; empty where the visit is not in the bookings"),
        "received": Column(MONEY, "paid before the visit"),
        "returned": Column(MONEY, "of it paid back"),
        "used": Column(MONEY, "of it used for the visit"),
        "kept": Column(MONEY, "of it kept after a no-show"),
        "owed": Column(MONEY, "of it still owed"),
        "tax_in_owed": Column(MONEY, "in it, tax that was accounted for when it came in"),
        "liability": Column(MONEY, "owed less that tax, as the journal has it"),
    },
)


def deposits(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per visit with a deposit that moved in the period or is owed at its end; money in the currency."""
    return RESULT.shape(deposits_by_visit(money.deposits, money.tables["bookings"], period.start, period.end))


def deposits_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """Every move of a deposit in the period, by day, visit and tax rate: what it adds to what is owed, and its tax."""
    return money.deposits.filter(period.holds(pl.col("day")))


FIGURE = Figure(deposits, deposits_rows, RESULT)
