"""Habits of clients, in plain days and on a clock: what must hold whatever the history."""

from datetime import date, timedelta

import numpy as np
import polars as pl
import pytest
from frames import settings
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st
from polars.testing import assert_frame_equal

from analytics.records.clients.habits import AHEAD_DAYS
from analytics.records.clients.rhythm import habits
from analytics.records.clock import Clock, clock_of

TODAY = date(2026, 6, 1)
SCHEMA = {"site": pl.String(), "client_id": pl.String(), "kind": pl.String(), "day": pl.Date()}
histories = st.lists(st.lists(st.integers(1, 400), max_size=6), min_size=1, max_size=4)


def visits(histories: list[list[int]], today: date = TODAY) -> pl.DataFrame:
    """One client per history: her gaps, the last visit five days ago."""
    rows = []
    for number, gaps in enumerate(histories):
        ends = np.cumsum([0, *gaps]) - sum(gaps) - 5
        rows += [("", f"C{number}", "root_touch_up", today + timedelta(days=int(end))) for end in ends]
    return pl.DataFrame(rows, schema=SCHEMA, orient="row")


def open_on(*weekdays: str, closed: tuple[date, ...] = ()) -> Clock:
    hours = settings(hours=dict.fromkeys(weekdays, "09:00-18:00") | {"closed": [f"{day}" for day in closed]}).hours
    return clock_of(pl.DataFrame(schema={"day": pl.Date(), "visits": pl.Int64()}), hours, TODAY)


@effort(max_examples=10, deadline=None)
@given(histories, st.integers(-40, 40))
def test_weeks_later_everything_is_weeks_later(gaps: list[list[int]], weeks: int) -> None:
    shift = timedelta(weeks=weeks)
    now = habits(visits(gaps), TODAY).expected()
    moved = habits(visits(gaps, TODAY + shift), TODAY + shift).expected()
    assert_frame_equal(moved.with_columns(pl.col(pl.Date) - pl.lit(shift)), now, abs_tol=1e-5)


@effort(max_examples=10, deadline=None)
@given(histories)
def test_chances_add_up_and_ranges_are_in_order(gaps: list[list[int]]) -> None:
    said = habits(visits(gaps), TODAY, open_on("tue", "wed", "sat"))
    assert said.ahead.sum(axis=1) == pytest.approx(1, abs=1e-4)
    assert ((said.chance_of_return >= 0) & (said.chance_of_return <= 1)).all()
    frame = said.expected()
    assert (frame["expected_low_on"] <= frame["expected_on"]).all()
    assert (frame["expected_on"] <= frame["expected_high_on"]).all()
    assert (frame["expected_low_on"] > TODAY).all()


def test_nobody_is_expected_on_a_closed_day() -> None:
    shut = tuple(TODAY + timedelta(days=days) for days in range(20, 34))
    said = habits(visits([[42] * 8, [30] * 5, []]), TODAY, open_on("tue", "wed", "thu", "fri", "sat", closed=shut))
    days = [TODAY + timedelta(days=ahead) for ahead in range(1, AHEAD_DAYS)]
    closed = np.array([day in shut or day.weekday() in {6, 0} for day in days])
    assert said.ahead[:, :-1][:, closed].sum() == 0
    assert said.ahead[:, :-1].sum() > 0


def test_no_book_is_no_client() -> None:
    said = habits(pl.DataFrame(schema=SCHEMA), TODAY)
    assert said.expected().is_empty() and said.within(90).tolist() == []


def test_a_client_who_came_once_long_ago_is_told_from_a_new_one() -> None:
    """Where four in ten never come a second time, as regular as the others are."""
    draws = np.random.default_rng(4)
    rows = []
    for number in range(300):
        day, stays = TODAY - timedelta(days=int(draws.integers(150, 700))), draws.random() > 0.4
        while day < TODAY:
            rows.append(("", f"C{number}", "root_touch_up", day))
            day += timedelta(days=round(float(np.exp(draws.normal(3.7, 0.2))))) if stays else timedelta(days=9999)
    rows += [("", "new", "root_touch_up", TODAY - timedelta(days=3))]
    said = habits(pl.DataFrame(rows, schema=SCHEMA, orient="row"), TODAY, ranges=False)
    chance = dict(zip(said.clients["client_id"], said.chance_of_return.tolist(), strict=True))
    once = said.clients.filter((pl.col("gaps") == 0) & (pl.col("client_id") != "new"))["client_id"]
    assert 0.5 < chance["new"] < 0.7
    assert float(np.mean([chance[client] for client in once])) < 0.02
