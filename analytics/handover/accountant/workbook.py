"""The sheets as one workbook: text that stays text, totals as real sums, formats of the currency, ready to print.

Same sheets, same bytes: nothing in it depends on the day or the place where it was made.
"""

import io
import re
from datetime import date, datetime
from decimal import Decimal
from typing import Any

import polars as pl
import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.worksheet import Worksheet

from analytics.handover.accountant.sheets.sheet import RATES, AccountSheet, heading
from analytics.settings import Settings

HEAD = 3  # rows above the headings: title, note, an empty one
NARROWEST, WIDEST, WRAPPED = 9, 46, 84  # characters
HEADING_HEIGHT, LINE_HEIGHT = 28, 13.5  # points
LEFT = ("text", "wrapped", "day")  # what stands at the left of its cell
LONGEST = 32_000  # characters a cell holds
CREATED = datetime(2000, 1, 1)
GREY = "#595959"
CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]+")


def workbook(sheets: tuple[AccountSheet, ...], settings: Settings, digits: int, period: str) -> bytes:
    """The bytes of the .xlsx file. period: in words, for the head of each printed page."""
    file = io.BytesIO()
    options = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    book = xlsxwriter.Workbook(file, options)
    book.set_properties({"title": f"Summary, {period}", "author": line(settings.salon.name), "created": CREATED})
    book.set_calc_mode("auto")
    styles = _styles(book, digits)
    for sheet in sheets:
        page = book.add_worksheet(sheet.title)
        _write(page, sheet, styles, settings, period)
        _formulas(page, sheet, sheets, styles)
        _totals(page, sheet, styles)
        _for_print(page, sheet, settings, period)
    book.close()
    return file.getvalue()


def line(text: str) -> str:
    """Text on one line, without signs that turn the text around them, as long as a cell can hold."""
    return " ".join(CONTROL.sub(" ", text).split())[:LONGEST]


def _styles(book: Any, digits: int) -> dict[str, Format]:
    """Formats by name; those that end in "1" stand off from the column before them."""
    amount = "#,##0" + ("." + "0" * digits if digits else "")
    money = f'{amount};-{amount};"–"'
    plain: dict[str, Any] = {"font_size": 10, "valign": "top"}
    head, total = {**plain, "bold": True, "bottom": 1, "text_wrap": True}, {**plain, "bold": True, "top": 1}
    looks: dict[str, dict[str, Any]] = {
        "title": {"bold": True, "font_size": 14},
        "note": {"italic": True, "font_color": GREY, "font_size": 9},
        "head": head,
        "head_right": {**head, "align": "right"},
        "text": plain,
        "wrapped": {**plain, "text_wrap": True},
        "day": {**plain, "num_format": "yyyy-mm-dd", "align": "left"},
        "total": total,
    }
    numbers = {"money": money, "rate": "0.0###", "hours": "#,##0.00", "grams": "#,##0.0##", "count": "#,##0"}
    for name, pattern in numbers.items():
        looks[name] = {**plain, "num_format": pattern}
        looks[f"total_{name}"] = {**total, "num_format": pattern}
    looks |= {f"{name}1": {**looks[name], "indent": 1} for name in ("head", "text", "wrapped", "day")}
    return {name: book.add_format(look) for name, look in looks.items()}


def _write(page: Worksheet, sheet: AccountSheet, styles: dict[str, Format], settings: Settings, period: str) -> None:
    page.write_string(0, 0, f"{sheet.title}, {period}", styles["title"])
    page.write_string(1, 0, line(sheet.note), styles["note"])
    columns, rows = sheet.frame.columns, sheet.frame.rows()
    kinds = [_kind(sheet, column) for column in columns]
    page.set_row(HEAD, HEADING_HEIGHT)
    for place, column in enumerate(columns):
        off = "1" if place and kinds[place] in LEFT else ""
        look = "head" + off if kinds[place] in LEFT else "head_right"
        page.write_string(HEAD, place, _heading(sheet, column, settings), styles[look])
        for row, values in enumerate(rows, start=HEAD + 1):
            _cell(page, (row, place), values[place], styles[kinds[place] + off])
    if sheet.wide:
        for row, text in enumerate(sheet.frame[sheet.wide], start=HEAD + 1):
            page.set_row(row, LINE_HEIGHT * (1 + len(line(text)) // (WRAPPED - 10)))


def _kind(sheet: AccountSheet, column: str) -> str:
    """Which style a column's cells have."""
    dtype = sheet.frame.schema[column]
    if isinstance(dtype, pl.Decimal):
        return "money" if sheet.is_money(column) else "rate" if column in RATES else "grams"
    if dtype == pl.String:
        return "wrapped" if column == sheet.wide else "text"
    return "day" if dtype == pl.Date else "hours" if dtype == pl.Float64 else "count"


def _heading(sheet: AccountSheet, column: str, settings: Settings) -> str:
    return heading(column) + (f" ({settings.salon.currency})" if sheet.is_money(column) else "")


def _cell(page: Worksheet, place: tuple[int, int], value: Any, look: Format) -> None:
    if value is None:
        page.write_blank(*place, None, look)
    elif isinstance(value, str):
        page.write_string(*place, line(value), look)
    elif isinstance(value, date):
        page.write_datetime(*place, datetime(value.year, value.month, value.day), look)
    else:
        page.write_number(*place, float(value), look)


def _formulas(
    page: Worksheet, sheet: AccountSheet, sheets: tuple[AccountSheet, ...], styles: dict[str, Format]
) -> None:
    """Cells worked out from others: links to another sheet's total, and what a column is worked out from."""
    for row, name, column in sheet.links:
        other = next(one for one in sheets if one.name == name)
        place = f"{xl_col_to_name(other.frame.columns.index(column))}{total_row(other) + 1}"
        at = (HEAD + 1 + row, sheet.frame.columns.index("amount"))
        page.write_formula(*at, f"='{other.title}'!{place}", styles["money"], float(other.total(column)))
    for column, formula in sheet.checks:
        letters = {name: xl_col_to_name(place) for place, name in enumerate(sheet.frame.columns)}
        for row, value in enumerate(sheet.frame[column], start=HEAD + 1):
            cells = {name: f"{letter}{row + 1}" for name, letter in letters.items()}
            page.write_formula(
                row, sheet.frame.columns.index(column), "=" + formula.format(**cells), styles["money"], float(value)
            )


def total_row(sheet: AccountSheet) -> int:
    """The row, from 0, in which the totals of a sheet stand."""
    return HEAD + 1 + max(sheet.frame.height, 1)


def _totals(page: Worksheet, sheet: AccountSheet, styles: dict[str, Format]) -> None:
    if not sheet.sums:
        return
    row = total_row(sheet)
    for place, column in enumerate(sheet.frame.columns):
        letter = xl_col_to_name(place)
        if column in sheet.sums:
            look = styles["total_money" if sheet.is_money(column) else "total_count"]
            page.write_formula(row, place, f"=SUM({letter}{HEAD + 2}:{letter}{row})", look, float(sheet.total(column)))
        else:
            page.write_string(row, place, "Total" if place == 0 else "", styles["total"])


def _for_print(page: Worksheet, sheet: AccountSheet, settings: Settings, period: str) -> None:
    columns = sheet.frame.columns
    last = total_row(sheet) if sheet.sums else HEAD + sheet.frame.height
    for place, column in enumerate(columns):
        page.set_column(place, place, _width(sheet, column, settings))
    page.freeze_panes(HEAD + 1, 0)
    page.repeat_rows(0, HEAD)
    page.print_area(0, 0, max(last, HEAD), max(len(columns) - 1, 0))
    page.set_paper(9)  # A4
    page.set_landscape() if len(columns) > 5 or sheet.wide else page.set_portrait()
    page.fit_to_pages(1, 0)
    page.set_margins(left=0.5, right=0.5, top=0.8, bottom=0.7)
    name = line(settings.salon.name).replace("&", "&&")[:120]
    page.set_header(f"&L{name}&R{period}")
    page.set_footer(f"&L{sheet.title}&R&P / &N")
    page.hide_gridlines(2)


def _width(sheet: AccountSheet, column: str, settings: Settings) -> int:
    if column == sheet.wide:
        return WRAPPED
    texts = [
        max(_heading(sheet, column, settings).replace(" (", "\n(").split("\n"), key=len),
        *map(_shown, sheet.frame[column]),
    ]
    if column in sheet.sums:
        texts.append(_shown(sheet.total(column)))
    return min(max(NARROWEST, *(len(text) + 2 for text in texts)), WIDEST)


def _shown(value: Any) -> str:
    return f"{value:,.2f}" if isinstance(value, Decimal | float) else line(str(value)) if value is not None else ""
