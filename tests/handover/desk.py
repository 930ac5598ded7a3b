"""Salons in memory for the tests of what is handed over, and readers of the files that know nothing of ours."""

import csv
import io
import re
import zipfile
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
import polars as pl
import pymupdf
from frames import settings as settings_of

from analytics.definitions.findings import SCHEMA
from analytics.definitions.tables import TABLES
from analytics.handover.accountant.package import Handover
from analytics.handover.accountant.period_names import named_period
from analytics.salon import Salon
from analytics.settings import Settings
from analytics.storage.book import FILES, SET_ASIDE, Book

REFERENCE = re.compile(r"(?:'([^']+)'!)?([A-Z]+)([0-9]+)(?::([A-Z]+)([0-9]+))?")


def salon_of(salon: Settings | None = None, *, as_of: str = "2026-04-01", **tables: pl.DataFrame) -> Salon:
    """A salon whose book holds these tables; the others are empty."""
    empty = {name: table.empty() for name, table in TABLES.items()}
    book = Book(
        {**empty, **tables}, pl.DataFrame(schema=FILES), pl.DataFrame(schema=SCHEMA), pl.DataFrame(schema=SET_ASIDE)
    )
    return Salon(Path("nowhere"), salon or settings_of(), book, date.fromisoformat(as_of))


def handover_of(salon: Salon, period: str = "2026-03", **more: Any) -> Handover:
    return Handover(salon, named_period(period), **more)


def sheet(made: Handover, name: str) -> pl.DataFrame:
    """The frame of the sheet of this name."""
    return next(one.frame for one in made.sheets if one.name == name)


def total(made: Handover, name: str, column: str) -> Decimal:
    return next(one.total(column) for one in made.sheets if one.name == name)


def csv_rows(made: Handover, name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(made.texts[name], newline="")))


def csv_total(made: Handover, name: str, column: str) -> Decimal:
    return sum((Decimal(row[column] or 0) for row in csv_rows(made, name)), Decimal(0))


def pdf_words(pdf: bytes) -> str:
    """The text of all pages on one line."""
    return " ".join(" ".join(page.get_text() for page in pymupdf.open(stream=pdf)).split())


def all_text(files: dict[str, bytes]) -> str:
    """Everything that can be read in the files: texts, the parts of workbooks, the pages of papers."""
    read = []
    for name, content in files.items():
        if name.endswith(".xlsx"):
            with zipfile.ZipFile(io.BytesIO(content)) as parts:
                read += [parts.read(part).decode("utf-8") for part in parts.namelist()]
        else:
            read.append(pdf_words(content) if name.endswith(".pdf") else content.decode("utf-8"))
    return "\n".join(read)


class Workbook:
    """A workbook read by openpyxl, whose formulas are worked out again here: sums, + and −, references."""

    def __init__(self, content: bytes) -> None:
        self.formulas = openpyxl.load_workbook(io.BytesIO(content))
        self.cached = openpyxl.load_workbook(io.BytesIO(content), data_only=True)

    def value(self, page: str, cell: str) -> Decimal:
        """What a cell comes to, from the numbers alone."""
        found = self.formulas[page][cell].value
        if isinstance(found, str) and found.startswith("="):
            return self._worked(page, found[1:])
        return Decimal(str(found)) if isinstance(found, int | float) else Decimal(0)

    def _worked(self, page: str, formula: str) -> Decimal:
        summed = re.fullmatch(r"SUM\(([A-Z]+)([0-9]+):\1([0-9]+)\)", formula)
        if summed:
            column, first, last = summed[1], int(summed[2]), int(summed[3])
            return sum((self.value(page, f"{column}{row}") for row in range(first, last + 1)), Decimal(0))
        numbers = REFERENCE.sub(lambda at: f"({self.value(at[1] or page, at[2] + at[3])})", formula)
        return _plus_minus(numbers)

    def all_formulas(self) -> list[tuple[str, str, Decimal]]:
        """(page, cell, the number that stands there for whoever does not work formulas out)."""
        return [
            (page.title, cell.coordinate, Decimal(str(self.cached[page.title][cell.coordinate].value)))
            for page in self.formulas
            for row in page.iter_rows()
            for cell in row
            if isinstance(cell.value, str) and cell.data_type == "f"
        ]


def _plus_minus(text: str) -> Decimal:
    """Numbers, + and −, and brackets, worked out."""
    tokens = re.findall(r"[0-9.]+(?:E[-+]?[0-9]+)?|[-+()]", text)
    at = 0

    def part() -> Decimal:
        nonlocal at
        token = tokens[at]
        at += 1
        if token == "(":
            inner = whole()
            at += 1
            return inner
        return -part() if token == "-" else Decimal(token)

    def whole() -> Decimal:
        nonlocal at
        sum_so_far = part()
        while at < len(tokens) and tokens[at] in "+-":
            sign = tokens[at]
            at += 1
            sum_so_far = sum_so_far + part() if sign == "+" else sum_so_far - part()
        return sum_so_far

    return whole()
