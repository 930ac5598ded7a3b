"""Salons of a few lines, and what the checks across tables say of them."""

from typing import Any

import polars as pl
from frames import Row, bookings, services, visit
from frames import settings as salon_of

from analytics.checks import expectations
from analytics.definitions import findings
from analytics.definitions.tables import TABLES
from analytics.settings import Settings

WEEKDAYS_OPEN = dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), "09:00-18:00")


MENU = services(
    {"service_id": "ROOTS", "kind": "root_touch_up", "price": "60"},
    {"service_id": "CUT", "kind": "cut", "price": "40"},
    {"service_id": "FREE", "kind": "other"},
)


def tables(**given: pl.DataFrame) -> dict[str, pl.DataFrame]:
    """The given tables beside a menu; the others are empty."""
    return {name: table.empty() for name, table in TABLES.items()} | {"services": MENU} | given


def warned(code: str | None = None, salon: Settings | None = None, **given: pl.DataFrame) -> list[Row]:
    """The findings of this code (all codes) as they are said."""
    hits = expectations.check_crossings(tables(**given), salon or salon_of(hours=WEEKDAYS_OPEN))
    return [row for row in findings.summarise(hits).to_dicts() if code in (None, row["code"])]


def counts(rows: list[Row]) -> list[tuple[int, int]]:
    """First row and count of each finding."""
    return [(row["row"], row["count"]) for row in rows]


def two_lines(second: Row) -> pl.DataFrame:
    return bookings(
        [{**row, **(second if row["line"] == 2 else {})} for row in visit("V1", "2026-03-02 09:00", 90, *ROOTS_AND_CUT)]
    )


ROOTS_AND_CUT = (("ROOTS", "60"), ("CUT", "40"))


def priced(*prices: str, service: str = "ROOTS", **rest: Any) -> pl.DataFrame:
    return bookings(
        *(visit(f"V{n}", "2026-03-02 09:00", 60, (service, price), **rest) for n, price in enumerate(prices))
    )


def bowl(product: str = "P1", **rest: Any) -> Row:
    return {"logged_at": "2026-03-02 09:00", "booking_id": "V1", "product_id": product, "mixed_g": "30", **rest}
