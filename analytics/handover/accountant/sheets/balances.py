"""What each account of the balance stood at, what moved, and where it stands: opening + debits − credits = closing."""

from analytics.handover.accountant.period_rows import Gathered
from analytics.handover.accountant.sheets.sheet import AccountSheet
from analytics.periods import Period

NOTE = (
    "Debits positive, credits negative, since the records begin: what was there before them is not in it, but for "
    "stock and what was owed for vouchers. Corrections of closed periods stand in the opening."
)


def balances_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """By account: the figure `balances` of the period."""
    checks = (("closing", "{opening}+{debit}-{credit}"),)
    frame = gathered.figure("balances", period)
    return AccountSheet("balances", "Balances", frame, NOTE, ("debit", "credit"), checks=checks)
