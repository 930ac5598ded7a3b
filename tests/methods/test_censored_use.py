"""Uses of which some are known only up to a limit, against lifelines and by hand."""

import lifelines
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analytics.methods.censored_use import share_point, shared, smoothed


def weights_of(low: list[float], high: list[float], mixed: list[float]) -> dict[float, float]:
    points, shares = shared(*(np.array(values, dtype=float) for values in (low, high, mixed)))
    assert shares.sum(axis=1) == pytest.approx(1)
    together: dict[float, float] = {}
    for point, weight in zip(points, shares.mean(axis=0), strict=True):
        together[float(point)] = together.get(float(point), 0) + float(weight)
    return together


def test_by_hand() -> None:
    """20, 30, 40 known and one of at most 30: it lies at 20 or 30, as likely at each, so 1.5, 1.5 and 1 of 4."""
    found = weights_of([20, 30, 40, 0], [20, 30, 40, 30], [50] * 4)
    assert found == pytest.approx({20: 1.5 / 4, 30: 1.5 / 4, 40: 1 / 4}, abs=1e-4)


def test_a_second_bowl_says_that_more_was_used() -> None:
    """Between 30 and 50 only 40 is known, so that is where it lies."""
    assert weights_of([20, 30, 40, 30], [20, 30, 40, 50], [50] * 4) == pytest.approx({20: 0.25, 30: 0.25, 40: 0.5})


def test_where_no_use_is_known_within_the_limits_their_middle_stands_in() -> None:
    assert weights_of([20, 30], [20, 50], [25, 25]) == pytest.approx({20: 0.5, 40: 0.5})


def test_takes_after_bowls_of_about_the_same_size() -> None:
    """Mixed 20 took 15 and mixed 60 took 50: of another 60 it is 50, although 15 lies below it too."""
    found = weights_of([15, 50, 0], [15, 50, 60], [20, 60, 60])
    assert found[50.0] == pytest.approx(2 / 3, abs=1e-4)


@given(st.lists(st.tuples(st.integers(1, 12), st.booleans()), min_size=6, max_size=25))
@settings(max_examples=25, deadline=None)
def test_is_turnbulls_estimate_where_all_mix_the_same(uses: list[tuple[int, bool]]) -> None:
    """lifelines' own Kaplan–Meier of left-censored values; limits lie between the known uses."""
    known = [True, *(known for _, known in uses)]
    values = [1.0, *(use if is_known else use + 0.5 for use, is_known in uses)]
    low = [value if is_known else 0 for value, is_known in zip(values, known, strict=True)]
    found = weights_of(low, values, [20.0] * len(values))
    reference = lifelines.KaplanMeierFitter().fit_left_censoring(values, known)
    for point in sorted({value for value, is_known in zip(values, known, strict=True) if is_known}):
        below = sum(weight for at, weight in found.items() if at <= point)
        assert below == pytest.approx(float(reference.cumulative_density_at_times(point).iloc[0]), abs=1e-3)


@given(st.lists(st.floats(1, 90), min_size=1, max_size=30), st.sampled_from([0.0, 0.1, 0.5, 0.9, 1.0]))
@settings(max_examples=40, deadline=None)
def test_quantiles_of_equal_weights_are_the_usual_ones(values: list[float], share: float) -> None:
    points = np.array(values)
    found = share_point(points, np.full(len(values), 1 / len(values)), share)
    assert found == pytest.approx(float(np.quantile(points, share)))


@given(st.lists(st.floats(5, 90), min_size=2, max_size=30))
@settings(max_examples=40, deadline=None)
def test_smoothing_keeps_the_mean_and_the_spread_of_the_logs(values: list[float]) -> None:
    points, weights = smoothed(np.array(values), np.full(len(values), 1 / len(values)))
    logs = np.log(points)
    assert weights.sum() == pytest.approx(1)
    assert weights @ logs == pytest.approx(np.log(values).mean())
    assert weights @ logs**2 - (weights @ logs) ** 2 == pytest.approx(np.log(values).var(), abs=1e-9)


def test_a_bowl_that_was_hardly_touched_does_not_widen_the_rest() -> None:
    values = np.array([0.0, *[30.0] * 40])
    points, _ = smoothed(values, np.full(41, 1 / 41))
    assert points.max() < 45
