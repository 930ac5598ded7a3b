"""Where what was paid differs from what was due, down to the visit and day, and why.

Due is what was charged for the visit and sold over the counter that day, tips, vouchers sold and deposits received with
it, less the deposit that was used; paid is every payment that day, vouchers too. Left is what the visit's differences
come to over all days on record: nothing, where it was paid on another day. The cause is not_paid, paid_twice (an amount
that stands among its payments more than once), other_day, other_amount, not_completed, unknown_visit, counter (over the
counter) or whole_day (where no payment names its visit). What is left is tolerated up to [accounting] tolerance; it is
open where it is more and the money came on no other day. The differences of a month add up to that of `reconciliation`.
"""

import polars as pl

from analytics.definitions.results import DAY, MONEY, SITE_KEY, TEXT, YES_NO, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows

RESULT = Result(
    "one row per day, site and visit with a difference",
    key=("day", "site", "booking_id"),
    columns={
        "day": Column(DAY, "day of the difference"),
        **SITE_KEY,
        "booking_id": Column(TEXT, "the visit; empty for what belongs to none"),
        "cause": Column(TEXT, "why: see how it is worked out"),
        "due": Column(MONEY, "what should have been paid that day"),
        "paid": Column(MONEY, "what was paid that day"),
        "difference": Column(MONEY, "paid − due"),
        "left": Column(MONEY, "what the visit's differences come to over all days"),
        "tolerated": Column(YES_NO, "so little is left that it decides nothing"),
        "open": Column(YES_NO, "more is left, and nothing explains it"),
        "visit_on": Column(DAY, "day of the visit"),
        "paid_on": Column(DAY, "day of its first payment"),
    },
)


def differences(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per day, site and visit with a difference; money in the currency."""
    return RESULT.shape(
        money.differences.filter(period.holds(pl.col("day"))).sort("day", "site", "booking_id", nulls_last=True)
    )


def differences_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """Every visit of the period with what it was due and what was paid for it, day by day."""
    return money.settlements.filter(period.holds(pl.col("day"))).sort("day", "site", "booking_id", nulls_last=True)


FIGURE = Figure(differences, differences_rows, RESULT)
