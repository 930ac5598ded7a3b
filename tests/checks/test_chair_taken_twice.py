"""Two visits in one chair at one time are a finding, and used as they stand."""

import pytest
from frames import Row, bookings, settings, visit

from analytics.checks.oddities import oddities
from analytics.definitions.findings import summarise
from analytics.definitions.tables import TABLES
from analytics.settings import Settings


def found(*visits: list[Row], salon: Settings | None = None) -> list[tuple[int, str]]:
    """Row and sentence of each finding; visits stand in rows 2, 3, …"""
    tables = {name: table.empty() for name, table in TABLES.items()} | {"bookings": bookings(*visits)}
    hits = summarise(oddities(tables, salon or settings()))
    return list(hits.filter(code="chair_taken_twice").select("row", "message").iter_rows())


def at(booking_id: str, clock: str, minutes: int, **rest: object) -> list[Row]:
    return visit(booking_id, f"2026-03-03 {clock}", minutes, ("CUT", "40"), **rest)


def test_the_one_who_sits_down_later_is_found_with_when_the_chair_comes_free() -> None:
    ((row, message),) = found(at("V1", "10:00", 80), at("V2", "11:00", 30))
    assert (row, "taken until 2026-03-03 11:20" in message) == (3, True)


def test_one_long_visit_may_be_in_the_way_of_several() -> None:
    ((row, message),) = found(at("V1", "10:00", 180), at("V2", "10:30", 15), at("V3", "12:30", 60))
    assert (row, "2 rows like it" in message) == (3, True)


def test_what_is_booked_ahead_counts_too() -> None:
    assert len(found(at("V1", "10:00", 80, status="booked"), at("V2", "11:00", 30, status="booked"))) == 1


def test_a_visit_that_is_half_done_is_not_in_its_own_way() -> None:
    assert found(at("V1", "10:00", 80), at("V1", "11:00", 30, status="booked")) == []


@pytest.mark.parametrize(
    "other",
    [{"chair": "Mirror"}, {"site": "North"}, {"status": "cancelled"}, {"status": "no_show"}],
)
def test_another_chair_and_who_does_not_come_are_in_nobodys_way(other: dict[str, str]) -> None:
    assert found(at("V1", "10:00", 80), at("V2", "11:00", 30, **other)) == []


def test_one_after_the_other_and_what_takes_no_time_are_no_finding() -> None:
    assert found(at("V1", "10:00", 60), at("V2", "11:00", 30), at("V3", "10:30", 0)) == []
