"""What was charged, the tax in it, and whether the money received agrees with it."""

import polars as pl

from analytics import wording
from analytics.periods import Period, add_months, month_name
from analytics.settings import Settings

FOR_THE_ACCOUNTANT = "A summary for your accountant, not tax advice; your tax return decides what you owe."


def accountant_sentence(
    tax: pl.DataFrame, takings: pl.DataFrame, reconciliation: pl.DataFrame, settings: Settings, month: str
) -> str:
    """What was charged, the tax in it, and whether the money received agrees with it."""
    title, charged = wording.month_title(month, settings), tax.filter(pl.col("month") == month)
    if charged.is_empty():
        return f"Nothing was charged in {title}, so there is no tax to report."
    gross, due = _charged(charged, settings)
    return f"{title}: {gross} was charged, {due} of it tax; {_agrees(takings, reconciliation, settings, month)}."


def _charged(month: pl.DataFrame, settings: Settings) -> tuple[str, str]:
    """What was charged at all rates, and the tax in it."""
    row = month.row(0, named=True)
    return wording.money(row["month_gross"], settings), wording.money(row["month_tax"], settings)


def _agrees(takings: pl.DataFrame, reconciliation: pl.DataFrame, settings: Settings, month: str) -> str:
    paid, sums = takings.filter(pl.col("month") == month), reconciliation.filter(pl.col("month") == month)
    if paid.is_empty() or sums.is_empty():
        return "there are no payments on record to compare it with"
    gap = sums["difference"][0]
    if gap == 0:
        return "the money received agrees with it exactly"
    return f"the money received is {wording.money(abs(gap), settings)} {'more' if gap > 0 else 'less'} than was due"


def charged_before(tax: pl.DataFrame, settings: Settings, month: str) -> str:
    """What was charged, and the tax in it, the month before and a year before; empty where neither is on record."""
    first = Period.month(month).start
    parts = []
    for back in (-1, -12):
        then = month_name(add_months(first, back))
        rows = tax.filter(pl.col("month") == then)
        if not rows.is_empty():
            gross, due = _charged(rows, settings)
            parts.append(f"in {wording.month_title(then, settings)} it was {gross}, {due} of it tax")
    return f"Before that, {wording.listed(parts)}." if parts else ""
