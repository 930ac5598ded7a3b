"""The first sheet, and the covering page: whose figures these are, the sums that matter, and what to know of them."""

from dataclasses import dataclass
from typing import Any

import polars as pl

from analytics import wording
from analytics.definitions.results import MONEY
from analytics.handover.accountant.covering import Said
from analytics.handover.accountant.period_names import period_words
from analytics.handover.accountant.sheets.sheet import AccountSheet
from analytics.handover.paper import paper
from analytics.periods import Period
from analytics.settings import Settings

NOTE = "A summary for an accountant, not tax advice. No client is named in this folder."
HOLDS = {  # what a file answers, where its title does not say it all
    "revenue": "Earned, by what was sold, kind and rate of tax",
    "tax": "Tax by rate: the boxes of a return",
    "payments_by_method": "Payments by day and method, those with vouchers too",
    "reconciliation": "By day: what was due, money received, the difference",
    "reconciliation_methods": "The same by method of payment",
    "differences": "Every difference down to the visit, with its cause",
    "stock": "Stock by month: bought, used, missing, written down, at the end",
    "closing_stock": "Stock by product at the end of the period",
    "write_downs": "What is written down below cost, by product and reason",
    "journal": "Double entry, with references",
    "corrections": "What later exports changed in periods handed over before",
    "set_aside": "Rows that could not be used, by file and cause",
    "how": "How every sum is worked out",
    "controls": "Totals of these files against lines.csv",
}
NOTHING = "Nothing that the records show."
TOTALS = (  # what it is called, the sheet and the column whose total it is
    ("Revenue, with tax", "revenue", "gross"),
    ("Revenue, net", "revenue", "net"),
    ("Tax", "tax", "tax"),
    ("Vouchers sold", "reconciliation", "vouchers_sold"),
    ("Vouchers used", "reconciliation", "vouchers_used"),
    ("Deposits received", "reconciliation", "deposits_received"),
    ("Deposits used", "reconciliation", "deposits_used"),
    ("Tips", "reconciliation", "tips"),
    ("Money received", "reconciliation", "received"),
    ("Unreconciled differences", "reconciliation", "difference"),
    ("Payment fees stated", "payments_by_method", "fees"),
    ("Payment fees assumed", "payments_by_method", "assumed_fees"),
    ("Product bought", "stock", "purchases"),
    ("Stock at the end, at the lower of cost and what it can bring", "closing_stock", "carrying"),
)


@dataclass(frozen=True)
class Covering:
    """What the covering page says. verdict: whether money received agrees. Each part: what it is about, a sentence."""

    verdict: str
    decisions: Said
    changed: Said
    assumed: Said


def cover_sheet(said: Covering, settings: Settings, period: Period, known: dict[str, AccountSheet]) -> AccountSheet:
    """Rows of label, amount and words; amounts are the totals of other sheets."""
    top = [
        ("Salon", settings.salon.name),
        ("Period", f"{period_words(period, settings)} ({period.start} to {period.last})"),
        ("Currency", settings.salon.currency),
        ("Does it agree?", said.verdict),
    ]
    parts = {"To decide": said.decisions or [("", NOTHING)], "Changed": said.changed, "Assumed": said.assumed}
    below = [(f"{part}: {what}" if what else part, how) for part, rows in parts.items() for what, how in rows]
    sums = [(label, known[name].total(column)) for label, name, column in TOTALS]
    rows = [*[(label, None, words) for label, words in top], *[(label, amount, "") for label, amount in sums]]
    rows += [(label, None, words) for label, words in [*below, ("Please note", NOTE)]]
    frame = pl.DataFrame(rows, schema={"what": pl.String(), "amount": MONEY.dtype, "says": pl.String()}, orient="row")
    links = [(len(top) + place, name, column) for place, (_, name, column) in enumerate(TOTALS)]
    return AccountSheet("cover", "Cover", frame, "", links=tuple(links), wide="says")


def covering_page(
    said: Covering, settings: Settings, period: str, known: dict[str, AccountSheet], others: dict[str, str]
) -> bytes:
    """The PDF that a person reads first. others: files that are no sheet of the workbook, and what they are."""
    sums = [
        [label, wording.money(known[name].total(column), settings)]
        for label, name, column in TOTALS
        if known[name].total(column) or name in ("revenue", "tax", "reconciliation")
    ]
    sheets = [sheet for name, sheet in known.items() if name != "cover"]
    files = [[f"{sheet.name}.csv", HOLDS.get(sheet.name, sheet.title), _rows(sheet, settings)] for sheet in sheets]
    data: dict[str, Any] = {
        "verdict": said.verdict,
        "note": NOTE,
        "currency": settings.salon.currency,
        "sums": sums,
        "parts": [
            {"title": "What needs a decision", "rows": _list(said.decisions or [("", NOTHING)])},
            {"title": "What changed since the last handover", "rows": _list(said.changed)},
            {"title": "What was assumed", "rows": _list(said.assumed)},
        ],
        "files": [*([name, what, ""] for name, what in others.items()), *files],
    }
    return paper("covering", data, settings, title="Handover to the accountant", period=period, made_on=None)


def _rows(sheet: AccountSheet, settings: Settings) -> str:
    return wording.counted(sheet.frame.height, "row", "rows", settings) if sheet.frame.height else "empty"


def _list(said: Said) -> list[list[str]]:
    return [list(row) for row in said]
