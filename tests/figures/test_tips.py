"""Tips by day, and the tax in them."""

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
    agrees(work_out("tips", period=BOTH, **small_salon()), "tips")


def tipped(*tips: str) -> pl.DataFrame:
    return bookings(*[visit(f"V{at}", "2026-03-03 09:00", 60, ("CUT", "60"), tip=tip) for at, tip in enumerate(tips)])


def test_a_compulsory_charge_holds_the_tax_of_its_line() -> None:
    """12.10 at 21 %: 10.00 and 2.10."""
    frame = work_out(
        "tips",
        bookings=tipped("12.10"),
        services=services({"service_id": "CUT"}),
        salon=settings(accounting={"tips": "inside"}),
    )
    assert [f"{amount:.2f}" for amount in frame.row(0)[2:]] == ["12.10", "10.00", "2.10"]


def test_tips_of_a_day_add_up_and_one_given_back_is_taken_off() -> None:
    frame = work_out("tips", bookings=tipped("5", "0", "-2"), services=services({"service_id": "CUT"}))
    assert frame.select("tips", "net", "tax").rows() == [(3, 3, 0)]


def test_a_day_without_a_tip_has_no_row() -> None:
    assert work_out("tips", bookings=tipped("0"), services=services({"service_id": "CUT"})).is_empty()
