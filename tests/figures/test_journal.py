"""Double entry, day by day."""

import polars as pl
from frames import (
    agrees,
    bookings,
    days,
    payments,
    rows_of,
    services,
    small_salon,
    visit,
    work_out,
)

BOTH = days("2026-02-01", "2026-04-01")


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("journal", period=BOTH, **small_salon()), "journal")


def test_a_day_comes_to_nothing_in_each_salon() -> None:
    frame = work_out("journal", period=BOTH, **small_salon())
    assert set(frame.group_by("day", "site").agg(pl.col("amount").sum())["amount"]) == {0}


def test_a_refund_stands_the_other_way_round() -> None:
    book = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "-121")))
    paid = payments({"paid_at": "2026-03-03 10:00", "booking_id": "V1", "amount": "-121"})
    frame = work_out("journal", bookings=book, services=services({"service_id": "CUT"}), payments=paid)
    assert frame.select("item", "account", "amount").rows() == [
        ("revenue:services:21", "services", 100),
        ("taken:card", "card", -121),
        ("tax:21", "tax", 21),
    ]


def test_every_row_of_its_lines_names_a_row_of_an_export_or_is_worked_out_of_others() -> None:
    salon = small_salon()
    lines = rows_of("journal", period=BOTH, **salon)
    named = lines.filter(pl.col("file") != "")
    tables = [table for table in salon.values() if isinstance(table, pl.DataFrame)]
    there = {place for table in tables for place in table.select("file", "row").rows()}
    assert set(named.select("file", "row").rows()) <= there
    worked_out = {"open_items", "vouchers_sold", "stock:written_down"}
    assert set(lines.filter(pl.col("row").is_null())["item"]) == worked_out


def test_stock_that_was_never_delivered_or_counted_is_in_no_account() -> None:
    salon = small_salon()
    without = work_out("journal", period=BOTH, **salon | {"stock_moves": salon["stock_moves"].clear()})
    assert not without["item"].str.starts_with("stock").any()
