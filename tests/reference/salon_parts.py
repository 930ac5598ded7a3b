"""What the invented salons have in common: writing tables, planning visits, mixing bowls, taking payments.

Cells are made as the text of an export: a dict of column to text per row. Everything is drawn from one random.Random,
so that the same seed gives the same bytes.
"""

import csv
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from decimal import Decimal
from pathlib import Path
from random import Random

Cells = dict[str, str]

COLOUR_KINDS = {"root_touch_up", "full_colour", "lightening", "toner"}
PAYMENT_METHODS = ["card", "card", "card", "cash", "bank", "voucher", "other"]


@dataclass
class Service:
    """One line of a menu; an empty text is an empty cell."""

    service_id: str
    name: str
    kind: str
    price: Decimal
    tax_rate: str
    hands_on_min: str
    processing_min: str = ""
    resets_roots: str = ""

    def cells(self, valid_from: str = "") -> Cells:
        return {
            "service_id": self.service_id, "service": self.name, "kind": self.kind, "price": str(self.price),
            "tax_rate": self.tax_rate, "hands_on_min": self.hands_on_min, "processing_min": self.processing_min,
            "resets_roots": self.resets_roots, "valid_from": valid_from,
        }  # fmt: skip

    def resets(self) -> bool:
        if self.resets_roots:
            return self.resets_roots == "yes"
        return self.kind in ("root_touch_up", "full_colour")


@dataclass
class Visit:
    """One visit of a client: what it was when exported last, line by line."""

    booking_id: str
    client_id: str
    starts_at: datetime
    services: list[Service]
    stylist: str = ""
    status: str = "completed"
    booked_on: date = date.min
    rows: list[Cells] = field(default_factory=list)


def write_table(path: Path, rows: Iterable[Cells], columns: str, separator: str = ",") -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, columns.split(), restval="", extrasaction="ignore", delimiter=separator)
        writer.writeheader()
        writer.writerows(rows)


def at_text(moment: datetime) -> str:
    return moment.strftime("%Y-%m-%d %H:%M")


def moment_of(cells: Cells, column: str) -> datetime:
    return datetime.fromisoformat(cells[column])


def days_from(first: date, count: int) -> list[date]:
    return [first + timedelta(days=number) for number in range(count)]


def between(rows: list[Cells], column: str, begin: date, end: date) -> list[Cells]:
    """The rows whose day lies in the half-open range, as one export has them."""
    return [row for row in rows if begin.isoformat() <= row[column][:10] < end.isoformat()]


def plan_visits(random: Random, days: list[date], menu: list[Service], lines: int) -> list[tuple[date, list[Service]]]:
    """Days and services of so many visits that their lines reach the number asked for, in the order of days."""
    planned = []
    planned_lines = 0
    while planned_lines < lines:
        wanted = min(random.choice([1, 1, 2, 2, 3, 4]), lines - planned_lines)
        planned.append((random.choice(days), random.sample(menu, wanted)))
        planned_lines += wanted
    return sorted(planned, key=lambda plan: plan[0])


def client_ids(random: Random, lines: int) -> list[str]:
    """Few enough clients that they come back some eight times."""
    count = max(8, lines // 16)
    return [f"C{number:05d}" for number in random.sample(range(1, 10 * count), count)]


def draw_status(random: Random) -> str:
    return random.choices(["completed", "cancelled", "no_show"], [91, 5, 4])[0]


def mix_bowls(random: Random, visits: list[Visit], products: list[tuple[str, str]], by_name: bool) -> list[Cells]:
    """A log with holes: lines without a bowl, bowls without a line, bowls nobody weighed afterwards."""
    rows = []
    for visit in visits:
        if visit.status != "completed":
            continue
        for service in visit.services:
            if service.kind not in COLOUR_KINDS or random.random() < 0.2:
                continue
            moment = visit.starts_at + timedelta(minutes=random.randint(5, 40))
            for product_id, product in random.sample(products, 2):
                mixed_g = random.randint(20, 90)
                left_g = str(random.randint(0, mixed_g // 2)) if random.random() < 0.7 else ""
                row = {
                    "logged_at": at_text(moment), "booking_id": visit.booking_id, "service_id": service.service_id,
                    "stylist": visit.stylist, "mixed_g": f"{mixed_g}.{random.randint(0, 9)}", "left_g": left_g,
                }  # fmt: skip
                row.update({"product": product} if by_name else {"product_id": product_id})
                # Typed over on Sunday: some rows have lost their visit or their service.
                for column in ("booking_id", "service_id"):
                    if random.random() < 0.06:
                        row[column] = ""
                rows.append(row)
    return sorted(rows, key=lambda row: row["logged_at"])


def take_payments(random: Random, visits: list[Visit], step: Decimal, fee_percent: Decimal) -> list[Cells]:
    """One payment per completed visit, refunds as negative ones; a fee on some methods only."""
    rows = []
    for visit in visits:
        if visit.status != "completed":
            continue
        amount = sum((service.price for service in visit.services), Decimal(0))
        if random.random() < 0.03:
            amount = -amount
        method = random.choice(PAYMENT_METHODS)
        fee = (abs(amount) * fee_percent / 100).quantize(step) if method == "card" else ""
        paid_at = visit.starts_at + timedelta(minutes=random.randint(30, 150))
        rows.append(
            {
                "paid_at": at_text(paid_at),
                "booking_id": visit.booking_id,
                "method": method,
                "amount": str(amount),
                "fee": str(fee),
            }
        )
    return sorted(rows, key=lambda row: row["paid_at"])
