"""The columns a day is judged by, each worked by hand."""

import numpy as np
import pytest

from analytics.methods import operational_time


def test_weekdays() -> None:
    assert operational_time.weekdays(np.array([0, 6])).tolist() == [[1, 0, 0, 0, 0, 0, 0], [0, 0, 0, 0, 0, 0, 1]]


def test_waves_come_back_after_a_year_and_fall_in_height() -> None:
    a_quarter = operational_time.waves(np.array([365.25 / 4]), np.zeros((1, 8)))
    assert a_quarter[0, :3] == pytest.approx([1, 0, -1 / 3])  # sin(π/2), sin(π) ÷ 2, sin(3π/2) ÷ 3
    assert a_quarter[0, 6:9] == pytest.approx([0, -1 / 2, 0])  # their cosines
    year = operational_time.waves(np.arange(1, 366), np.zeros((365, 8)))
    assert np.abs(year.mean(axis=0)).max() < 0.01
    assert not operational_time.waves(np.array([340]), np.eye(8)[:1]).any()


def test_weeks_around_the_year_s_end() -> None:
    """Christmas Eve ends the last week before it, Christmas Day begins the first one after."""
    days = np.array([29, 28, 1, 0, -6, -7, -27, -28])
    rows = operational_time.year_end(days)
    assert [row.argmax() if row.any() else None for row in rows] == [None, 0, 3, 4, 4, 5, 7, None]


def test_what_is_shut_is_seen_from_both_sides() -> None:
    """Days 20 to 23 are shut, a tenth of a week each."""
    lost = np.zeros(50)
    lost[20:24] = 0.1
    seen = operational_time.near_shut(lost)
    assert seen[19] == pytest.approx([0.4, 0, 0, 0, 0])
    assert seen[15] == pytest.approx([0.3, 0.1, 0, 0, 0])  # days 16–22 and 23–29
    assert seen[24] == pytest.approx([0, 0, 0.4, 0, 0])
    assert seen[29] == pytest.approx([0, 0, 0.2, 0.2, 0])  # days 22–28 and 15–21
    assert seen[44] == pytest.approx([0, 0, 0, 0, 0.1])
    assert not seen[[0, 45]].any()


def test_the_level_moves_within_its_stretch_and_stays_after_it() -> None:
    moved = operational_time.drift(np.array([0, 28, 42, 56, 60, 400]), last=56)
    assert moved.tolist() == [[0, 0], [0, 1], [0.5, 1], [1, 1], [1, 1], [1, 1]]
