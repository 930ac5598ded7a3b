"""Amounts to make ready, against brute force."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analytics.methods.newsvendor import best_amount, best_in_steps, chance_short, critical_ratio, expected_cost

DEMANDS = st.lists(st.integers(0, 60), min_size=1, max_size=12)
COSTS = st.sampled_from([0.05, 0.2, 1.0, 4.0])


def evenly(demands: list[int]) -> tuple[np.ndarray, np.ndarray]:
    return np.array(demands, dtype=float), np.full(len(demands), 1 / len(demands))


def test_by_hand() -> None:
    """Demands 1, 2, 3, 4; left costs 1, short costs 3: cover 3/4, so 3 costs (2 + 1 + 0 + 3) ÷ 4 = 1.5."""
    points, weights = evenly([4, 1, 3, 2])
    assert critical_ratio(1, 3) == 0.75
    assert best_amount(points, weights, 0.75) == 3
    assert expected_cost(np.array([3.0]), points, weights, 1, 3) == pytest.approx([1.5])
    assert chance_short(3, points, weights) == 0.25


@given(DEMANDS, COSTS, COSTS)
@settings(max_examples=40, deadline=None)
def test_no_other_amount_costs_less(demands: list[int], left: float, short: float) -> None:
    points, weights = evenly(demands)
    best = best_amount(points, weights, critical_ratio(left, short))
    tried = expected_cost(np.array([best, *np.arange(0, 61)]), points, weights, left, short)
    assert tried[0] <= tried.min() + 1e-9


@given(DEMANDS, COSTS, COSTS, st.sampled_from([1.0, 2.5, 5.0]))
@settings(max_examples=40, deadline=None)
def test_no_other_step_costs_less(demands: list[int], left: float, short: float, step: float) -> None:
    points, weights = evenly(demands)
    best = best_in_steps(points, weights, left, short, step)
    assert best / step == round(best / step) >= 1
    tried = expected_cost(np.array([best, *np.arange(1, 30) * step]), points, weights, left, short)
    assert tried[0] <= tried.min() + 1e-9
