"""One way of writing a small salon's exports, and the hands that write it: separated text and workbooks."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import xlsxwriter

from dialects.small import Line, Salon, Visit

Row = list[Any]
Write = Callable[[Path, Salon], None]

DIARY = ("gross", "lines", "visits", "starts", "clients")
"""What a diary of date, time, client, service and price decides."""


@dataclass(frozen=True)
class Way:
    """checks: what the exports decide. everything: they hold visits that were called off too. answers: what an owner
    would say of her headings, by table, and of her words, by column; only used where she is asked. of: what becomes of
    the salon before it is written."""

    name: str
    language: str
    write: Write
    checks: tuple[str, ...] = DIARY
    everything: bool = False
    answers: dict[str, dict[str, str]] = field(default_factory=dict)
    words: dict[str, dict[str, str]] = field(default_factory=dict)
    constants: dict[str, str] = field(default_factory=dict)
    currency: str = "EUR"
    of: Callable[[Salon], Salon] = lambda salon: salon


def comma(amount: Decimal, grouped: str = "") -> str:
    return f"{amount:.2f}".replace(".", ",") + grouped


def point(amount: Decimal) -> str:
    return f"{amount:.2f}"


def text(folder: Path, name: str, rows: Iterable[Row], between: str = ";", encoding: str = "utf-8") -> None:
    """Rows as separated text; a cell with the separator in it stands in quotation marks."""
    exports = folder / "exports"
    exports.mkdir(parents=True, exist_ok=True)
    lines = [between.join(_quoted(cell, between) for cell in row) for row in rows]
    (exports / name).write_bytes("\r\n".join([*lines, ""]).encode(encoding))


def raw(folder: Path, name: str, lines: Iterable[str], encoding: str = "utf-8") -> None:
    exports = folder / "exports"
    exports.mkdir(parents=True, exist_ok=True)
    (exports / name).write_bytes("\n".join([*lines, ""]).encode(encoding))


def _quoted(cell: Any, between: str) -> str:
    plain = str(cell)
    return f'"{plain}"' if between in plain or "\n" in plain else plain


Merge = tuple[int, int, int, int, str]
"""First row, first column, last row, last column, text."""


def book(folder: Path, name: str, sheets: dict[str, list[Row]], merged: Iterable[Merge] = ()) -> None:
    """A workbook; dates become dates, amounts numbers, the rest text. merged: cells of the first sheet."""
    exports = folder / "exports"
    exports.mkdir(parents=True, exist_ok=True)
    made = xlsxwriter.Workbook(exports / name, {"strings_to_formulas": False, "strings_to_urls": False})
    made.set_properties({"created": datetime(2026, 8, 12)})
    moment, day = (made.add_format({"num_format": form}) for form in ("dd/mm/yyyy hh:mm", "dd/mm/yyyy"))
    for title, rows in sheets.items():
        sheet = made.add_worksheet(title)
        for at, row in enumerate(rows):
            for across, cell in enumerate(row):
                if isinstance(cell, datetime):
                    sheet.write_datetime(at, across, cell, moment if (cell.hour or cell.minute) else day)
                elif isinstance(cell, int | float | Decimal):
                    sheet.write_number(at, across, float(cell))
                elif cell not in ("", None):
                    sheet.write_string(at, across, str(cell))
    for first, left, last, right, words in merged:
        made.worksheets()[0].merge_range(first, left, last, right, words)
    made.close()


def lines(visits: Iterable[Visit]) -> Iterable[tuple[Visit, int, Line]]:
    for visit in visits:
        for number, line in enumerate(visit.lines, start=1):
            yield visit, number, line
