"""Kaplan–Meier, with those still out counted as still out."""

import polars as pl
import pytest

from analytics.methods.survival import Waiting, kaplan_meier


def waiting(came: list[float], still_out: list[float] = []) -> Waiting:  # noqa: B006
    return kaplan_meier(
        pl.Series([*came, *still_out], dtype=pl.Float64), pl.Series([True] * len(came) + [False] * len(still_out))
    )


def test_by_hand() -> None:
    """Five clients: 2 and 4 came back, 3 and 5 and 6 are still out: 4/5 after 2, then 4/5 × 2/3 after 4."""
    curve = waiting([2, 4], [3, 5, 6])
    assert curve.days == (2, 4)
    assert curve.share == pytest.approx((4 / 5, 8 / 15))
    assert [curve.at(day) for day in (0, 1.9, 2, 3, 4, 99)] == pytest.approx([1, 1, 0.8, 0.8, 8 / 15, 8 / 15])


def test_who_leaves_on_the_day_somebody_comes_still_counted_that_day() -> None:
    assert waiting([5], [5]).share == (0.5,)


def test_equal_waits_are_one_step() -> None:
    assert waiting([3, 3, 3, 7]).share == pytest.approx((0.25, 0.0))


def test_a_median_that_was_not_reached_is_none() -> None:
    assert waiting([2], [3, 4, 5]).median is None
    assert waiting([]).median is None


@pytest.mark.parametrize("clients", range(2, 61, 2))
def test_where_everybody_came_back_the_median_is_the_middle_one(clients: int) -> None:
    """One client a day: after half of the days exactly half still wait."""
    assert waiting([float(day) for day in range(1, clients + 1)]).median == clients / 2
