"""The figures of one month, for the tests of them."""

from decimal import Decimal

import polars as pl
from frames import (
    Row,
    bookings,
    services,
    visit,
    work_out,
)

MENU = services({"service_id": "CUT", "kind": "cut", "tax_rate": "0", "hands_on_min": 45})


def figure(frame: pl.DataFrame, name: str, month: str = "2026-03") -> Row:
    return frame.row(by_predicate=(pl.col("figure") == name) & (pl.col("month") == month), named=True)


def value(name: str, *visits: list[Row], **given: object) -> Decimal | None:
    return figure(work_out("month", bookings=bookings(*visits), services=MENU, **given), name)["value"]


def cut(booking_id: str, day: str, price: str = "100", **rest: object) -> list[Row]:
    return visit(booking_id, f"{day} 10:00", 60, ("CUT", price), **rest)
