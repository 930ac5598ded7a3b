"""How long each visit took which chair, and how that time is shared over its lines."""

import polars as pl
import pytest
from frames import Row, bookings, services, settings, table, visit
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.methods.intervals import hours
from analytics.records.chairs.lines import completed_lines
from analytics.records.chairs.stays import chair_stays

UTC = settings(salon={"timezone": "UTC"})
MENU = services(
    {"service_id": "FOILS", "hands_on_min": 90, "processing_min": 30},
    {"service_id": "CUT", "hands_on_min": 40},
    {"service_id": "TALK", "hands_on_min": 0},
)


def stay_hours(*visits: list[Row], zone: str = "UTC") -> list[float]:
    stays = chair_stays(bookings(*visits), zone)
    return stays.select(hours(pl.col("starts"), pl.col("ends")).alias("h"))["h"].to_list()


def test_an_end_goes_before_minutes() -> None:
    assert stay_hours(visit("V1", "2026-03-03 09:00", 600, ("CUT", "1"), ends_at="2026-03-03 10:00")) == [1.0]


def test_part_minutes_count() -> None:
    assert stay_hours(visit("V1", "2026-03-03 09:00", 7.5, ("CUT", "1"))) == [0.125]


def test_the_same_visit_number_in_two_salons_is_two_visits() -> None:
    north, south = (visit("V1", "2026-03-03 09:00", 60, ("CUT", "1"), site=site) for site in ("North", "South"))
    assert stay_hours(north, south) == [1.0, 1.0]


@pytest.mark.parametrize("status", ["booked", "cancelled", "no_show"])
def test_a_line_that_did_not_happen_does_not_lengthen_the_stay(status: str) -> None:
    done = visit("V1", "2026-03-03 09:00", 60, ("CUT", "1"))
    not_done = [row | {"line": 2} for row in visit("V1", "2026-03-03 09:00", 240, ("FOILS", "1"), status=status)]
    assert stay_hours(done, not_done) == [1.0]


booked_line = st.tuples(
    st.integers(0, 3), st.sampled_from(["FOILS", "CUT", "TALK"]), st.integers(0, 22), st.integers(0, 300), st.booleans()
)


@effort(max_examples=20, deadline=None)
@given(st.lists(booked_line, min_size=1, max_size=10))
def test_the_chair_hours_of_lines_are_the_hours_of_stays(lines: list) -> None:
    rows = [
        {
            "booking_id": f"V{number}",
            "line": place,
            "service_id": service,
            "starts_at": f"2026-03-03 {hour:02}:00",
            "minutes": minutes,
            "chair": "Window" if window else "Mirror",
        }
        for place, (number, service, hour, minutes, window) in enumerate(lines, start=1)
    ]
    book = table("bookings", rows)
    shared = completed_lines(book, MENU, UTC)["chair_hours"]
    stays = chair_stays(book, "UTC")
    assert shared.min() >= 0
    assert shared.sum() == pytest.approx(stays.select(hours(pl.col("starts"), pl.col("ends")).sum()).item())
