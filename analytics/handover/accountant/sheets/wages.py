"""Hours and wages base by stylist, where rates are set: the figure `wages` of the period."""

from analytics.handover.accountant.period_rows import Gathered
from analytics.handover.accountant.sheets.sheet import AccountSheet, one_site
from analytics.periods import Period

NOTE = (
    "Hours are those with clients: visits that overlap count once. The wages base is hours × rate + net × share; "
    "hours without clients, holidays and overtime are not on record."
)


def wages_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """One row per site and stylist: visits, hours, hands-on hours, net, tips, rates and wages base."""
    frame = gathered.salon.figure("wages", period)
    return AccountSheet("wages", "Hours and wages base", one_site(frame), NOTE, ("net", "wages_base"))
