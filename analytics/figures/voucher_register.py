"""Every voucher: what was paid for it, what of it was used or expired, and what is still owed.

A voucher is a row of the register where one is exported. What was sold on a day of which the register has none is one
voucher of that day, and what was owed before the records begin is one more, the opening balance ([accounting]
vouchers_opening, or vouchers of the register that were sold before). A payment with a voucher uses the one it names,
else those of which the register says so, else the oldest that is valid; in a group, those of its own salon first. Owed
is what was paid for it, less what of it was used (of a voucher sold below its face, the part that was paid) and what
was earned because it is never used: at expiry, or in proportion to its use, by [accounting] breakage. A voucher that
says nothing of its expiry lasts [accounting] voucher_months, else for ever; it has expired once the records reach the
day after its last. Vouchers are those of which something moved in the period or was left at its end; amounts are of all
days up to that end. All that is owed is that of `vouchers`.
"""

import polars as pl

from analytics.definitions.results import DAY, MONEY, SITE_KEY, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.vouchers import register

RESULT = Result(
    "one row per site and voucher",
    key=("site", "number"),
    columns={
        **SITE_KEY,
        "number": Column(TEXT, "the voucher, or the day on which those of that day were sold"),
        "sold_on": Column(DAY, "the day it was sold; empty: before the records begin"),
        "expires_on": Column(DAY, "the last day on which it may be used; empty: for ever"),
        "face": Column(MONEY, "what it may be used for; of those sold before, what was left then"),
        "paid": Column(MONEY, "what was paid for it, or owed for it before the records begin"),
        "used": Column(MONEY, "of its face, what was used"),
        "used_value": Column(MONEY, "of what was paid, what was used"),
        "unused": Column(MONEY, "of what was paid, what was earned because it is never used"),
        "left": Column(MONEY, "of its face, what may still be used"),
        "owed": Column(MONEY, "paid less used_value and unused"),
        "tax_in_owed": Column(MONEY, "in it, tax that was accounted for when it was sold"),
        "liability": Column(MONEY, "owed less that tax, as the journal has it"),
    },
)


def voucher_register(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per voucher that moved in the period or of which something is left at its end; money in the currency."""
    return RESULT.shape(register(money.voucher_moves, period.start, period.end))


def voucher_register_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """Every move of a voucher in the period: what it adds to its face and to what is owed."""
    return money.voucher_moves.filter(period.holds(pl.col("day")))


FIGURE = Figure(voucher_register, voucher_register_rows, RESULT)
