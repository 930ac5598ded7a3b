"""How a week stands by what is open."""

import polars as pl
import pytest

from analytics.records.clients.week_standing import with_standing

OPEN = 100.0


def week(wanted_low: float | None, high: float | None, booked: float = 20.0, opened: float = OPEN) -> dict[str, object]:
    row = {
        "clients_expected": 10.0,
        "chair_hours_wanted_low": wanted_low,
        "chair_hours_high": high,
        "chair_hours_booked": booked,
        "chair_hours_open": opened,
    }
    return with_standing(pl.DataFrame([row], schema=dict.fromkeys(row, pl.Float64()))).row(0, named=True)


@pytest.mark.parametrize(
    ("row", "standing", "free", "over"),
    [
        (week(100.5, 98), "overflows", 0.02, 0.5),
        (week(101, 98, booked=104), "overflows", -0.04, 1),
        (week(60, 70, booked=101), "overbooked", -0.01, 1),
        (week(None, None, booked=101), "overbooked", -0.01, 1),
        (week(60, 75, opened=0, booked=5), "closed", None, 0),
        (week(100, 98), "may_fill", 0.02, 0),
        (week(80, 95.5), "may_fill", 0.045, 0),
        (week(80, 94.5), "ordinary", 0.055, 0),
        (week(60, 75), "room", 0.25, 0),
        (week(60, 75.5), "ordinary", 0.245, 0),
        (week(None, None, booked=40), "room", 0.6, 0),
        (week(60, 75, opened=0, booked=0), "closed", None, 0),
    ],
)
def test_how_a_week_stands(row: dict[str, object], standing: str, free: float | None, over: float) -> None:
    assert row["standing"] == standing
    assert row["free_share"] == (free if free is None else pytest.approx(free))
    assert row["chair_hours_over"] == pytest.approx(over)


def test_visits_up_to_the_end_of_each_week() -> None:
    rows = pl.DataFrame([week(1, 2), week(1, 2), week(1, 2)])
    assert with_standing(rows)["clients_until_then"].to_list() == [10, 20, 30]
