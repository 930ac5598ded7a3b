"""A completed visit on a day that has not come is a finding, and no finding once the day is there."""

from datetime import date
from pathlib import Path

from salons import BOOKINGS, load_unchecked, write_salon

from analytics.salon import open_salon

ROW = "B{0},1,C1,Chair 1,{1} 10:00,{1} 11:00,{2},S1,60.00\n"


def codes(folder: Path, day: date) -> list[tuple[object, ...]]:
    found = open_salon(folder, day).book.findings.filter(code="completed_ahead")
    return found.select("file", "row", "value", "count").rows()


def test_a_completed_visit_ahead_is_said(tmp_path: Path):
    visits = [("1", "2026-03-02", "completed"), ("2", "2026-03-04", "completed"), ("3", "2026-03-05", "booked")]
    bookings = BOOKINGS + "".join(ROW.format(*visit) for visit in visits)
    load_unchecked(write_salon(tmp_path, {"bookings.csv": bookings}))
    assert codes(tmp_path, date(2026, 3, 3)) == [("bookings.csv", 3, "2026-03-04", 1)]
    assert codes(tmp_path, date(2026, 3, 4)) == []


def test_where_no_status_is_exported_what_lies_ahead_is_booked(tmp_path: Path):
    bookings = BOOKINGS.replace("status,", "") + ROW.replace("{2},", "").format("1", "2026-03-04")
    load_unchecked(write_salon(tmp_path, {"bookings.csv": bookings}))
    assert codes(tmp_path, date(2026, 3, 3)) == []
