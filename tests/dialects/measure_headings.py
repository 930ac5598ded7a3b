"""How many of sixty fresh headings are read right by words and values together:
python -m dialects.measure_headings [seed] [later].

later: sixty more, written after the others had been looked at.
Each stands in for its column in an export that otherwise has the contract's headings, beside the salon's other exports.
"""

import csv
import sys
import tempfile
from collections import Counter
from pathlib import Path
from typing import Any

from analytics.intake.evidence.decide import decide
from analytics.intake.reading.find import find_exports
from analytics.intake.reading_plan import Sheets
from analytics.settings import parse_settings
from dialects.small import COLOURS, DEVELOPERS, Salon, small_salon
from dialects.way import text

SIXTY = Path(__file__).with_name("sixty_headings.csv")
LATER = Path(__file__).with_name("sixty_later_headings.csv")
SETTINGS = parse_settings('[salon]\nname = "Salon Proefdraad (invented)"\n')

Rows = list[list[Any]]


def exports(salon: Salon) -> dict[str, Rows]:
    """The salon's tables under the contract's headings."""
    columns = "booking_id|line|client_id|client|stylist|chair|starts_at|ends_at|status|service_id|price|discount|tip"
    bookings: Rows = [columns.split("|")]
    log: Rows = [["logged_at", "booking_id", "product_id", "mixed_g", "left_g"]]
    payments: Rows = [["paid_at", "booking_id", "method", "amount"]]
    for v in salon.visits:
        chair = f"Chair {1 + ('Wieke', 'Thyra').index(v.stylist)}"
        for number, one in enumerate(v.lines, start=1):
            who = [f"K{1000 + v.client}", salon.name(v.client), v.stylist, chair]
            when = [f"{v.starts:%Y-%m-%d %H:%M}", f"{v.ends:%Y-%m-%d %H:%M}", v.status]
            tip = v.tip if number == 1 else 0
            bookings.append([v.id, number, *who, *when, one.service.id, one.price, one.discount, tip])
        for bowl in v.bowls:
            log.append(
                [
                    f"{bowl.at:%Y-%m-%d %H:%M}",
                    v.id,
                    f"P-{bowl.product}",
                    bowl.mixed,
                    "" if bowl.left is None else bowl.left,
                ]
            )
        if v.status == "completed":
            payments.append([f"{v.ends:%Y-%m-%d %H:%M}", v.id, v.method, v.paid])
    services: Rows = [["service_id", "service", "kind", "price", "tax_rate", "hands_on_min", "processing_min"]]
    services += [[s.id, s.name, s.kind, s.price, 21, s.hands_on, s.processing] for s in salon.services]
    products: Rows = [["product_id", "product", "kind", "pack_g", "pack_cost"]]
    products += [[f"P-{name}", name, "colour", 60, f"{6.5 + at:.2f}"] for at, name in enumerate(COLOURS)]
    products += [[f"P-{name}", name, "developer", 1000, f"{9.25 + at:.2f}"] for at, name in enumerate(DEVELOPERS)]
    clients: Rows = [["client_id", "client", "phone", "email", "may_contact"]]
    for at in range(len(salon.clients)):
        clients.append(
            [f"K{1000 + at}", salon.name(at), f"+31 6 55{at:06}", f"c{at}@salon.example", "yes" if at % 3 else "no"]
        )
    return {"bookings": bookings, "services": services, "product_log": log, "products": products,
            "clients": clients, "payments": payments}  # fmt: skip


def read_with(tables: dict[str, Rows], table: str, column: str, heading: str) -> tuple[str, str | None]:
    """The table and column that the heading is read as in place of the column."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for each, rows in tables.items():
            first = [heading if (each, one) == (table, column) else one for one in rows[0]]
            text(folder, f"{'export' if each == table else each}.csv", [first, *rows[1:]], ";")
        reader = Sheets(SETTINGS)
        decided = decide([sheet for export in find_exports(folder) for sheet in reader.of(export)], SETTINGS)
    reading = decided["export.csv"].reading
    place = tables[table][0].index(column)
    return reading.table.name, next((one for one, at in reading.places.items() if at == place), None)


def main() -> None:
    seeds = [int(word) for word in sys.argv[1:] if word.isdigit()] or [11]
    tables = exports(small_salon(seeds[0], "en"))
    counts: Counter[str] = Counter()
    with (LATER if "later" in sys.argv else SIXTY).open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            table, column = read_with(tables, row["table"], row["column"], row["heading"])
            right = table == row["table"] and column in (
                row["column"],
                "product" if row["column"] == "product_id" else None,
            )
            kind = "open" if column is None else "right" if right else "WRONG"
            counts[kind] += 1
            if kind != "right":
                print(kind, row["table"], repr(row["heading"]), row["column"], "->", table, column)
    print(dict(counts))


if __name__ == "__main__":
    main()
