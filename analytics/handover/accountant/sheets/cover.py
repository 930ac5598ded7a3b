"""The first sheet: whose figures these are, the sums that matter, whether they tie, what was left out."""

from dataclasses import dataclass
from decimal import Decimal

import polars as pl

from analytics import wording
from analytics.definitions.results import MONEY
from analytics.handover.accountant.period_names import last_day, period_words
from analytics.handover.accountant.period_rows import Gathered, within
from analytics.handover.accountant.sheets.settlement import open_differences
from analytics.handover.accountant.sheets.sheet import AccountSheet
from analytics.periods import Period

REGIMES = {"included": "prices include tax", "added": "tax is added to prices"}
PURPOSES = {"multi_purpose": "taxed when they are used", "single_purpose": "taxed when they are sold"}
TIPS = {"outside": "outside the tax, passed on", "inside": "inside the tax, a compulsory charge"}
TOTALS = (  # what it is called, the sheet and the column whose total it is
    ("Revenue, with tax", "revenue", "gross"),
    ("Revenue, net", "revenue", "net"),
    ("Tax", "tax", "tax"),
    ("Vouchers sold", "reconciliation", "vouchers_sold"),
    ("Vouchers used", "reconciliation", "vouchers_used"),
    ("Tips", "reconciliation", "tips"),
    ("Money received", "reconciliation", "received"),
    ("Difference", "reconciliation", "difference"),
    ("Payment fees stated", "takings", "fees"),
    ("Payment fees assumed", "takings", "assumed_fees"),
)


@dataclass(frozen=True)
class Verdict:
    """Whether the period ties: visits (or days) with a difference beyond the tolerance, and what they come to."""

    payments: int
    open_items: int
    left: Decimal
    difference: Decimal

    @property
    def ties(self) -> bool:
        return self.payments > 0 and self.open_items == 0


def verdict(gathered: Gathered, period: Period) -> Verdict:
    """Differences that were settled on another day count for nothing; the others by visit."""
    by_day = pl.when(pl.col("booking_id").is_null()).then("day").alias("one_day")  # what belongs to no visit
    left = open_differences(gathered, period).with_columns(by_day).unique(["site", "booking_id", "one_day"])
    whole = within(gathered.settlements, period)["difference"].sum() or Decimal(0)
    return Verdict(
        within(gathered.payments, period).height, left.height, Decimal(left["left"].sum() or 0), Decimal(whole)
    )


def verdict_words(found: Verdict, gathered: Gathered) -> str:
    """One sentence."""
    settings = gathered.settings
    if found.payments == 0:
        return "There are no payments in the period, so what was taken cannot be held against what was due."
    if found.open_items:
        places = wording.counted(found.open_items, "place", "places", settings)
        gap = wording.money(abs(found.left), settings)
        more = "more" if found.left > 0 else "less"
        apart = f"{gap} {more} was taken than was due" if found.left else "what was taken comes to what was due"
        return f"It does not tie in {places}; in all, {apart}. See Differences."
    if found.difference:
        gap = wording.money(abs(found.difference), settings)
        return f"It ties; {gap} of difference was settled on another day or lies within the tolerance."
    return "What was taken ties to what was due, to the cent." if gathered.digits else "What was taken ties exactly."


def left_out(gathered: Gathered, period: Period) -> list[tuple[str, str]]:
    """What is in no sum of this period, in words."""
    settings, cover = gathered.settings, gathered.salon.cover
    said = []
    aside = gathered.salon.book.set_aside.height
    if aside:
        said.append(("Rows set aside", wording.counted(aside, "row of the exports", "rows of the exports", settings)))
    bookings = gathered.tables["bookings"].with_columns(day=pl.col("starts_at").dt.date())
    for status, words in (("no_show", "Missed"), ("cancelled", "Cancelled"), ("booked", "Booked, not completed")):
        lines = within(bookings, period).filter(pl.col("status") == status)
        if lines.height:
            price = wording.money((lines["price"] - lines["discount"]).sum(), settings)
            said.append(
                (f"{words}, not charged", f"{wording.counted(lines.height, 'line', 'lines', settings)}, {price}")
            )
    if cover.cut(period) != period:
        held = f"covers {wording.month_range(cover.months(), settings)} only" if cover.months() else "is empty"
        said.append(("Not in the book", f"the book {held}"))
    return said


def cover_sheet(gathered: Gathered, period: Period, others: list[AccountSheet], corrected: int) -> AccountSheet:
    """Rows of label, amount and words; amounts are the totals of other sheets."""
    known = {sheet.name: sheet for sheet in others}
    settings = gathered.settings
    top = [
        ("Salon", settings.salon.name),
        ("Period", f"{period_words(period, settings)} ({period.start} to {last_day(period)})"),
        ("Currency", settings.salon.currency),
        ("Does it tie?", verdict_words(verdict(gathered, period), gathered)),
    ]
    below = [
        ("Tax", f"{REGIMES[settings.tax.prices]}; rounded per {_per(settings.tax.round_per)} and rate"),
        ("Vouchers", PURPOSES[settings.accounting.vouchers]),
        ("Tips", TIPS[settings.accounting.tips]),
        *[(f"Left out: {what.lower()}", how) for what, how in left_out(gathered, period)],
        ("Corrections", _corrections(corrected, gathered)),
        ("Please note", "A summary for an accountant, not tax advice; no client is named in it."),
    ]
    sums = [(label, known[name].total(column)) for label, name, column in TOTALS]
    rows = [*[(label, None, words) for label, words in top], *[(label, amount, "") for label, amount in sums]]
    rows += [(label, None, words) for label, words in below]
    frame = pl.DataFrame(rows, schema={"what": pl.String(), "amount": MONEY.dtype, "says": pl.String()}, orient="row")
    links = [(len(top) + place, name, column) for place, (_, name, column) in enumerate(TOTALS)]
    return AccountSheet("cover", "Cover", frame, "", links=tuple(links), wide="says")


def _per(round_per: str) -> str:
    return {"booking": "visit", "line": "line"}[round_per]


def _corrections(corrected: int, gathered: Gathered) -> str:
    if not corrected:
        return "none of earlier periods"
    return wording.counted(corrected, "amount", "amounts", gathered.settings) + " of earlier periods; see Corrections"
