"""What holds of roots whatever the visits."""

from datetime import date, timedelta
from random import Random

import polars as pl
from frames import Row, bookings, days, only, settings, work_out
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st
from polars.testing import assert_frame_equal
from root_clients import MENU, coloured, rhythm, roots

history = st.lists(st.integers(7, 200), min_size=0, max_size=5)


EXPECTED = ["expected_on", "expected_low_on", "expected_high_on"]


DATES = ["last_root_on", "ready_from", "ready_by", *EXPECTED, "booked_on"]


def told(gaps: list[list[int]], names: list[str], today: date, ahead: int) -> list[list[Row]]:
    """Clients with these gaps, the last visit five days ago; the first has a booking so many days ahead."""
    visits = [
        rhythm(name, f"{today - timedelta(days=sum(each) + 5)}", *each) for name, each in zip(names, gaps, strict=True)
    ]
    return [*visits, coloured("B", f"{today + timedelta(days=ahead)}", client_id=names[0], status="booked")]


@effort(max_examples=15, deadline=None)
@given(st.lists(history, min_size=1, max_size=4), st.integers(-400, 400), st.integers(0, 60))
def test_days_later_growth_is_days_later(gaps: list[list[int]], days_later: int, ahead: int) -> None:
    utc = settings(salon={"timezone": "UTC"})
    names = [f"C{number}" for number in range(len(gaps))]

    def answer(shift: timedelta) -> pl.DataFrame:
        today = date(2026, 6, 1) + shift
        return roots(*told(gaps, names, today, ahead), as_of=f"{today}", salon=utc)

    shift = timedelta(days=days_later)
    moved, before = answer(shift).with_columns(pl.col(DATES) - pl.lit(shift)), answer(timedelta())
    said = [*EXPECTED, "chance_of_return", "chance_next_week", "state"]  # which the season moves
    assert_frame_equal(moved.drop(said), before.drop(said), abs_tol=1e-5, check_row_order=False)


@effort(max_examples=15, deadline=None)
@given(st.lists(history, min_size=2, max_size=4), st.randoms(use_true_random=False))
def test_neither_names_nor_the_order_of_rows_matter(gaps: list[list[int]], draw: Random) -> None:
    today, names = date(2026, 6, 1), [f"C{number}" for number in range(len(gaps))]
    others = draw.sample(["Zoe", "Ada", "Mia", "Bo"], len(gaps))

    def answer(called: list[str], mixed: bool) -> pl.DataFrame:
        table = bookings(*told(gaps, called, today, 30))
        rows = table.sample(fraction=1, shuffle=True, seed=draw.randrange(1000)) if mixed else table
        return work_out("roots", bookings=rows, services=MENU, as_of=f"{today}")

    renamed = answer(others, True).with_columns(pl.col("client_id").replace(others, names))
    key = ["client_id"]
    assert_frame_equal(renamed.sort(key), answer(names, False).sort(key), abs_tol=1e-9)


@effort(max_examples=15, deadline=None)
@given(st.lists(history, min_size=1, max_size=4), st.floats(0, 30))
def test_one_more_measured_regrowth_narrows_the_band(gaps: list[list[int]], regrowth_mm: float) -> None:
    today, names = date(2026, 6, 1), [f"C{number}" for number in range(len(gaps))]
    before = told(gaps, names, today, 30)
    first = f"{today - timedelta(days=sum(gaps[0]) + 45)}"
    started = [coloured("S", first, client_id="C0"), *before]
    measured = [coloured("S", first, client_id="C0"), *before[1:]]
    measured.append(
        [line | {"regrowth_mm": regrowth_mm} if line["booking_id"] == "C00" else line for line in before[0]]
    )
    narrow, wide = (
        row["regrowth_high_mm"] - row["regrowth_low_mm"]
        for row in (only(roots(*rows, as_of=f"{today}"), client_id="C0") for rows in (measured, started))
    )
    assert narrow < wide


def test_a_client_three_ranges_late_is_quiet() -> None:
    starts = [f"{date(2025, 1, 2) + timedelta(days=number)}" for number in range(30)]
    others = [rhythm(f"C{number}", start, *[42, 38, 45, 40, 44, 41]) for number, start in enumerate(starts)]
    late = rhythm("Ada", "2025-01-02", *[42] * 6)
    on_time = date(2025, 1, 2) + timedelta(days=42 * 6 + 1)
    row = only(roots(*others, late, as_of=f"{on_time}"), client_id="Ada")
    width = row["expected_high_on"] - row["expected_low_on"]
    later = row["expected_high_on"] + 3 * max(width, timedelta(days=21))
    came = [rhythm(f"D{number}", start, *[42] * 12) for number, start in enumerate(starts)]
    assert only(roots(*came, late, as_of=f"{later}"), client_id="Ada")["state"] == "quiet"


def test_a_booked_client_is_booked_however_late_she_is() -> None:
    ahead = coloured("B", "2026-04-20", client_id="Ada", status="booked")
    row = only(roots(rhythm("Ada", "2023-01-02", 42, 42, 42), ahead), client_id="Ada")
    assert row["state"] == "booked"


def test_a_period_does_not_narrow_what_is_known_of_a_client() -> None:
    whole = roots(rhythm("Ada", "2026-01-05", 42), period=days("2026-03-01", "2026-03-02"))
    assert whole.equals(roots(rhythm("Ada", "2026-01-05", 42)))
