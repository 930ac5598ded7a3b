"""Headings that say nothing over columns in any order, beside files that mislead: how many pairings are used, and how
many of them are wrong: python -m dialects.measure_planted [salons] [first seed].

Planted in each salon, by chance: a menu of another salon in place of its own, numbers of clients, visits and products
that collide, two columns of one type where one is dropped (start or end, price or discount, discount or tip, stylist or
chair, client's name or number, grams mixed or left). Not planted is a
diary of ends alone, as nothing in it tells that they are no starts.
"""

import sys
from collections import Counter
from pathlib import Path
from random import Random
from typing import Any

from analytics.definitions.tables import TABLES
from analytics.intake.evidence.decide import Decided, decide
from analytics.intake.meaning.sheets import Sheet
from analytics.intake.reading.find import Export
from analytics.intake.reading.split import split_records
from analytics.intake.shapes.laid_out import laid_out
from dialects.measure_headings import SETTINGS, Rows, exports
from dialects.small import Salon, small_salon

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
SOME_DAYS = 45  # of the small salon
EXCHANGED_EVERY = 5  # salons


def misled(tables: dict[str, Rows], chance: Random, salon: Salon) -> tuple[dict[str, Rows], int]:
    """The exports with what misleads planted in them, and in how many ways; the first row of each still names the
    columns truly."""
    planted = 0
    if chance.random() < 0.4:
        tables["services"], planted = _foreign_menu(tables["services"], chance), planted + 1
    if chance.random() < 0.4:
        tables, planted = _colliding(tables), planted + 1
    if chance.random() < 0.5:
        tables["bookings"], planted = _with_day_made(tables["bookings"], salon), planted + 1
    for table, pairs in LIKE.items():
        for pair in pairs:
            if chance.random() < 0.25:
                tables[table], planted = _without(tables[table], chance.choice(pair)), planted + 1
    if "starts_at" not in tables["bookings"][0]:
        tables["bookings"] = _without(tables["bookings"], "ends_at")
    kept = {
        name: _shuffled(rows, chance) for name, rows in tables.items() if name == "bookings" or chance.random() < 0.7
    }
    return kept, planted


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


def pairings(seed: int) -> tuple[list[tuple[str, str, str, str]], int]:
    """Of one salon the pairings used (true table and column, read table and column), and how many ways to go wrong were
    planted."""
    chance = Random(seed)
    salon = small_salon(seed, chance.choice(("en", "nl", "de", "fr", "it", "es")), SOME_DAYS)
    tables, planted = misled(exports(salon), chance, salon)
    named = {
        f"file {number}.csv": [[f"Field {at}" for at in range(len(rows[0]))], *rows[1:]]
        for number, (_, rows) in enumerate(tables.items(), start=1)
    }
    decided = decided_of(named)
    used = []
    for name, (table, rows) in zip(named, tables.items(), strict=True):
        one = decided.get(name)
        if one and one.whole:
            used += [(table, rows[0][at], one.reading.table.name, column) for column, at in one.reading.places.items()]
    return used, planted


def decided_of(files: dict[str, Rows]) -> dict[str, Decided]:
    """What files of these rows are read as, without writing them."""
    export = Export("x.csv", Path("x.csv"))
    sheets = [
        laid
        for name, rows in files.items()
        for laid in laid_out(Sheet(name, split_records(_as_text(rows), ";"), export))
    ]
    return decide(sheets, SETTINGS)


def _as_text(rows: Rows) -> str:
    return "".join(";".join(map(str, row)) + "\n" for row in rows)


TOLD = {
    "bookings": (
        ("starts_at", "ends_at"),
        ("price", "discount"),
        ("price", "tip"),
        ("stylist", "client"),
        ("client", "service"),
        ("stylist", "service"),
    ),
    "product_log": (("mixed_g", "left_g"),),
    "services": (("price", "tax_rate"),),
}
"""By table: pairs of columns of which values tell that they were exchanged under their headings."""


def exchanges(seed: int) -> list[tuple[str, str, str, bool]]:
    """Of one salon, each of these pairs exchanged under true headings in turn: table, columns, whether it is used as it
    stands, without a question."""
    salon = small_salon(seed, Random(seed).choice(("en", "nl", "de", "fr", "it", "es")), SOME_DAYS)
    found = []
    names = {one.id: one.name for one in salon.services}
    for table, pairs in TOLD.items():
        for one, other in pairs:
            tables = exports(salon)
            tables["bookings"] = [
                ["service" if cell == "service_id" else names.get(str(cell), cell) for cell in row]
                for row in tables["bookings"]
            ]
            swap = {one: other, other: one}
            rows = tables[table]
            tables[table] = [[swap.get(name, name) for name in rows[0]], *rows[1:]]
            read = decided_of({f"{name}.csv": rows for name, rows in tables.items()})[f"{table}.csv"]
            found.append((table, one, other, read.whole and not read.exchanged))
    return found


def right(table: str, column: str, read_table: str, read_column: str) -> bool:
    """Whether it is what it is read as; a day with its time is read as either day or moment."""
    assert read_table in TABLES
    return table == read_table and column == read_column


def main() -> None:
    salons, first = (int(word) for word in [*sys.argv[1:], "40", "100"][:2])
    used, planted, wrong = 0, 0, Counter[tuple[str, str, str, str]]()
    kept, swapped = Counter[tuple[str, str, str]](), 0
    for seed in range(first, first + salons):
        found, ways = pairings(seed)
        used, planted = used + len(found), planted + ways
        wrong.update(one for one in found if not right(*one))
        for table, one, other, as_it_stands in exchanges(seed) if seed % EXCHANGED_EVERY == 0 else []:
            swapped += 1
            kept[table, one, other] += as_it_stands
    for one, count in wrong.most_common():
        print(count, *one)
    print(f"{salons} salons: {planted} planted, {used} pairings used, {wrong.total()} wrong")
    print(f"{swapped} exchanged under their headings, {kept.total()} used as they stand: {dict(+kept)}")


if __name__ == "__main__":
    main()
