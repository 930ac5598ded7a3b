"""The exports as they were made: who exported what on which day, and how each kind of file is written."""

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path

import xlsxwriter

from demo_data.days import CHAIRS, FIRST_DAY, LAST_DAY
from demo_data.diary import Visit
from demo_data.menu import PRODUCTS, money, service_name
from demo_data.stock import HEADING as MOVE_HEADING
from demo_data.stock import Move

BOOKING_HEADING = [
    "booking_id",
    "line",
    "client_id",
    "stylist",
    "chair",
    "starts_at",
    "ends_at",
    "status",
    "service_id",
    "service",
    "price",
    "discount",
    "tip",
    "booked_on",
    "regrowth_mm",
]
STOCK_FILE = "deliveries and counts.xlsx"
# The owner exports some days after the quarter has ended and reaches back some days, to be sure nothing is missed.
_DAYS_LATE = (4, 2, 3, 1, 5, 3, 2, 4, 6, 1, 3, 2)
_DAYS_BACK = (0, 6, 4, 7, 5, 4, 6, 3, 7, 5, 4, 6, 5)
WEEK_FIRST_DAY = date(2025, 5, 19)
WEEK_EXPORT_DAY = date(2025, 5, 26)
WEEK_FILES = ("bookings week 21.csv", "bookings week 21 (1).csv")


@dataclass
class Table:
    """One file to be: heading first, every cell as text."""

    rows: list[list[str]]
    delimiter: str = ","
    with_bom: bool = False


@dataclass(frozen=True)
class Quarter:
    name: str
    reaches_back_to: date
    exported_on: date


def _quarters() -> list[Quarter]:
    quarters: list[Quarter] = []
    first = date(2023, 10, 1)
    while first <= LAST_DAY:
        after = date(first.year + (first.month + 2) // 12, (first.month + 2) % 12 + 1, 1)
        count = len(quarters)
        late = _DAYS_LATE[count] if count < len(_DAYS_LATE) else 0
        quarters.append(
            Quarter(
                f"{first.year}-Q{(first.month + 2) // 3}",
                max(FIRST_DAY, first - timedelta(days=_DAYS_BACK[count])),
                min(LAST_DAY, after + timedelta(days=late)),
            )
        )
        first = after
    return quarters


QUARTERS = _quarters()


def booking_rows(visits: Iterable[Visit]) -> list[list[str]]:
    rows = []
    for visit in sorted(visits, key=lambda each: (each.starts_at, each.number)):
        for place, line in enumerate(visit.lines, start=1):
            rows.append(
                [
                    visit.booking_id,
                    str(place),
                    visit.client_id,
                    visit.stylist.name,
                    CHAIRS[visit.chair],
                    visit.starts_at.strftime("%Y-%m-%d %H:%M"),
                    visit.ends_at.strftime("%Y-%m-%d %H:%M"),
                    visit.status,
                    line.service_id,
                    service_name(line.service_id, visit.day),
                    money(line.price_cents),
                    money(line.discount_cents) if line.discount_cents else "",
                    money(line.tip_cents) if line.tip_cents else "",
                    visit.booked_on.isoformat(),
                    line.regrowth_mm,
                ]
            )
    return rows


def bookings_known_on(day: date, visits: list[Visit]) -> dict[str, Table]:
    """The booking files made on the evening of a day, with the visits ahead as they stood then."""
    files = {}
    for quarter in QUARTERS:
        if quarter.exported_on == day:
            seen = [visit for visit in visits if visit.day >= quarter.reaches_back_to]
            files[f"bookings_{quarter.name}.csv"] = Table([BOOKING_HEADING, *booking_rows(seen)])
    if day == WEEK_EXPORT_DAY:
        week = [visit for visit in visits if WEEK_FIRST_DAY <= visit.day < WEEK_FIRST_DAY + timedelta(days=7)]
        for name in WEEK_FILES:
            files[name] = Table([BOOKING_HEADING, *booking_rows(week)])
    return files


def by_quarter(
    name: str, heading: list[str], dated_rows: list[tuple[date, list[str]]], delimiter: str, with_bom: bool
) -> dict[str, Table]:
    """One file per quarter; neighbours share the days between one reaching back and the other being late."""
    files = {}
    for quarter in QUARTERS:
        # Copies, so that a fault planted in one file does not appear in its neighbour.
        rows = [list(row) for day, row in dated_rows if quarter.reaches_back_to <= day <= quarter.exported_on]
        files[f"{name}_{quarter.name}.csv"] = Table([heading, *rows], delimiter, with_bom)
    return files


def by_year(name: str, heading: list[str], dated_rows: list[tuple[date, list[str]]]) -> dict[str, Table]:
    years = sorted({day.year for day, _ in dated_rows})
    return {
        f"{name}_{year}.csv": Table([heading] + [row for day, row in dated_rows if day.year == year]) for year in years
    }


def move_rows(moves: list[Move]) -> list[list[object]]:
    rows: list[list[object]] = [list(MOVE_HEADING)]
    for move in moves:
        cost = None if move.unit_cost_cents is None else move.unit_cost_cents / 100
        rows.append(
            [move.day, move.product_id, PRODUCTS[move.product_id].product, move.movement, move.packs, move.grams, cost]
        )
    return rows


def write_csv(path: Path, table: Table) -> None:
    text = io.StringIO(newline="")
    csv.writer(text, delimiter=table.delimiter, lineterminator="\n").writerows(table.rows)
    path.write_bytes(text.getvalue().encode("utf-8-sig" if table.with_bom else "utf-8"))


def write_moves(path: Path, rows: list[list[object]]) -> None:
    """True dates and numbers, and a fixed creation date so that the same rows give the same bytes."""
    book = xlsxwriter.Workbook(str(path), {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False})
    book.set_properties({"created": datetime(2026, 10, 31, 18, 0), "title": "Deliveries and counts"})
    sheet = book.add_worksheet("Deliveries and counts")
    dates, costs = book.add_format({"num_format": "yyyy-mm-dd"}), book.add_format({"num_format": "0.00"})
    for row_number, row in enumerate(rows):
        for column, cell in enumerate(row):
            if isinstance(cell, date):
                sheet.write_datetime(row_number, column, datetime(cell.year, cell.month, cell.day), dates)
            elif isinstance(cell, int | float):
                sheet.write_number(row_number, column, cell, costs if column == 6 else None)
            elif cell is not None:
                sheet.write_string(row_number, column, str(cell))
    sheet.set_column(0, 6, 14)
    sheet.set_column(2, 2, 34)
    book.close()
