"""Clients with root visits, and the figure `roots` of them."""

from datetime import date, timedelta

import polars as pl
from frames import Row, bookings, services, visit, work_out

MENU = services(
    {"service_id": "ROOTS", "kind": "root_touch_up"},
    {"service_id": "COLOUR", "kind": "full_colour"},
    {"service_id": "FOILS", "kind": "lightening"},
    {"service_id": "PERM", "kind": "treatment", "resets_roots": True},
)


def coloured(booking_id: str, day: str, service: str = "ROOTS", **rest: object) -> list[Row]:
    return visit(booking_id, f"{day} 10:00", 90, (service, "60"), **rest)


def roots(*visits: list[Row], as_of: str = "2026-04-01", **given: object) -> pl.DataFrame:
    return work_out("roots", bookings=bookings(*visits), services=MENU, as_of=as_of, **given)


def rhythm(client_id: str, first: str, *gaps: int, **rest: object) -> list[Row]:
    """Root visits with these days between them."""
    day, rows = date.fromisoformat(first), coloured(f"{client_id}0", first, client_id=client_id, **rest)
    for number, gap in enumerate(gaps, start=1):
        day += timedelta(days=gap)
        rows += coloured(f"{client_id}{number}", f"{day}", client_id=client_id, **rest)
    return rows
