"""A salon of plain values -> a salon folder as an office of some country and habit would have exported it."""

import csv
import io
import zipfile
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, time
from decimal import Decimal
from pathlib import Path
from typing import Any

from dialects import languages
from dialects import numbers_and_days as ways
from dialects.invented import SETTINGS, Row, Tables
from dialects.workbooks import Sheet, write_ods, write_xlsx

TABLES = ("services", "products", "clients", "bookings", "product_log", "payments", "sales", "stock_moves")
COLUMNS = {
    "services": "service_id service kind price tax_rate hands_on_min processing_min resets_roots valid_from",
    "products": "product_id product kind pack_g pack_cost strength_percent tax_rate",
    "clients": "client_id client phone email may_contact natural_level target_level grey_share patch_tested_on",
    "bookings": "booking_id line client_id client stylist chair starts_at ends_at status service_id price discount tip "
    "booked_on regrowth_mm",
    "product_log": "logged_at booking_id service_id stylist product_id mixed_g left_g",
    "payments": "paid_at booking_id method amount fee",
    "sales": "sold_at product_id quantity price tax_rate discount stylist",
    "stock_moves": "moved_at product_id movement packs unit_cost",
}
MONEY = ("price", "discount", "tip", "pack_cost", "amount", "fee", "unit_cost")
MINUTES = ("minutes", "hands_on_min", "processing_min")
PERCENT = ("tax_rate",)
MOMENTS = {"bookings": "starts_at", "product_log": "logged_at", "payments": "paid_at", "sales": "sold_at",
           "stock_moves": "moved_at"}  # fmt: skip


@dataclass(frozen=True)
class Dialect:
    """How one office writes: every field is what the contract does unless it says otherwise.

    apart: days and times in columns of their own. several: a visit's services in one cell, joined by these signs in
    turn. instead: by table, columns that stand in the place of others ("" leaves one out). renamed: names that the
    dialect's letters cannot write, and the names it has for them.
    """

    name: str
    headings: languages.Headings = field(default_factory=dict)
    words: languages.Words = field(default_factory=dict)
    files: str = ", ".join(TABLES)
    container: str = "csv"
    delimiter: str = ","
    encoding: str = "utf-8"
    newline: str = "\n"
    quoting: int = csv.QUOTE_MINIMAL
    day: Callable[[date], Any] = ways.iso_day
    moment: Callable[[datetime], Any] = ways.iso_moment
    clock: Callable[[time], Any] = ways.iso_clock
    money: Callable[[Decimal], Any] = ways.plain
    number: Callable[[Decimal], Any] = ways.plain
    minutes: Callable[[Decimal], Any] = ways.plain
    percent: Callable[[Decimal], Any] = ways.plain
    apart: bool = False
    several: tuple[str, ...] = ()
    instead: dict[str, dict[str, str]] = field(default_factory=dict)
    above: tuple[str, ...] = ()
    below: bool = False
    blank_lines: bool = False
    repeated_headings: bool = False
    settings: str = ""
    renamed: dict[str, str] = field(default_factory=dict)


def write_salon(folder: Path, tables: Tables, dialect: Dialect) -> Path:
    """Write salon.toml and the exports of these tables in the dialect."""
    exports = folder / "exports"
    exports.mkdir(parents=True)
    (folder / "salon.toml").write_text(SETTINGS + dialect.settings, encoding="utf-8")
    names = dict(zip(TABLES, (name.strip() for name in dialect.files.split(",")), strict=True))
    sheets = {names[table]: sheet_of(table, tables[table], dialect) for table in TABLES}
    if dialect.container in ("xlsx", "ods"):
        write = write_xlsx if dialect.container == "xlsx" else write_ods
        write(exports / f"salon.{dialect.container}", sheets)
        return folder
    texts = {f"{name}.csv": text_of(sheet, dialect) for name, sheet in sheets.items()}
    if dialect.container == "zip":
        with zipfile.ZipFile(exports / "export.zip", "w", zipfile.ZIP_DEFLATED) as archive:
            for name, content in texts.items():
                archive.writestr(f"2026/{name}", content)
        return folder
    for name, content in texts.items():
        (exports / name).write_bytes(content)
    return folder


def sheet_of(table: str, rows: list[Row], dialect: Dialect) -> Sheet:
    """Headings, then the cells as the dialect writes them, typed where its ways answer typed values."""
    if table == "bookings" and dialect.several:
        rows = list(_one_row_per_visit(rows, dialect.several))
    columns = _columns(table, dialect)
    headings = [dialect.headings.get(table, {}).get(column, column) for column in columns]
    body = [[_cell(table, column, _value(table, column, row, dialect), dialect) for column in columns] for row in rows]
    lines: Sheet = [[title] for title in dialect.above]
    lines += [headings]
    for number, cells in enumerate(body):
        if dialect.repeated_headings and number and number % 20 == 0:
            lines.append(headings)
        if dialect.blank_lines and number % 15 == 7:
            lines.append([""] * len(headings))
        lines.append(cells)
    if dialect.below and body:
        lines.append([dialect.words["total"]["total"], *[""] * (len(headings) - 2), dialect.money(Decimal("1234.5"))])
    return lines


def _columns(table: str, dialect: Dialect) -> list[str]:
    columns = COLUMNS[table].split()
    if dialect.apart and table in MOMENTS:
        day, clock = ("day", "start_time") if table == "bookings" else (MOMENTS[table], "time")
        place = columns.index(MOMENTS[table])
        columns[place : place + 1] = [day, clock]
    instead = dialect.instead.get(table, {})
    return [instead.get(column, column) for column in columns if instead.get(column, column)]


def _value(table: str, column: str, row: Row, dialect: Dialect) -> Any:
    """The Python value of a column, also of those that only some dialects have."""
    if column == "minutes":
        return Decimal(round((row["ends_at"] - row["starts_at"]).total_seconds() / 60))
    if column in ("start_time", "end_time"):
        return row[{"start_time": "starts_at", "end_time": "ends_at"}[column]].time()
    if column == "day":
        return row["starts_at"].date()
    if column == "time":
        return row[MOMENTS[table]].time()
    value = row[column]
    if dialect.apart and column == MOMENTS.get(table):
        return value.date()
    return dialect.renamed.get(value, value) if isinstance(value, str) else value


def _cell(table: str, column: str, value: Any, dialect: Dialect) -> Any:
    words = dialect.words.get(f"{table}.{column}", dialect.words.get(column, {}))
    if value is None:
        cell: Any = ""
    elif isinstance(value, bool):
        cell = dialect.words.get("yes_no", {"True": "yes", "False": "no"})[str(value)]
    elif isinstance(value, datetime):
        cell = dialect.moment(value)
    elif isinstance(value, date):
        cell = dialect.day(value)
    elif isinstance(value, time):
        cell = dialect.clock(value)
    elif isinstance(value, Decimal):
        of_column = {**dict.fromkeys(MONEY, dialect.money), **dict.fromkeys(MINUTES, dialect.minutes)}
        way = dialect.percent if column in PERCENT else of_column.get(column, dialect.number)
        cell = way(value)
    else:
        cell = words.get(value, value)
    return cell


def _one_row_per_visit(rows: list[Row], signs: tuple[str, ...]) -> Iterable[Row]:
    """Lines of one visit in one row: services in one cell, amounts added up."""
    visits: dict[str, list[Row]] = {}
    for row in rows:
        visits.setdefault(row["booking_id"], []).append(row)
    for number, lines in enumerate(visits.values()):
        sums = {name: sum((line[name] for line in lines), Decimal(0)) for name in ("price", "discount", "tip")}
        yield {**lines[0], **sums, "service": signs[number % len(signs)].join(line["service"] for line in lines)}


def text_of(sheet: Sheet, dialect: Dialect) -> bytes:
    text = io.StringIO()
    writer = csv.writer(text, delimiter=dialect.delimiter, lineterminator=dialect.newline, quoting=dialect.quoting)
    for cells in sheet:
        if len(cells) == 1 and str(cells[0]).startswith("sep="):
            text.write(f"{cells[0]}{dialect.newline}")
        elif any(cell != "" for cell in cells):
            writer.writerow(cells)
        else:
            text.write(dialect.newline)
    return text.getvalue().encode(dialect.encoding)
