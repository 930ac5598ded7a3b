"""The sheets of words: what was set aside, and how everything is worked out. Nothing of a row's cells stands here."""

from typing import Any

import polars as pl

from analytics.catalogue import explain
from analytics.definitions.findings import CATALOGUE, in_general
from analytics.handover.accountant.period_rows import Gathered
from analytics.handover.accountant.sheets.sheet import AccountSheet
from analytics.periods import Period
from analytics.records.set_aside import aside_by_cause

DATED = {"inside": "in this period", "outside": "another date", "undated": "no date"}
MOST_ROWS = 12  # row numbers named for one cause
HOW = {
    "Revenue": "What was earned, by what was sold, kind and tax rate; with single-purpose vouchers, the tax in what "
    "was sold and used stands under Tax, not here. Zero-rated and exempt are told apart by [accounting] exempt.",
    "Unreconciled differences": "A visit is compared with its payments day by day. Paid twice: more was paid by an "
    "amount that stands among its payments more than once. What was paid on another day clears itself and leaves "
    "nothing open.",
    "Reconciliation by method": "A visit's due is split as it was paid; its difference stands with the last payment's "
    "method.",
    "Vouchers and deposits": "Both are owed until they are used. Multi-purpose vouchers are taxed when used, on what "
    "was paid, single-purpose ones when sold (Directive (EU) 2016/1065), by [accounting] vouchers; deposits when "
    "received, or with their visit, by [accounting] deposits. What is kept after a no-show, and what is never used of "
    "vouchers, stand as [accounting] missed_deposits, kept_deposits and breakage say.",
    "Tips": "Freely given, they are outside the tax; a compulsory charge is inside, by [accounting] tips.",
    "Fees": "As the payments state them; where none does, [costs] card_fee_percent of what was paid by card.",
    "Journal": "Per site an entry a day for sales and payments, one for product bought and sent back, and one on a "
    "month's last day for its stock. Differences go to an account of their own. Product stands at cost without tax: "
    "the tax on purchases is on the suppliers' invoices, not here. Rounding of stock is the cents left over "
    "where each product's month is rounded. Wages, rent and other costs are not in it, nor is any opening balance.",
    "Lines": "lines.csv holds every line of the journal with the file and row of the export it rests on. tax_base, "
    "tax_amount and gross_amount stand once for everything sold or taxed, payment_amount once for each payment. A line "
    "without a row is worked out of the others of its document or day. Headings are those of the OECD's Standard Audit "
    "File for Tax 2.0 where it has the field.",
    "Corrections": "A closed period stays as it was handed over. What later exports change in it stands here with what "
    "it was, what it is now and the difference, and as an entry in the journal on the first day of this period.",
    "Refunds": "They count on the day they were given back, at the rate of that day's row.",
    "Not advice": "A summary for an accountant; your tax return decides what you owe.",
}


def set_aside_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """By file and cause: how many rows could not be used, which, and whether their day lies in the period."""
    book = gathered.salon.book
    causes = aside_by_cause(book.set_aside, book.findings, period)
    which = pl.col("which").list.head(MOST_ROWS).cast(pl.List(pl.String)).list.join(", ")
    frame = causes.with_columns(
        pl.col("dated").replace_strict(DATED, return_dtype=pl.String),
        which,
        why=pl.struct("code", "column", "file", "first").map_elements(_why, return_dtype=pl.String),
    ).select("dated", "file", "table", "rows", "which", "why")
    note = "Rows that could not be used and are in no sum; salon-figures check says how to bring them in."
    return AccountSheet("set_aside", "Set aside", frame, note, ("rows",), wide="why")


def _why(cause: dict[str, Any]) -> str:
    """What the catalogue says of the cause, with the first of its rows and the column and without the cell."""
    says, known = CATALOGUE[str(cause["code"])].says, {"row": "first", "file": "file", "column": "column"}
    for name, key in known.items():
        says = says.replace(f"{{{name}}}", str(cause[key] or "…"))
    return in_general(says)


def how_sheet() -> AccountSheet:
    """What the figures say of themselves, and what is only said here."""
    figures = {"Tax": "tax", "Payments by method": "takings", "Reconciliation": "reconciliation"} | {
        "Register of vouchers": "voucher_register",
        "Deposits": "deposits",
    }
    parts = {title: " ".join(explain(name).split()) for title, name in figures.items()} | HOW
    rows = {"sheet": list(parts), "how": list(parts.values())}
    return AccountSheet("how", "How it is worked out", pl.DataFrame(rows), wide="how")
