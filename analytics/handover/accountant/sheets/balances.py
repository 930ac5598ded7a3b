"""What each account of the balance stood at, what moved, and where it stands: opening + debits − credits = closing."""

import polars as pl

from analytics.definitions.results import MONEY
from analytics.handover.accountant.journal import ROOTS, posting_lines
from analytics.handover.accountant.period_rows import Gathered
from analytics.handover.accountant.sheets.sheet import AccountSheet
from analytics.periods import Period
from analytics.records.money.vouchers import BEFORE

OF_THE_BALANCE = [key for key, root in ROOTS.items() if root in ("Assets", "Liabilities", "Equity")]
NOTE = (
    "Debits positive, credits negative, since the records begin: what was there before them is not in it, but for "
    "stock and what was owed for vouchers. Corrections of closed periods stand in the opening."
)


def balances_sheet(gathered: Gathered, period: Period, postings: pl.DataFrame) -> AccountSheet:
    """By account: opening, debits, credits and closing. postings: those of the period."""
    amount = pl.col("amount")
    earlier = posting_lines(gathered, Period(BEFORE, period.start)).drop_nulls("account")
    sides = [
        earlier.select("account", opening=amount),
        postings.select("account", debit=amount.clip(lower_bound=0), credit=-amount.clip(upper_bound=0)),
    ]
    names = gathered.settings.accounts.model_dump()
    frame = (
        pl.concat(sides, how="diagonal_relaxed")
        .filter(pl.col("account").is_in(OF_THE_BALANCE))
        .with_columns(account=pl.col("account").replace_strict(names, return_dtype=pl.String))
        .group_by("account")
        .agg(pl.col("opening", "debit", "credit").fill_null(0).sum().cast(MONEY.dtype))
        .with_columns(closing=(pl.col("opening") + pl.col("debit") - pl.col("credit")).cast(MONEY.dtype))
        .sort("account")
    )
    checks = (("closing", "{opening}+{debit}-{credit}"),)
    return AccountSheet("balances", "Balances", frame, NOTE, ("debit", "credit"), checks=checks)
