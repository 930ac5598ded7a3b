"""Weeks, clock changes and unions of intervals against published values."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import polars as pl
import pytest
from frames import bookings, days, only, visit, work_out

from analytics.methods.intervals import hours, union
from analytics.periods import to_instant, week_start


@pytest.mark.parametrize(
    ("day", "week"),
    [("2005-01-01", "2004-W53-6"), ("2019-12-30", "2020-W01-1"), ("2027-01-03", "2026-W53-7")],
)
def test_iso_weeks(day: str, week: str) -> None:
    """ISO 8601 week dates: the last digit is the day of the week, its first day is 1."""
    read = date.fromisoformat(day)
    assert read == date.fromisoformat(week)
    assert week_start(read) == date.fromisoformat(f"{week[:-1]}1")


def test_the_length_of_a_union() -> None:
    """The usual exercise: the union of [1,3] [2,6] [8,10] [15,18] has length 10, not 11."""
    start = datetime(2026, 3, 3)
    spans = [(1, 3), (2, 6), (8, 10), (15, 18)]
    frame = pl.DataFrame(
        [("Window", *(start + timedelta(hours=hour) for hour in span)) for span in spans],
        schema=["chair", "starts", "ends"],
        orient="row",
    )
    assert union(frame, ["chair"]).select(hours(pl.col("starts"), pl.col("ends")).sum()).item() == 10


@pytest.mark.parametrize("zone", ["Europe/Amsterdam", "America/New_York", "Australia/Lord_Howe", "Asia/Kuwait"])
def test_instants_are_those_of_the_time_zone_database(zone: str) -> None:
    """IANA time zone database, read by zoneinfo: every half hour of 2026, the first of a time that stands twice."""
    walls = [datetime(2026, 1, 1) + timedelta(minutes=30 * step) for step in range(2 * 24 * 365)]
    ours = pl.DataFrame({"wall": walls}).select(to_instant(pl.col("wall"), zone))["wall"].to_list()
    theirs = [wall.replace(tzinfo=ZoneInfo(zone), fold=0).astimezone(ZoneInfo("UTC")) for wall in walls]
    assert ours == theirs


def test_littles_law() -> None:
    """Little 1961, Operations Research 9:383–387: mean number present = arrivals an hour × mean stay.

    Three visits of 30, 60 and 90 minutes in nine open hours that never overlap: 3 ÷ 9 × 1 h = 1/3 of the time taken.
    """
    book = bookings(
        *[visit(f"V{n}", f"2026-03-03 {9 + 3 * n:02}:00", 30 * n + 30, ("CUT", "1")) for n in range(3)],
    )
    row = only(work_out("occupancy", bookings=book, period=days("2026-03-03", "2026-03-04")))
    assert row["occupied_share"] == pytest.approx(1 / 3)
