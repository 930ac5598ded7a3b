"""Months with visits but without payments, bowls or retail sales: found, and only where the table is kept at all."""

from typing import Any

import polars as pl
import pytest
from frames import bookings, payments, product_log, sales, settings, visit

from analytics.checks.cross_checks.silent_months import LEAST_SHARE, kept_months
from analytics.definitions.tables import TABLES

MONTHS = [f"2026-{month:02}" for month in range(1, 9)]
AT = {"payments": "paid_at", "product_log": "logged_at", "sales": "sold_at"}
MADE = {"payments": payments, "product_log": product_log, "sales": sales}
NEEDED = {
    "payments": {"amount": "40"},
    "product_log": {"product_id": "P1", "mixed_g": "30"},
    "sales": {"product_id": "P1", "price": "9"},
}


def booked(lines: dict[str, int] | None = None, **rest: Any) -> pl.DataFrame:
    """Fifty completed lines a month, or as many as given."""
    return bookings(
        *(
            visit(f"V{month}{n}", f"{month}-{n % 28 + 1:02} 10:00", 60, ("CUT", "40"), **rest)
            for month in MONTHS
            for n in range((lines or {}).get(month, 50))
        )
    )


def kept(name: str, rows: dict[str, int], each: int = 45, **rest: Any) -> pl.DataFrame:
    """So many rows each month, or as many as given."""
    days = (f"{month}-{n % 28 + 1:02}" for month in MONTHS for n in range(rows.get(month, each)))
    return MADE[name](*({AT[name]: day} | NEEDED[name] | rest for day in days))


def silent(**given: pl.DataFrame) -> list[tuple[str, str, int, int]]:
    tables = {name: table.empty() for name, table in TABLES.items()} | given
    rows = kept_months(tables, settings()).filter(pl.col("share") < LEAST_SHARE)
    return [
        (row["table"], f"{row['month']:%Y-%m}", row["rows"], round(row["usual"])) for row in rows.iter_rows(named=True)
    ]


@pytest.mark.parametrize("name", list(AT))
def test_a_month_without_rows_is_silent_and_one_of_which_a_tenth_is_left_too(name: str) -> None:
    lost = kept(name, {"2026-04": 0, "2026-08": 4})
    assert silent(bookings=booked(), **{name: lost}) == [(name, "2026-04", 0, 45), (name, "2026-08", 4, 45)]
    assert silent(bookings=booked(), **{name: kept(name, {"2026-04": 9})}) == []


def test_what_is_usual_goes_by_the_lines_of_the_month() -> None:
    few = {"2026-04": 0}
    assert silent(bookings=booked({"2026-04": 200}), payments=kept("payments", few)) == [
        ("payments", "2026-04", 0, 180)
    ]
    assert silent(bookings=booked({"2026-04": 30}), payments=kept("payments", few)) == []


def test_a_table_begun_later_or_kept_now_and_then_or_not_at_all_is_not_judged() -> None:
    later = dict.fromkeys(MONTHS[:4], 0)
    assert silent(bookings=booked(), payments=kept("payments", later)) == []
    now_and_then = dict.fromkeys(MONTHS[1::2], 0)
    assert silent(bookings=booked(), payments=kept("payments", now_and_then)) == []
    given_up = dict.fromkeys(MONTHS[4:], 0)
    assert silent(bookings=booked(), payments=kept("payments", given_up)) == []
    assert silent(bookings=booked()) == silent() == []


def test_visits_that_are_booked_or_missed_need_no_payment() -> None:
    ahead = pl.concat([booked({"2026-08": 0}), booked(dict.fromkeys(MONTHS[:7], 0), status="booked")])
    assert silent(bookings=ahead, payments=kept("payments", {"2026-08": 0})) == []


def test_each_salon_of_a_group_is_held_against_its_own_months() -> None:
    both = pl.concat([booked(site="North"), booked(site="South")])
    paid = pl.concat([kept("payments", {"2026-04": 0}, site="North"), kept("payments", {}, site="South")])
    assert silent(bookings=both, payments=paid) == [("payments", "2026-04", 0, 45)]
