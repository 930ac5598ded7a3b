"""Where to cut ranges, from how earlier ones turned out."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.methods.range_levels import TRUST, Outcomes, first_step, if_right, learnt

USUAL = np.array([0.1, 0.5, 0.9])


def came(values: np.ndarray) -> Outcomes:
    return Outcomes(values, values, np.ones(len(values)), np.ones(len(values), np.bool_))


def test_the_first_step_that_reaches_a_level() -> None:
    reached = np.array([[0.2, 0.5, 1.0], [0.0, 0.1, 1.0]])
    assert first_step(reached, 0.5).tolist() == [1, 2]
    assert first_step(reached, np.array([0.2, 0.1])).tolist() == [0, 1]


def test_who_came_evenly_leaves_levels_as_they_are() -> None:
    evenly = (np.arange(1000) + 0.5) / 1000
    assert learnt(came(evenly), USUAL) == pytest.approx(USUAL, abs=0.001)


def test_who_came_early_pulls_them_down() -> None:
    """All between 0 and a half: a tenth below 0.05; by the weight of 450 outcomes, three quarters of the way."""
    early = (np.arange(int(3 * TRUST)) + 0.5) / (6 * TRUST)
    assert learnt(came(early), USUAL) == pytest.approx([0.0625, 0.3125, 0.5625], abs=0.001)


def test_who_is_still_out_counts_from_there_on() -> None:
    """By hand: of ten, five come at 0.05 … 0.25 and five are out at 0.5, likely to come: the tenth is the first."""
    values = np.array([0.05, 0.1, 0.15, 0.2, 0.25, *[0.5] * 5])
    marks = np.array([True] * 5 + [False] * 5)
    out = Outcomes(values, values, np.ones(10), marks)
    gone = Outcomes(values, values, np.where(marks, 1.0, 0.0), marks)
    assert learnt(out, USUAL)[2] > learnt(gone, USUAL)[2]
    share = 5 / (5 + TRUST)
    assert learnt(out, USUAL)[0] == pytest.approx(share * 0.075 + (1 - share) * 0.1)


def test_nobody_leaves_what_is_around() -> None:
    assert learnt(came(np.zeros(0)), USUAL) is USUAL


def test_days_in_lumps_are_cut_so_that_they_hold_eighty_percent() -> None:
    draws = np.random.default_rng(1)
    chances = draws.dirichlet(np.full(12, 2.0), 400)
    reached = np.cumsum(chances, axis=1)
    low, _, high = if_right(reached)
    first, last = first_step(reached, low), first_step(reached, high)
    held = [row[start : end + 1].sum() for row, start, end in zip(chances, first, last, strict=True)]
    assert np.mean(held) == pytest.approx(0.8, abs=0.02)


@effort(max_examples=50, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 1), st.floats(0, 1), st.booleans()), max_size=60))
def test_levels_are_in_order_and_within_bounds(rows: list[tuple[float, float, bool]]) -> None:
    values = np.array([value for value, _, _ in rows])
    weight = np.array([1.0 if has_come else weight for _, weight, has_come in rows])
    marks = np.array([has_come for _, _, has_come in rows], np.bool_)
    levels = learnt(Outcomes(values, values, weight, marks), USUAL)
    assert (np.diff(levels) >= 0).all() and levels.min() >= 0 and levels.max() <= 1
