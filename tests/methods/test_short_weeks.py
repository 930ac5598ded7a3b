"""Weeks far below those around them: worked by hand, at the limits, and whatever the unit of weight."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analytics.methods.short_weeks import short_weeks


def weeks(count: int, rows: float = 60, **other: float) -> np.ndarray:
    """So many weeks of so many rows; w7=12 makes week 7 another one."""
    numbers = np.full(count, rows, dtype=float)
    for name, value in other.items():
        numbers[int(name[1:])] = value
    return numbers


def short(rows: np.ndarray, weights: np.ndarray | None = None) -> list[int]:
    return np.flatnonzero(short_weeks(rows, np.ones(len(rows)) if weights is None else weights)[1]).tolist()


@pytest.mark.parametrize(("left", "found"), [(0, [15]), (21, [15]), (22, []), (60, [])])
def test_at_most_36_in_a_hundred_of_what_is_usual_is_short(left: int, found: list[int]) -> None:
    assert short(weeks(30, w15=left)) == found


def test_what_is_usual_is_what_three_in_ten_of_the_weeks_on_the_smaller_side_reach() -> None:
    """Half the days open, half the rows: nothing short. Of 38 … 45 before, 7/10 of the way along is 42.9."""
    usual, found = short_weeks(weeks(30, w15=30), weeks(30, 1, w15=0.5))
    assert usual[15] == 30 and not found.any()
    rising = np.arange(38.0, 55.0)
    assert short_weeks(rising, np.ones(17))[0][8] == 42.9


def test_few_rows_may_be_none_by_chance() -> None:
    assert short(weeks(30, 39, w15=0)) == []
    assert short(weeks(30, 40, w15=0)) == [15]


def test_a_salon_whose_weeks_differ_widely_may_have_a_thin_one() -> None:
    wide = np.array([45.0, 90.0] * 15)
    assert short(np.where(np.arange(30) == 14, 14.0, wide)) == []
    assert short(np.where(np.arange(30) == 14, 14.0, 67.0)) == [14]


def test_a_week_that_is_thin_in_another_year_as_well_is_no_surprise() -> None:
    assert short(weeks(120, w40=10)) == [40]
    assert short(weeks(120, w40=10, w93=12)) == []
    assert short(weeks(120, w40=10, w95=12)) == [40, 95]


def test_too_little_around_tells_nothing() -> None:
    assert short(weeks(5, w2=0)) == []
    assert short(np.zeros(30)) == short(np.zeros(0)) == []


@pytest.mark.parametrize("way", [1, -1])
def test_a_salon_that_grows_or_shrinks_at_once_has_no_short_week(way: int) -> None:
    assert short(np.array([25.0] * 20 + [100.0] * 20)[::way]) == []


def test_four_short_weeks_in_a_row_are_all_found() -> None:
    assert short(weeks(40, w20=5, w21=0, w22=3, w23=9)) == [20, 21, 22, 23]


@settings(max_examples=40)
@given(st.lists(st.integers(0, 200), min_size=14, max_size=80), st.floats(0.01, 100))
def test_the_unit_of_weight_is_of_no_matter(rows: list[int], unit: float) -> None:
    counts = np.array(rows, dtype=float)
    assert short(counts) == short(counts, np.full(len(counts), unit))
