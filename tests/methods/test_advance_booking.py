"""What comes on top of what is booked."""

import numpy as np
import pytest

from analytics.methods.advance_booking import pick_up

EVEN = np.ones(400)


def past(share: float, slope: float, noise: float, days: int = 400) -> tuple[np.ndarray, np.ndarray]:
    """Booked around a share; what came follows it with a slope."""
    draw = np.random.default_rng(2)
    booked = share + draw.normal(0, 0.1, (days, 1))
    return booked, 1 + slope * (booked - share) + draw.normal(0, noise, (days, 1))


@pytest.mark.parametrize("slope", [0.0, 0.6, 1.0])
def test_many_past_days_tell_the_slope(slope: float) -> None:
    found = pick_up(*past(0.5, slope, 0.05), EVEN)
    assert found.slope[0] == pytest.approx(slope, abs=0.08)
    assert found.usual[0] == pytest.approx(0.5, abs=0.02)
    assert found.factor(np.array([0.7]))[0] == pytest.approx(1 + 0.2 * slope, abs=0.03)


def test_without_a_past_an_hour_booked_more_is_an_hour_more() -> None:
    found = pick_up(np.full((3, 2), np.nan), np.full((3, 2), np.nan), np.ones(3))
    assert found.slope.tolist() == [1, 1]
    assert found.left.tolist() == [1, 1]


def test_no_less_comes_than_is_booked() -> None:
    found = pick_up(*past(0.2, 0.0, 0.05), EVEN)
    assert found.factor(np.array([1.4]))[0] == pytest.approx(1.4)


def test_what_is_left_unsure_is_what_bookings_do_not_tell() -> None:
    """Slope 1 and bookings that spread by 0.1 explain half of a variance of 0.1² + 0.1²."""
    found = pick_up(*past(0.5, 1.0, 0.1), EVEN)
    assert found.left[0] == pytest.approx(0.5, abs=0.08)
    assert pick_up(*past(0.5, 0.0, 0.1), EVEN).left[0] == pytest.approx(1, abs=0.03)


def test_later_past_days_may_count_more() -> None:
    booked, came = np.array([[0.2], [0.4], [np.nan]]), np.ones((3, 1))
    assert pick_up(booked, came, np.array([3.0, 1.0, 9.0])).usual[0] == pytest.approx(0.25)
