"""The forms: a workbook for what no export holds, in the salon's words, to fill in or to print for the wall.

Bowls, counted stock, deliveries, products and services have a sheet each. Cells offer what is known, and the
spreadsheet itself checks days, times and amounts. Dropped back among the exports it is read like any of them; what is
not filled in is nothing. The same salon gives the same bytes.
"""

import argparse
import io
from dataclasses import dataclass
from datetime import date, time
from pathlib import Path
from typing import Any

import polars as pl
import xlsxwriter

from analytics.definitions.columns import Column, Type
from analytics.definitions.tables import TABLES
from analytics.handover.accountant.workbook import CREATED, line
from analytics.intake.meaning import words
from analytics.intake.meaning.headings import best_match
from analytics.intake.reading.workbook import LISTS
from analytics.salon import open_salon
from analytics.settings import Settings, read_settings
from analytics.storage.book import BOOK
from analytics.storage.private_files import write_private

LANGUAGES = {"en": "English", "nl": "Dutch", "de": "German", "fr": "French", "it": "Italian", "es": "Spanish"}
TITLES = {
    "en": ("Bowls", "Count", "Delivery", "Products", "Services"),
    "nl": ("Mengsels", "Telling", "Levering", "Producten", "Behandelingen"),
    "de": ("Mischungen", "Inventur", "Lieferung", "Produkte", "Leistungen"),
    "fr": ("Mélanges", "Inventaire", "Livraison", "Produits", "Prestations"),
    "it": ("Miscele", "Inventario", "Consegna", "Prodotti", "Servizi"),
    "es": ("Mezclas", "Inventario", "Entrega", "Productos", "Servicios"),
}
"""By language: titles of the sheets; those of counted stock and of deliveries say the movement."""
FORMS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("product_log", ("logged_at", "time", "stylist", "product", "mixed_g", "left_g")),
    ("stock_moves", ("moved_at", "product", "packs")),
    ("stock_moves", ("moved_at", "product", "packs", "unit_cost", "expires_on")),
    ("products", ("product", "kind", "pack_g", "pack_cost", "strength_percent", "tax_rate")),
    ("services", ("service", "kind", "price", "tax_rate", "hands_on_min", "processing_min", "valid_from")),
)
"""Table and columns of each sheet."""
PRINTED, CHECKED = 30, 1000  # empty rows on paper, rows that the spreadsheet checks
WIDE, NARROW, ROW_HEIGHT = 26, 15, 24  # characters, characters, points
MOST_LISTED = 2000
FIRST_DAY, LAST_DAY = date(2000, 1, 1), date(2199, 12, 31)
DAYS: tuple[Type, ...] = ("day", "moment", "moment_or_day")


@dataclass(frozen=True)
class Known:
    """Names that cells offer."""

    products: tuple[str, ...] = ()
    stylists: tuple[str, ...] = ()


def write(folder: Path, today: date, asked: argparse.Namespace) -> list[Path]:
    """The workbook, with what the book knows where there is one."""
    settings = read_settings(folder)
    known = known_names(open_salon(folder, today).book.tables) if folder.joinpath(BOOK).exists() else Known()
    return [write_private(forms(settings, known), asked.to or folder.joinpath("forms.xlsx"))]


def known_names(tables: dict[str, pl.DataFrame]) -> Known:
    """tables: those of the book."""

    def names(table: str, column: str) -> tuple[str, ...]:
        found = tables[table][column].drop_nulls().unique().sort()
        return tuple(line(name) for name in found if name.strip())[:MOST_LISTED]

    return Known(names("products", "product"), names("bookings", "stylist"))


def forms(settings: Settings, known: Known) -> bytes:
    """The bytes of the .xlsx file."""
    language = settings.salon.locale.partition("_")[0]
    language = language if language in LANGUAGES else "en"
    file = io.BytesIO()
    plain = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}
    book = xlsxwriter.Workbook(file, plain)
    book.set_properties({"title": "Forms", "author": line(settings.salon.name), "created": CREATED})
    lists = _Lists()
    for title, (table, columns) in zip(TITLES[language], FORMS, strict=True):
        _sheet(book, title, table, columns, language, settings, known, lists)
    lists.write(book)
    book.close()
    return file.getvalue()


def headings_of(table: str, columns: tuple[str, ...], language: str, settings: Settings) -> list[str]:
    """For each column the first word of the language by which it is read, given the words before it."""
    chosen: list[str] = []
    for column in columns:
        candidates = words.HEADINGS[table][column].get(LANGUAGES[language], ())
        chosen.append(next((one for one in candidates if _read_as(table, columns, [*chosen, one], settings)), column))
    return chosen


def _read_as(table: str, columns: tuple[str, ...], headings: list[str], settings: Settings) -> bool:
    match = best_match(headings, f"form#{table}", settings.model_copy(update={"tables": {f"form#{table}": table}}))
    return match is not None and all(match.places.get(name) == at for at, name in enumerate(columns[: len(headings)]))


class _Lists:
    """What drop-down cells offer, on a hidden sheet of its own."""

    def __init__(self) -> None:
        self.columns: dict[tuple[str, ...], int] = {}

    def range_of(self, names: tuple[str, ...]) -> str:
        at = self.columns.setdefault(names, len(self.columns))
        letter = chr(ord("A") + at)
        return f"='{LISTS}'!${letter}$1:${letter}${len(names)}"

    def write(self, book: Any) -> None:
        sheet = book.add_worksheet(LISTS)
        for names, at in self.columns.items():
            for row, name in enumerate(names):
                sheet.write_string(row, at, name)
        sheet.hide()


def _sheet(  # noqa: PLR0917
    book: Any, title: str, table: str, columns: tuple[str, ...], language: str, settings: Settings, known: Known,
    lists: _Lists,
) -> None:  # fmt: skip
    sheet = book.add_worksheet(title)
    headings = headings_of(table, columns, language, settings)
    head = book.add_format({"bold": True, "border": 1, "text_wrap": True, "valign": "vcenter"})
    types = {column.name: column for column in TABLES[table].columns}
    for at, (name, heading) in enumerate(zip(columns, headings, strict=True)):
        kind: Type = types[name].type if name in types else "text"
        looks = {"border": 1, "valign": "vcenter", "num_format": _format(name, kind)}
        form = book.add_format(looks)
        sheet.set_column(at, at, WIDE if kind in ("text", "word") and name != "time" else NARROW)
        sheet.write_string(0, at, heading, head)
        for row in range(1, PRINTED + 1):
            sheet.write_blank(row, at, None, form)
        if rule := _rule(name, types.get(name), table, language, known, lists):
            sheet.data_validation(1, at, CHECKED, at, rule)
    for row in range(PRINTED + 1):
        sheet.set_row(row, ROW_HEIGHT)
    sheet.freeze_panes(1, 0)
    sheet.repeat_rows(0)
    sheet.set_landscape()
    sheet.set_paper(9)  # A4
    sheet.fit_to_pages(1, 0)
    sheet.set_header(f"&L{line(settings.salon.name).replace('&', '&&')}&R{title}")


def _format(name: str, kind: Type) -> str:
    if name == "time":
        return "hh:mm"
    return "yyyy-mm-dd" if kind in DAYS else "@" if kind in ("text", "word") else "General"


def _rule(  # noqa: PLR0917
    name: str, column: Column | None, table: str, language: str, known: Known, lists: _Lists
) -> dict[str, Any] | None:
    """How the spreadsheet checks the cells of a column, or what they offer; None where any text will do."""
    if name == "time":
        return {"validate": "time", "criteria": "between", "minimum": time(0, 0), "maximum": time(23, 59)}
    if column is None:
        return None
    if column.type in DAYS:
        return {"validate": "date", "criteria": "between", "minimum": FIRST_DAY, "maximum": LAST_DAY}
    if column.type == "word":
        module = words.LANGUAGES[LANGUAGES[language]]
        values = module.VALUES[f"{table}.{name}"]
        return {
            "validate": "list",
            "source": lists.range_of(tuple(words.split(values[one])[0] for one in column.words)),
        }
    if column.type == "text":
        names = {"product": known.products, "stylist": known.stylists}.get(name, ())
        offered = table != "products" and names
        return {"validate": "list", "source": lists.range_of(names), "error_type": "warning"} if offered else None
    low, high = column.low or 0, column.high or 1_000_000
    return {"validate": "decimal", "criteria": "between", "minimum": low, "maximum": high}
