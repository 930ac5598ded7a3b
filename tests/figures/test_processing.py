"""How many hours developed, and how many of those held a second client of the same stylist."""

import pytest
from frames import Row, agrees, bookings, days, services, small_salon, visit, work_out

MENU = services(
    {"service_id": "ROOTS", "kind": "root_touch_up", "hands_on_min": 60, "processing_min": 30},
    {"service_id": "CUT", "kind": "cut", "hands_on_min": 30},
)


def second(*visits: list[Row], **more: object) -> float:
    frame = work_out("processing", bookings=bookings(*visits), services=MENU, **more)
    return float(frame["second_client_hours"].sum())


def roots(booking_id: str = "V1", clock: str = "2026-03-03 09:00", **rest: object) -> list[Row]:
    """An hour and a half, half an hour of it developing."""
    return visit(booking_id, clock, 90, ("ROOTS", "60"), **{"client_id": booking_id, "chair": "Window"} | rest)


def cut(clock: str, minutes: int, booking_id: str = "V2", **rest: object) -> list[Row]:
    return visit(
        booking_id, f"2026-03-03 {clock}", minutes, ("CUT", "40"), **{"client_id": booking_id, "chair": "Mirror"} | rest
    )


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("processing", period=days("2026-02-01", "2026-04-01"), **small_salon()), "processing")


def test_a_cut_in_another_chair_while_colour_develops() -> None:
    frame = work_out("processing", bookings=bookings(roots(), cut("09:45", 20)), services=MENU)
    row = frame.row(0, named=True)
    assert (row["processing_hours"], row["second_client_hours"]) == (0.5, pytest.approx(1 / 3))
    assert row["second_client_share"] == pytest.approx(2 / 3)


def test_never_more_than_developed() -> None:
    assert second(roots(), cut("09:15", 60)) == 0.5


def test_two_cuts_beside_it_count_their_time_once() -> None:
    assert second(roots(), cut("09:30", 12), cut("09:36", 12, "V3", chair="Garden")) == pytest.approx(0.3)


def test_only_the_time_beside_each_other_counts() -> None:
    assert second(roots(), cut("10:24", 60)) == pytest.approx(0.1)
    assert second(roots(), cut("10:30", 60)) == 0


@pytest.mark.parametrize(
    "other", [{"stylist": "Noor"}, {"chair": "Window"}, {"client_id": "V1"}, {"status": "no_show"}]
)
def test_another_stylist_the_same_chair_or_client_and_who_did_not_come_are_no_second_client(other: dict) -> None:
    assert second(roots(), cut("09:45", 20, **other)) == 0


def test_of_two_that_both_develop_each_moment_counts_once() -> None:
    """09:00–10:30 and 09:30–11:00: an hour together, of which the first one's half hour of developing."""
    assert second(roots(), roots("V2", "2026-03-03 09:30", chair="Mirror")) == 0.5


def test_over_midnight_it_belongs_to_the_month_the_first_visit_starts_in() -> None:
    late = roots(clock="2026-02-28 23:00")
    next_day = visit("V2", "2026-03-01 00:10", 12, ("CUT", "40"), client_id="V2", chair="Mirror")
    frame = work_out(
        "processing", bookings=bookings(late, next_day), services=MENU, period=days("2026-02-01", "2026-04-01")
    )
    assert dict(frame.select("month", "second_client_hours").iter_rows()) == {
        "2026-02": pytest.approx(0.2),
        "2026-03": 0,
    }


def test_the_salons_hours_are_those_of_all_stylists() -> None:
    """Mila's roots develop 30 minutes, 20 of them beside a cut; Noor's develop 30: a third of the hour."""
    noor = roots("V3", chair="Basin", stylist="Noor")
    frame = work_out("processing", bookings=bookings(roots(), cut("09:45", 20), noor), services=MENU)
    assert frame["salon_processing_hours"].to_list() == [1.0, 1.0]
    assert frame["salon_second_client_share"].to_list() == [pytest.approx(1 / 3)] * 2
