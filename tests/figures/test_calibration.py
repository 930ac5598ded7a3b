"""Whether what was said came true, group by group."""

from datetime import date, timedelta

import polars as pl
import pytest
from frames import bookings, rows_of, services, visit, work_out

from analytics.figures import calibration as figure

MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"})
NONE = bookings()


def said(width: int, chance: float, came_after: int | None) -> dict[str, object]:
    """What was said at the end of March, and how many days later she came."""
    low = date(2026, 4, 1)
    came = None if came_after is None else date(2026, 3, 31) + timedelta(days=came_after)
    return {
        "expected_low_on": low,
        "expected_high_on": low + timedelta(days=width - 1),
        "came_on": came,
        "chance_within_90_days": chance,
        "came_within_90_days": came_after is not None and came_after <= 90,
    }


def test_worked_by_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    """Twenty ranges of 10 days, of which 15 held; twenty of 30 days, of which 20 did. Ten more never came.

    Of the twenty-five least likely (a chance of 0.2) five came, of the others (0.9) all did.
    """
    rows = [said(10, 0.9, 5)] * 15 + [said(10, 0.2, 40)] * 5 + [said(30, 0.9, 30)] * 20 + [said(9, 0.2, None)] * 20
    monkeypatch.setattr(figure, "replayed", lambda *_: pl.DataFrame(rows, infer_schema_length=None))
    found = work_out("calibration", bookings=NONE, services=MENU)
    assert [(row[0], row[1], round(row[2], 6), row[3], row[4]) for row in found.rows()] == [
        ("range", 1, 10, 0.75, 20),
        ("range", 2, 30, 1.0, 20),
        ("chance", 1, 0.2, 0.2, 25),
        ("chance", 2, 0.9, 1.0, 35),
    ]


def test_too_few_say_nothing() -> None:
    few = bookings(*[visit(f"V{number}", f"2025-0{number}-10 10:00", 90, ("ROOTS", "60")) for number in range(1, 10)])
    given = {"bookings": few, "services": MENU, "as_of": "2026-07-15"}
    assert work_out("calibration", **given).is_empty()
    assert rows_of("calibration", **given).height > 0
