"""Rewrite demo_data/exports/ and demo_data/planted_faults.csv, the same bytes every time: python -m demo_data.make"""

from datetime import date
from pathlib import Path

from demo_data.bowls import HEADING as LOG_HEADING
from demo_data.bowls import all_pours
from demo_data.days import FIRST_DAY, HERE
from demo_data.export import (
    STOCK_FILE,
    Table,
    bookings_known_on,
    by_quarter,
    by_year,
    move_rows,
    write_csv,
    write_moves,
)
from demo_data.faults import plant
from demo_data.life import Life
from demo_data.menu import menu_rows, product_rows
from demo_data.people import client_rows, make_clients
from demo_data.stock import make_moves
from demo_data.till import PAYMENT_HEADING, SALES_HEADING, make_till

EXPORTS = HERE / "exports"


def live() -> tuple[Life, dict[str, Table]]:
    """Live through the days; the booking files are made on the way, as each shows only what was known by then."""
    life = Life(make_clients())
    files: dict[str, Table] = {}

    def at_end_of_day(day: date) -> None:
        files.update(bookings_known_on(day, life.visits))

    life.run(at_end_of_day)
    return life, files


def all_files() -> tuple[dict[str, Table], list[list[object]], Table]:
    life, files = live()
    visits = [
        visit for visit in sorted(life.visits, key=lambda each: (each.starts_at, each.number)) if visit.day >= FIRST_DAY
    ]
    pours, till = all_pours(visits), make_till(visits)
    log = [(pour.day, pour.row()) for pour in pours if pour.logged]
    files |= by_quarter("product_log", LOG_HEADING, log, ";", False)
    files |= by_quarter("payments", PAYMENT_HEADING, [(each.day, each.row()) for each in till.payments], ";", True)
    files |= by_year("sales", SALES_HEADING, [(each.sold_at.date(), each.row()) for each in till.sales])
    files |= {
        "menu.csv": Table(menu_rows()),
        "products.csv": Table(product_rows()),
        "clients.csv": Table(client_rows(life.clients, {visit.client_id for visit in visits})),
    }
    moves = move_rows(make_moves(pours, till))
    return files, moves, plant(files, moves, life)


def write_all(folder: Path, faults_path: Path) -> None:
    files, moves, faults = all_files()
    folder.mkdir(parents=True, exist_ok=True)
    # A file from an earlier recipe would be loaded beside the new ones.
    for old in (*folder.glob("*.csv"), *folder.glob("*.xlsx")):
        old.unlink()
    for name, table in files.items():
        write_csv(folder / name, table)
    write_moves(folder / STOCK_FILE, moves)
    write_csv(faults_path, faults)


if __name__ == "__main__":
    write_all(EXPORTS, HERE / "planted_faults.csv")
