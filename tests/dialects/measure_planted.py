"""Headings that say nothing over columns in any order, beside files that mislead: how many pairings are used, and how
many of them are wrong: python -m dialects.measure_planted [salons] [first seed].

Planted in each salon, by chance: a menu of another salon in place of its own, numbers of clients, visits and products
that collide, two columns of one type where one is dropped (start or end, price or discount, discount or tip, stylist or
chair, client's name or number, grams mixed or left). Not planted is a
diary of ends alone, as nothing in it tells that they are no starts.
"""

import sys
import tempfile
from collections import Counter
from pathlib import Path
from random import Random
from typing import Any

from analytics.definitions.tables import TABLES
from analytics.intake.evidence.decide import decide
from analytics.intake.reading.find import find_exports
from analytics.intake.reading_plan import Sheets
from dialects.measure_headings import SETTINGS, Rows, exports
from dialects.small import Salon, small_salon
from dialects.way import text

LIKE = {
    "bookings": (
        ("starts_at", "ends_at"),
        ("price", "discount"),
        ("discount", "tip"),
        ("stylist", "chair"),
        ("client_id", "client"),
        ("booking_id", "client_id"),
        ("starts_at", "booked_on"),
        ("line", "booking_id"),
    ),
    "product_log": (("mixed_g", "left_g"), ("booking_id", "product_id")),
    "payments": (("booking_id", "amount"),),
    "services": (("hands_on_min", "processing_min"), ("service_id", "service"), ("price", "tax_rate")),
    "clients": (("client_id", "client"), ("phone", "email")),
    "products": (("product_id", "product"), ("pack_g", "pack_cost")),
}
"""By table: pairs of columns of like type."""


def misled(tables: dict[str, Rows], chance: Random, salon: Salon) -> dict[str, Rows]:
    """The exports with what misleads planted in them; the first row of each still names the columns truly."""
    if chance.random() < 0.4:
        tables["services"] = _foreign_menu(tables["services"], chance)
    if chance.random() < 0.4:
        tables = _colliding(tables)
    if chance.random() < 0.5:
        tables["bookings"] = _with_day_made(tables["bookings"], salon)
    for table, pairs in LIKE.items():
        for pair in pairs:
            if chance.random() < 0.25:
                tables[table] = _without(tables[table], chance.choice(pair))
    if "starts_at" not in tables["bookings"][0]:
        tables["bookings"] = _without(tables["bookings"], "ends_at")
    return {
        name: _shuffled(rows, chance) for name, rows in tables.items() if name == "bookings" or chance.random() < 0.7
    }


def _foreign_menu(rows: Rows, chance: Random) -> Rows:
    """Another salon's services under numbers of the same form, some of them the same, at other prices."""
    other: Rows = [rows[0]]
    for number, row in enumerate(rows[1:], start=chance.randint(1, 4)):
        cells = dict(zip(rows[0], row, strict=True))
        cells |= {
            "service_id": f"S{number:02}",
            "service": f"{cells['service']} long",
            "price": f"{float(cells['price']) + 7.5:.2f}",
        }
        other.append([cells[name] for name in rows[0]])
    return other


def _colliding(tables: dict[str, Rows]) -> dict[str, Rows]:
    """Clients are numbered as visits are, and products as services are."""

    def renamed(cell: Any, column: str) -> Any:
        if column == "client_id":
            return str(20000 + int(str(cell)[1:]) - 1000)
        return f"S{sum(map(ord, str(cell))) % 90:02}" if column == "product_id" else cell

    return {
        name: [
            rows[0],
            *([renamed(cell, column) for cell, column in zip(row, rows[0], strict=True)] for row in rows[1:]),
        ]
        for name, rows in tables.items()
    }


def _with_day_made(rows: Rows, salon: Salon) -> Rows:
    made = {v.id: f"{v.booked_on:%Y-%m-%d}" for v in salon.visits}
    at = rows[0].index("booking_id")
    return [[*rows[0], "booked_on"], *([*row, made[row[at]]] for row in rows[1:])]


def _without(rows: Rows, column: str) -> Rows:
    if column not in rows[0]:
        return rows
    at = rows[0].index(column)
    return [[cell for place, cell in enumerate(row) if place != at] for row in rows]


def _shuffled(rows: Rows, chance: Random) -> Rows:
    order = chance.sample(range(len(rows[0])), len(rows[0]))
    return [[row[at] for at in order] for row in rows]


def pairings(seed: int) -> list[tuple[str, str, str, str]]:
    """Of one salon the pairings used: true table and column, read table and column."""
    chance = Random(seed)
    salon = small_salon(seed, chance.choice(("en", "nl", "de", "fr", "it", "es")))
    tables = misled(exports(salon), chance, salon)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for number, (_, rows) in enumerate(tables.items(), start=1):
            text(folder, f"file {number}.csv", [[f"Field {at}" for at in range(len(rows[0]))], *rows[1:]], ";")
        reader = Sheets(SETTINGS)
        decided = decide([sheet for export in find_exports(folder) for sheet in reader.of(export)], SETTINGS)
    used = []
    for number, (table, rows) in enumerate(tables.items(), start=1):
        one = decided.get(f"file {number}.csv")
        if one and one.whole:
            used += [(table, rows[0][at], one.reading.table.name, column) for column, at in one.reading.places.items()]
    return used


def right(table: str, column: str, read_table: str, read_column: str) -> bool:
    """Whether it is what it is read as; a day with its time is read as either day or moment."""
    assert read_table in TABLES
    return table == read_table and column == read_column


def main() -> None:
    salons, first = (int(word) for word in [*sys.argv[1:], "40", "100"][:2])
    used, wrong = 0, Counter[tuple[str, str, str, str]]()
    for seed in range(first, first + salons):
        found = pairings(seed)
        used += len(found)
        wrong.update(one for one in found if not right(*one))
    for one, count in wrong.most_common():
        print(count, *one)
    print(f"{salons} salons: {used} pairings used, {wrong.total()} wrong")


if __name__ == "__main__":
    main()
