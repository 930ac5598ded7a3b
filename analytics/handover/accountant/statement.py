"""The statement: the sums of the handover on paper, in the salon's own way of writing money."""

from datetime import date
from decimal import Decimal
from typing import Any

import polars as pl

from analytics import wording
from analytics.definitions.results import MONEY
from analytics.definitions.vocabulary import METHODS
from analytics.handover.accountant.sheets.sheet import AccountSheet, heading
from analytics.handover.accountant.sheets.totals import total, totals_by
from analytics.handover.paper import paper
from analytics.records.money.owed import OWED
from analytics.settings import Settings

NOTE = "A summary for an accountant, not tax advice. No client is named in it; the tables beside it hold every row."
IN_THE_WORKBOOK = (
    "unexplained",
    "written_down",
    "reversed",
    "released",
    "allowance",
    "without_cost",
)  # of stock; no room on paper
MOST_ROWS = 40  # of one table on paper; the rest is in the workbook


def statement(
    sheets: tuple[AccountSheet, ...], settings: Settings, period: str, verdict: str, left_out: list[tuple[str, str]]
) -> bytes:
    """The PDF of one period."""
    known = {sheet.name: sheet for sheet in sheets}
    known["stock"] = _without(known["stock"], *IN_THE_WORKBOOK)
    parts = [
        _of_sums(known, settings),
        _part(known["revenue"], settings),
        _part(known["tax"], settings),
        _part(_by_method(known["payments_by_method"]), settings),
        _part(_by_month(known["reconciliation"]), settings),
        _part(
            _without(known["differences"], "tolerated", "visit_on", "paid_on"),
            settings,
            "No visit or day has a difference.",
        ),
        _part(_without_days(known["vouchers"]), settings),
        _part(_without(known["voucher_register"], "face", "used", "left", "tax_in_owed"), settings),
        _part(known["deposits"], settings),
        _part(known["stock"], settings, "No deliveries or counts are in the exports."),
        _part(known["corrections"], settings, "None of earlier periods."),
        _left_out(left_out),
    ]
    return paper(
        "statement",
        {"verdict": verdict, "note": NOTE, "parts": parts},
        settings,
        title="Summary for the accountant",
        period=period,
        made_on=None,
    )


def _of_sums(known: dict[str, AccountSheet], settings: Settings) -> dict[str, Any]:
    rows = known["cover"].frame.drop_nulls("amount").select("what", "amount").rows()
    said = [[what, wording.money(amount, settings)] for what, amount in rows]
    return _table("In short", ["", settings.salon.currency], said, right=[1], widths=[True, False])


def _part(sheet: AccountSheet, settings: Settings, empty: str = "Nothing in this period.") -> dict[str, Any]:
    frame = sheet.frame.head(MOST_ROWS)
    numbers = [place for place, kind in enumerate(frame.dtypes) if kind.is_numeric()]
    rows = [[_shown(value, settings, sheet.is_money(name)) for name, value in row.items()] for row in frame.to_dicts()]
    if sheet.sums and rows:
        rows.append([_total(sheet, name, place, settings) for place, name in enumerate(frame.columns)])
    texts = [not kind.is_numeric() and name in ("item", "why", "cause") for name, kind in frame.schema.items()]
    more = sheet.frame.slice(MOST_ROWS).height
    note = f"{more} more rows stand in the workbook; the total is that of all." if more else sheet.note
    headings = [heading(name) for name in frame.columns]
    return _table(sheet.title, headings, rows, right=numbers, widths=texts, note=note, empty=empty)


def _total(sheet: AccountSheet, name: str, place: int, settings: Settings) -> str:
    if name in sheet.sums:
        return _shown(sheet.total(name), settings, sheet.is_money(name))
    return "Total" if place == 0 else ""


def _table(title: str, headings: list[str], rows: list[list[str]], **more: Any) -> dict[str, Any]:
    """What the template asks for. right: places of numbers; widths: places that take what room is left."""
    plain = {"right": [], "widths": [False for _ in headings], "note": "", "empty": ""}
    return {"title": title, "headings": headings, "rows": rows, **plain, **more}


def _shown(value: Any, settings: Settings, money: bool) -> str:
    if value is None or value == "":
        return ""
    if money:
        return wording.money(value, settings)
    if isinstance(value, Decimal):
        return f"{value.normalize():f}"
    return value.isoformat() if isinstance(value, date) else str(value)


def _by_method(takings: AccountSheet) -> AccountSheet:
    """Payments of the whole period."""
    order = list(METHODS.values())
    frame = totals_by(takings.frame, ["method"], takings.sums)
    ordered = frame.sort(pl.col("method").replace_strict(order, range(len(order)), return_dtype=pl.Int64))
    return AccountSheet("payments_by_method", "Payments by method", ordered, takings.note, takings.sums)


def _without(sheet: AccountSheet, *columns: str) -> AccountSheet:
    """The sheet with fewer columns, so that it fits the width of the page."""
    return AccountSheet(sheet.name, sheet.title, sheet.frame.drop(columns, strict=False), sheet.note, sheet.sums)


def _by_month(reconciliation: AccountSheet) -> AccountSheet:
    """The reconciliation by month, so that a year fits on a page."""
    by_month = reconciliation.frame.with_columns(month=pl.col("day").dt.strftime("%Y-%m"))
    frame = totals_by(by_month, ["month"], reconciliation.sums)
    return AccountSheet("reconciliation", "Reconciliation", frame, reconciliation.note, reconciliation.sums)


def _without_days(vouchers: AccountSheet) -> AccountSheet:
    """Sold, used and what was owed at the end, of all sites together."""
    frame = vouchers.frame
    if frame.is_empty():
        return AccountSheet("vouchers", vouchers.title, frame)
    sites = ["site"] if "site" in frame.columns else []
    last = frame.unique(sites, keep="last", maintain_order=True) if sites else frame.tail(1)
    whole = {name: total(frame, name) for name in vouchers.sums} | {name: total(last, name) for name in OWED}
    rows = [(heading(name), amount) for name, amount in whole.items() if amount or name == "owed"]
    shown = pl.DataFrame(rows, schema={"what": pl.String(), "amount": MONEY.dtype}, orient="row")
    return AccountSheet("vouchers", vouchers.title, shown, vouchers.note)


def _left_out(said: list[tuple[str, str]]) -> dict[str, Any]:
    return _table(
        "Not in these sums", ["What", ""], [list(row) for row in said], widths=[False, True], empty="Nothing."
    )
