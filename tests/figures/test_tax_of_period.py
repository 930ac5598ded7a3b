"""The tax of a whole period."""

import polars as pl
from frames import (
    agrees,
    bookings,
    days,
    services,
    settings,
    small_salon,
    visit,
    work_out,
)

BOTH = days("2026-02-01", "2026-04-01")


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("tax_of_period", period=BOTH, **small_salon()), "tax_of_period")


def test_exempt_and_zero_rated_stand_apart_and_a_refund_takes_its_tax_back() -> None:
    menu = services(
        {"service_id": "CUT"}, {"service_id": "CARE", "tax_rate": "0"}, {"service_id": "TALK", "tax_rate": "0"}
    )
    book = bookings(
        visit("V1", "2026-02-03 09:00", 60, ("CUT", "121"), ("CARE", "10"), ("TALK", "5")),
        visit("V2", "2026-03-04 09:00", 60, ("CUT", "-121")),
    )
    salon = settings(accounting={"exempt": ["TALK"]})
    frame = work_out("tax_of_period", bookings=book, services=menu, salon=salon, period=BOTH)
    assert [(row[1], f"{row[2]:f}", *map(str, row[3:5]), f"{row[7]:.2f}") for row in frame.rows()] == [
        ("exempt", "0.0000", "2026-02-03", "2026-02-03", "0.00"),
        ("zero-rated", "0.0000", "2026-02-03", "2026-02-03", "0.00"),
        ("taxed", "21.0000", "2026-02-03", "2026-03-04", "0.00"),
    ]


def test_it_is_the_months_added_up() -> None:
    """Whatever the salon: rates are those of `tax`, whose months come to the same."""
    salon = small_salon()
    by_month = work_out("tax", period=BOTH, **salon).group_by("tax_rate").agg(pl.col("gross", "net", "tax").sum())
    whole = work_out("tax_of_period", period=BOTH, **salon).select("tax_rate", "gross", "net", "tax")
    assert whole.sort("tax_rate").rows() == by_month.sort("tax_rate").rows()
