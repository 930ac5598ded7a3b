"""The months the book covers."""

import polars as pl
import pytest
from frames import Row, bookings, days, payments, product_log, sales, visit

from analytics.periods import Period
from analytics.records.cover import covered


def cover(
    *visits: list[Row],
    paid: pl.DataFrame | None = None,
    sold: pl.DataFrame | None = None,
    log: pl.DataFrame | None = None,
) -> Period | None:
    given = (
        frame if frame is not None else empty()
        for frame, empty in ((paid, payments), (sold, sales), (log, product_log))
    )
    return covered(bookings(*visits), *given)


def at(day: str, status: str = "completed") -> list[Row]:
    return visit(f"{day} {status}", f"{day} 09:00", 60, ("CUT", "1"), status=status)


def test_whole_months_from_the_first_to_the_last() -> None:
    assert cover(at("2026-01-31"), at("2026-03-01")) == days("2026-01-01", "2026-04-01")


def test_missed_visits_happened_and_cancelled_or_booked_ones_did_not() -> None:
    assert cover(at("2026-01-10"), at("2026-02-10", "no_show")) == days("2026-01-01", "2026-03-01")
    assert cover(at("2026-01-10"), at("2026-02-10", "booked"), at("2025-02-10", "cancelled")) == Period.month("2026-01")


def test_payments_sales_and_bowls_count() -> None:
    paid = payments({"paid_at": "2025-12-31 23:59", "amount": "1"})
    sold = sales({"sold_at": "2026-01-01", "product_id": "SHAM", "price": "1"})
    log = product_log({"logged_at": "2026-02-01", "product_id": "DYE", "mixed_g": "1"})
    assert cover(paid=paid, sold=sold, log=log) == days("2025-12-01", "2026-03-01")


@pytest.mark.parametrize("status", ["booked", "cancelled"])
def test_an_empty_book_covers_nothing(status: str) -> None:
    assert cover() is None
    assert cover(at("2026-01-10", status)) is None
