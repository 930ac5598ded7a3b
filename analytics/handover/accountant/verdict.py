"""Whether the money received agrees with what was due."""

from dataclasses import dataclass
from decimal import Decimal

import polars as pl

from analytics import wording
from analytics.handover.accountant.period_rows import Gathered, within
from analytics.handover.accountant.sheets.sheet import AccountSheet
from analytics.handover.accountant.sheets.totals import total
from analytics.periods import Period
from analytics.records.money.unsettled import left_open
from analytics.settings import Settings


@dataclass(frozen=True)
class Verdict:
    """visits, days: those with a difference beyond the tolerance that nothing explains; days where no visit is named.
    left: what these come to; difference: of the whole period. settled: how many rows there were to compare."""

    payments: int
    settled: int
    visits: int
    days: int
    left: Decimal
    difference: Decimal

    @property
    def open_items(self) -> int:
        return self.visits + self.days

    @property
    def agrees(self) -> bool:
        return self.payments > 0 and self.open_items == 0


def verdict(gathered: Gathered, period: Period) -> Verdict:
    """Differences that were settled on another day count for nothing; the others by visit."""
    left = left_open(within(gathered.money.differences, period))
    visits, days = left.drop_nulls("booking_id"), left.filter(pl.col("booking_id").is_null())
    compared = within(gathered.money.settlements, period)
    return Verdict(
        within(gathered.money.paid, period).height,
        compared.height,
        visits.height,
        days.height,
        total(left, "left"),
        total(compared, "difference"),
    )


def verdict_words(found: Verdict, gathered: Gathered) -> str:
    """One sentence or two."""
    settings = gathered.settings
    if found.settled == 0:
        return "Nothing was charged and nothing was paid in the period."
    if found.payments == 0:
        return "No payment is on record for the period, so money received cannot be compared with what was due."
    if found.open_items:
        gap = wording.money(abs(found.left), settings)
        more = "more" if found.left > 0 else "less"
        apart = f"{gap} {more} was received than was due" if found.left else "what was received comes to what was due"
        return f"Money received does not agree for {_places(found, gathered)}; in all, {apart}."
    if found.difference:
        gap = wording.money(abs(found.difference), settings)
        return f"Money received agrees; {gap} of difference was settled on another day or lies within the tolerance."
    return "Money received agrees exactly with what was due."


def charged_words(tax: AccountSheet, settings: Settings) -> str:
    """What was charged with tax, and the tax in it; more given back than charged is said so."""
    if tax.frame.is_empty():
        return "Nothing was charged."
    gross, due = tax.total("gross"), tax.total("tax")
    amounts = [wording.money(abs(gross), settings), wording.money(abs(due) if gross < 0 else due, settings)]
    charged = "more was given back than charged" if gross < 0 else "was charged"
    return f"{amounts[0]} {charged}, {amounts[1]} of it tax."


def _places(found: Verdict, gathered: Gathered) -> str:
    settings = gathered.settings
    counted = [(found.visits, "visit", "visits"), (found.days, "day as a whole", "days as a whole")]
    return wording.listed([wording.counted(count, one, many, settings) for count, one, many in counted if count])
