"""How full the chairs are at each hour of the week, and what such an hour brings."""

import polars as pl
import pytest
from frames import Row, agrees, bookings, days, services, settings, small_salon, visit, work_out
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

MENU = services({"service_id": "CUT", "kind": "cut", "tax_rate": "0"})


def cells(*visits: list[Row], **more: object) -> dict[tuple[str, int], Row]:
    frame = work_out("hours_of_week", bookings=bookings(*visits), services=MENU, **more)
    return {(row["weekday"], row["hour"]): row for row in frame.iter_rows(named=True)}


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("hours_of_week", period=days("2026-03-03", "2026-03-04"), **small_salon()), "hours_of_week")


def test_a_visit_over_closing_time_and_midnight_brings_its_net_to_the_hours_it_takes() -> None:
    """Friday 20:30–00:15, open until 21:00: 225 minutes, 30 + 60 + 60 + 60 + 15, bring 2.25 or a cent a minute."""
    salon = settings(hours={"fri": "12:00-21:00"})
    answer = cells(visit("V1", "2026-03-06 20:30", 225, ("CUT", "2.25")), salon=salon)
    net = {cell: float(row["net"]) for cell, row in answer.items() if row["net"]}
    assert net == {("fri", 20): 0.3, ("fri", 21): 0.6, ("fri", 22): 0.6, ("fri", 23): 0.6, ("sat", 0): 0.15}
    assert answer["fri", 20]["taken_hours"] == 0.5
    assert (answer["sat", 0]["open_hours"], answer["sat", 0]["taken_hours"]) == (0, 0)
    assert answer["sat", 0]["net_per_open_hour"] is None


@pytest.mark.parametrize(("night", "hours"), [("2026-03-29", {1: 1, 3: 1}), ("2026-10-25", {1: 1, 2: 2, 3: 1})])
def test_the_hour_the_clock_skips_is_not_there_and_the_one_it_repeats_is_twice(
    night: str, hours: dict[int, int]
) -> None:
    salon = settings(hours={"sun": "01:00-04:00"})
    period = days(night, f"{night[:8]}{int(night[8:]) + 1}")
    work = visit("V1", f"{night} 01:00", None, ("CUT", "60"), ends_at=f"{night} 04:00")
    answer = cells(work, salon=salon, period=period)
    assert {hour: row["open_hours"] for (_, hour), row in answer.items()} == hours
    assert all(row["taken_share"] == 1 for row in answer.values())


def test_hours_that_have_not_come_yet_are_not_open() -> None:
    """On 10 March two Tuesdays of five have been."""
    answer = cells(visit("V1", "2026-03-03 09:00", 60, ("CUT", "60")), as_of="2026-03-10")
    assert answer["tue", 9]["taken_share"] == 0.5


def test_a_refund_that_took_no_time_stands_at_its_hour() -> None:
    assert cells(visit("V1", "2026-03-03 14:20", 0, ("CUT", "-40")))["tue", 14]["net"] == -40


def test_hours_of_a_zone_half_an_hour_off_are_its_own() -> None:
    """09:00–10:00 in Kolkata (+05:30) is one clock hour there."""
    salon = settings(salon={"timezone": "Asia/Kolkata"})
    assert cells(visit("V1", "2026-03-03 09:00", 60, ("CUT", "60")), salon=salon)["tue", 9]["taken_hours"] == 1


stay = st.tuples(st.integers(0, 7 * 96), st.integers(0, 900), st.integers(-500, 5000), st.sampled_from("AB"))


@effort(max_examples=12, deadline=None)
@given(st.lists(stay, max_size=6))
def test_hours_and_net_add_up_to_those_of_occupancy_and_chairs(stays: list) -> None:
    book = bookings(
        *[
            visit(
                f"V{n}",
                f"2026-03-{2 + at // 96:02} {at % 96 // 4:02}:{at % 4 * 15:02}",
                length,
                ("CUT", str(cents / 100)),
                chair=c,
            )
            for n, (at, length, cents, c) in enumerate(stays)
        ]
    )
    given = {"bookings": book, "services": MENU, "period": "2026-03"}
    week, chairs = work_out("hours_of_week", **given), work_out("occupancy", **given)
    assert week["net"].sum() == work_out("chairs", **given)["net"].sum()
    assert week["open_hours"].sum() == pytest.approx(chairs["open_hours"].sum())
    inside = chairs.select((pl.col("occupied_share") * pl.col("open_hours")).sum()).item()
    assert week["taken_hours"].sum() == pytest.approx(inside)
    assert week["taken_share"].drop_nulls().is_between(0, 1 + 1e-9).all()
