"""A salon of one spring for the tests of the accountant's folder, loaded once."""

import shutil
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from salons import load_unchecked, write_export, write_salon

from analytics.handover.accountant.period_names import named_period
from analytics.salon import Salon, open_salon

BOOKINGS = "booking_id,line,client_id,client,stylist,chair,starts_at,ends_at,status,service_id,price,tip\n"
MARCH = (
    BOOKINGS
    + "B1,1,C-17,Zuzanna Verzonnen,Mila,Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00,5\n"
    + "B2,1,C-18,Ottoline Bedacht,Mila,Chair 1,2026-03-04 10:00,2026-03-04 11:30,completed,S2,30.00,0\n"
)
APRIL = BOOKINGS + "B3,1,C-17,Zuzanna Verzonnen,Mila,Chair 1,2026-04-03 10:00,2026-04-03 11:30,completed,S1,60.00,0\n"
MAY = APRIL.replace("B3", "B4").replace("2026-04", "2026-05")
CLIENTS = (
    "client_id,client,phone,email,may_contact\n"
    "C-17,Zuzanna Verzonnen,+31 6 5550 1234,zuzanna@verzonnen.example,yes\n"
    "C-18,Ottoline Bedacht,+31 6 5550 9876,ottoline@bedacht.example,no\n"
)
PAYMENTS = (
    "paid_at,booking_id,method,amount,fee\n2026-03-03 11:30,B1,card,65.00,0.65\n"
    "2026-03-04 11:30,B2,cash,29.00,0\n2026-04-03 11:30,B3,card,60.00,0.60\n2026-05-03 11:30,B4,card,60.00,0.60\n"
)
ASIDE = "B9,1,C-18,Ottoline Bedacht,Mila,Chair 1,2026-03-99 10:00,2026-03-04 11:30,completed,S2,30.00,0\n"
OF_CLIENTS = ("Zuzanna", "Verzonnen", "Ottoline", "Bedacht", "5550", "verzonnen.example", "C-17", "C-18")
EXPORTS = {
    "bookings.csv": MARCH + ASIDE,
    "april.csv": APRIL,
    "may.csv": MAY,
    "clients.csv": CLIENTS,
    "payments.csv": PAYMENTS,
}


def salon_in(folder: Path, today: str = "2026-06-10") -> Salon:
    """A copy of the salon."""
    shutil.copytree(Path(_loaded().name) / "salon", folder, dirs_exist_ok=True)
    return open_salon(folder, date.fromisoformat(today))


@cache
def _loaded() -> TemporaryDirectory[str]:
    made = TemporaryDirectory()
    load_unchecked(write_salon(Path(made.name) / "salon", EXPORTS))
    return made


def again(salon: Salon, **exports: str) -> Salon:
    """The salon after further exports."""
    for name, content in exports.items():
        write_export(salon.folder, f"{name}.csv", content)
    load_unchecked(salon.folder)
    return open_salon(salon.folder, salon.as_of)


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


MARCH_2026 = named_period("2026-03")


def changed_march(price: str) -> str:
    """A later export of March in which B2 costs otherwise; it reaches further, so that it is the newer state."""
    rows = MARCH.replace("S2,30.00", f"S2,{price}")
    return rows + "B8,1,C-18,Ottoline Bedacht,Mila,Chair 1,2026-07-01 10:00,2026-07-01 11:30,booked,S2,30.00,0\n"
