"""A dozen faults planted in the exports, each listed in planted_faults.csv so that loading can be checked against it.

A row that cannot be used is an extra row, so that the salon without it is whole; a row that can be used though odd is
either an existing row with one cell changed or an extra one. All lie where neighbouring files do not overlap.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from demo_data.diary import Visit
from demo_data.export import BOOKING_HEADING, STOCK_FILE, WEEK_EXPORT_DAY, WEEK_FIRST_DAY, Quarter, Table
from demo_data.export import QUARTERS as _QUARTERS
from demo_data.life import Life
from demo_data.menu import RESETS_ROOTS

FAULT_HEADING = ["file", "row", "column", "value", "code"]
QUARTERS: dict[str, Quarter] = {quarter.name: quarter for quarter in _QUARTERS}


@dataclass
class Fault:
    file: str
    row: Sequence[object]  # the very row object, found again by identity once all faults are in
    column: str
    value: str
    code: str


class Planter:
    def __init__(self, files: dict[str, Table], moves: list[list[object]]) -> None:
        self.files, self.moves = files, moves
        self.faults: list[Fault] = []
        self._extra_bookings = 0

    def note(self, file: str, row: Sequence[object], column: str, value: str, code: str) -> None:
        self.faults.append(Fault(file, row, column, value, code))

    def first_after(self, file: str, moment: str, column: str) -> int:
        rows = self.files[file].rows
        place = rows[0].index(column)
        return next(number for number, row in enumerate(rows[1:], start=1) if row[place] >= moment)

    def copy_before(self, file: str, moment: str, moment_column: str, changes: dict[str, str]) -> list[str]:
        """Put a changed copy of the first row after a moment in front of it."""
        rows = self.files[file].rows
        number = self.first_after(file, moment, moment_column)
        row = list(rows[number])
        for column, value in changes.items():
            row[rows[0].index(column)] = value
        rows.insert(number, row)
        return row

    def booking(self, quarter: str, moment: str, column: str, value: str, code: str, **others: str) -> None:
        """An extra visit of one line with one cell spoilt."""
        self._extra_bookings += 1
        file = f"bookings_{quarter}.csv"
        whole = {
            "booking_id": f"B9{self._extra_bookings:04d}",
            "line": "1",
            "status": "completed",
            "tip": "",
            "service_id": "S07",
            "service": "Cut",
            "regrowth_mm": "",
            "discount": "",
        }
        row = self.copy_before(file, moment, "starts_at", whole | others | {column: value})
        self.note(file, row, column, value, code)

    def table(self) -> Table:
        rows = []
        for fault in self.faults:
            held = self.moves if fault.file == STOCK_FILE else self.files[fault.file].rows
            number = next(place for place, row in enumerate(held, start=1) if row is fault.row)
            rows.append([fault.file, str(number), fault.column, fault.value, fault.code])
        return Table([FAULT_HEADING, *sorted(rows, key=lambda row: (row[0], int(row[1])))])


def _bookings(planter: Planter) -> None:
    planter.booking("2024-Q2", "2024-05-22", "starts_at", "2024-06-31 10:15", "bad_date")
    planter.booking("2024-Q3", "2024-08-21", "price", "forty", "bad_number")
    planter.booking("2025-Q1", "2025-02-12", "client_id", "", "missing_value")
    planter.booking("2025-Q3", "2025-08-20", "status", "perhaps", "unknown_word")
    planter.booking("2025-Q4", "2025-11-05", "service_id", "S99", "unknown_service", service="Moonlight rinse")
    planter.booking("2026-Q1", "2026-02-10", "ends_at", "2026-02-10 07:45", "end_before_start")
    heading = list(BOOKING_HEADING)
    rows = planter.files["bookings_2026-Q2.csv"].rows
    rows.insert(planter.first_after("bookings_2026-Q2.csv", "2026-05-12", "starts_at"), heading)
    planter.note("bookings_2026-Q2.csv", heading, "booking_id", "booking_id", "repeated_heading")


def _closed_day(planter: Planter, visit: Visit) -> None:
    file = "bookings_2025-Q4.csv"
    row = next(row for row in planter.files[file].rows if row[0] == visit.booking_id)
    planter.note(file, row, "starts_at", row[BOOKING_HEADING.index("starts_at")], "outside_hours")


def _root_visits(visits: list[Visit]) -> dict[int, list[Visit]]:
    by_client: dict[int, list[Visit]] = {}
    for visit in sorted(visits, key=lambda each: each.starts_at):
        roots = any(line.service_id in RESETS_ROOTS for line in visit.lines)
        if roots and visit.status == "completed" and visit.charged_cents > 0:
            by_client.setdefault(visit.client.number, []).append(visit)
    return by_client


def _in_week_file(day: date) -> bool:
    return WEEK_FIRST_DAY <= day <= WEEK_EXPORT_DAY


def _impossible_regrowth(planter: Planter, visits: list[Visit]) -> None:
    """95 mm after some forty days, at a visit no earlier export could have held."""
    file, known_from = "bookings_2025-Q2.csv", QUARTERS["2025-Q1"].exported_on
    for root_visits in _root_visits(visits).values():
        for before, visit in itertools.pairwise(root_visits):
            measured = [place for place, line in enumerate(visit.lines, start=1) if line.regrowth_mm]
            apart = (visit.day - before.day).days
            if (
                measured
                and 36 <= apart <= 45
                and visit.booked_on > known_from
                and known_from < visit.day < date(2025, 6, 20)
                and not _in_week_file(visit.day)
            ):
                key = [visit.booking_id, str(measured[0])]
                row = next(row for row in planter.files[file].rows if row[:2] == key)
                row[BOOKING_HEADING.index("regrowth_mm")] = "95"
                planter.note(file, row, "regrowth_mm", "95", "impossible_regrowth")
                return
    raise LookupError("no visit suits the impossible regrowth: choose other days")


def _product_log(planter: Planter) -> None:
    file = "product_log_2024-Q3.csv"
    row = planter.copy_before(
        file,
        "2024-08-15",
        "logged_at",
        {"product_id": "P97", "product": "Sample sachet", "mixed_g": "10", "left_g": ""},
    )
    planter.note(file, row, "product_id", "P97", "unknown_product")
    file = "product_log_2025-Q2.csv"
    row = planter.copy_before(
        file,
        "2025-05-14",
        "logged_at",
        {"product_id": "P41", "product": "Bonding additive", "mixed_g": "5", "left_g": ""},
    )
    row.append("mixed again, see notebook")
    planter.note(file, row, "", row[-1], "ragged_row")
    file = "product_log_2026-Q1.csv"
    rows = planter.files[file].rows
    number = planter.first_after(file, "2026-02-12", "logged_at")
    row = next(row for row in rows[number:] if row[7] and int(row[6]) >= 20)
    row[7] = str(int(row[6]) + 12)
    planter.note(file, row, "left_g", row[7], "out_of_range")


def _money_files(planter: Planter) -> None:
    file = "payments_2024-Q4.csv"
    rows = planter.files[file].rows
    cents = sum(int(row[3].replace(",", "")) for row in rows[1:])
    total = ["Total", "", "", f"{cents // 100},{cents % 100:02d}", ""]
    rows.append(total)
    planter.note(file, total, "paid_at", "Total", "total_line")
    row = planter.copy_before("sales_2025.csv", "2025-07-03", "sold_at", {"quantity": "one"})
    planter.note("sales_2025.csv", row, "quantity", "one", "bad_number")


def _stock(planter: Planter) -> None:
    number = next(
        place for place, row in enumerate(planter.moves) if isinstance(row[0], date) and row[0] >= date(2025, 3, 1)
    )
    row = list(planter.moves[number])
    row[4] = "three"
    planter.moves.insert(number, row)
    planter.note(STOCK_FILE, row, "packs", "three", "bad_number")


def plant(files: dict[str, Table], moves: list[list[object]], life: Life) -> Table:
    planter = Planter(files, moves)
    _bookings(planter)
    if life.on_closed_day is None:
        raise LookupError("the visit on a closed day was never made")
    _closed_day(planter, life.on_closed_day)
    _impossible_regrowth(planter, life.visits)
    _product_log(planter)
    _money_files(planter)
    _stock(planter)
    return planter.table()
