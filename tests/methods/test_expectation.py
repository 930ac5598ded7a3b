"""What was to be expected of a month, against plain formulas and a published steady state."""

from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st
from scipy.stats import t as student_t

from analytics.methods import expectation as method
from analytics.methods import steady_scale as scale

GUESS = 0.01


def asked(values: list[float], guess: float = GUESS) -> method.Expectation:
    series = np.array([values], dtype=float)
    return method.expectation(series, np.ones_like(series), np.full_like(series, guess))


def wobbling(months: int, level: float = 3.0, size: float = 0.1, season: float = 0.0) -> list[float]:
    rng = np.random.default_rng(4)
    return [level + season * (month % 12 == 11) + size * rng.normal() for month in range(months)]


def test_one_month_ahead_is_the_plain_conditional_mean(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a single strength: k'K⁻¹y and k₀ − k'K⁻¹k, solved anew for the last month instead of substituted forward."""
    monkeypatch.setattr(method, "STRENGTHS", np.array([[0.3, 1.0]]))
    monkeypatch.setattr(method, "STEADIEST", 1)
    values = np.array(wobbling(20, season=0.1))
    found = asked(list(values))
    whole = method._covariance(np.ones((1, 20)))[0, 0]
    back = np.linalg.solve(whole[:19, :19], whole[:19, 19])
    assert found.middle[0, -1] == pytest.approx(back @ values[:19], abs=1e-4)
    misses = np.linalg.solve(np.linalg.cholesky(whole), values)[1:19]
    variance = (3 * GUESS + (misses**2).sum()) / (3 + 18)
    ahead = whole[19, 19] - back @ whole[:19, 19]
    assert found.spread[0, -1] == pytest.approx(np.sqrt(variance * ahead), rel=1e-3)
    assert found.freedom[0, -1] == 21


def test_a_drifting_level_settles_as_published(monkeypatch: pytest.MonkeyPatch) -> None:
    """The flow of the Nile: variances 15099 and 1469.1 settle at 5501.3 of the level, 20600.3 of a year's miss
    (Durbin & Koopman 2001, Time Series Analysis by State Space Methods, ch. 2; from memory)."""
    monkeypatch.setattr(method, "STRENGTHS", np.array([[np.sqrt(1469.1 / 15099), 0.0]]))
    factor = np.linalg.cholesky(method._covariance(np.ones((1, 100))))[0, 0]
    assert 15099 * factor[-1, -1] ** 2 == pytest.approx(20600.3, rel=1e-4)


def test_the_season_is_expected_once_it_was_seen() -> None:
    found = asked(wobbling(36, season=0.8, size=0.05))
    usual = found.middle[0, 23 + 6]
    assert found.middle[0, 11] - 3 == pytest.approx(0, abs=0.2)  # nobody had seen it yet
    assert found.middle[0, 35] - usual == pytest.approx(0.8, abs=0.15)


def test_the_first_year_is_the_wider_and_each_miss_narrows() -> None:
    found = asked(wobbling(36))
    reach = scale.student(0.93, found.freedom[0]) * found.spread[0]
    assert reach[3] > reach[11] > reach[24] > 0


def test_a_level_that_jumps_is_learnt_and_one_month_off_is_not() -> None:
    jump, once = np.array(wobbling(30, size=0.05)), np.array(wobbling(30, size=0.05))
    jump[20:] += 1
    once[20] += 1
    assert asked(list(jump)).middle[0, 24] == pytest.approx(4, abs=0.15)
    assert asked(list(once)).middle[0, 21] == pytest.approx(3, abs=0.1)


def test_a_steady_slope_is_told_and_level_months_have_none() -> None:
    level = np.array(wobbling(40, size=0.03))
    slide = level - 0.01 * np.maximum(0, np.arange(40) - 20)
    assert np.isnan(asked(list(level)).slope).all()
    assert asked(list(slide)).slope[0, 34] == pytest.approx(-0.01, abs=0.004)


def test_unknown_months_teach_nothing_and_are_expected_all_the_same() -> None:
    values = wobbling(24)
    values[10] = values[11] = np.nan
    found = asked(values)
    assert found.freedom[0, 13] == found.freedom[0, 10] + 1
    assert 2.5 < found.middle[0, 11] < 3.5
    assert np.isnan(found.middle[0, 0])


months = st.lists(st.floats(0, 9), min_size=3, max_size=20)


@effort(max_examples=30, deadline=None)
@given(months, months)
def test_what_comes_later_changes_nothing_before(values: list[float], later: list[float]) -> None:
    short, long = asked(values), asked(values + later)
    for name in ("middle", "spread", "freedom", "slope"):
        np.testing.assert_allclose(
            getattr(long, name)[:, : len(values)], getattr(short, name), rtol=1e-6, atol=1e-9, equal_nan=True
        )


@given(st.floats(0, 1e6), st.floats(0.5, 100), st.floats(1, 500))
def test_scales_turn_back(amount: float, unit: float, things: float) -> None:
    assert scale.sums_of(scale.of_sums(np.array([amount]), unit), unit) == pytest.approx(amount, rel=1e-9, abs=1e-9)  # type: ignore[arg-type]
    share = np.array([amount / 1e6])
    assert scale.shares_of(scale.of_shares(share, np.array([things])), np.array([things])) == pytest.approx(share)


def test_counts_wobble_alike_on_their_scale_whatever_their_size() -> None:
    """Poisson counts with a befalling of their own of 1 in √10, drawn: the spread is within a fifth from 8 to 800."""
    rng = np.random.default_rng(3)
    spreads = [
        scale.of_sums(rng.poisson(mean * rng.gamma(10, 0.1, 20000)).astype(float), np.ones(20000)).std()
        for mean in (8, 80, 800)
    ]
    assert max(spreads) / min(spreads) < 1.2


def test_students_quantile_is_that_of_the_tables() -> None:
    freedom = np.array([3.0, 4, 6, 10, 30, 200])
    assert scale.student(0.93, freedom) == pytest.approx(student_t.ppf(0.965, freedom), rel=0.01)
    assert scale.student(0.93, np.array([1e9])) == pytest.approx(NormalDist().inv_cdf(0.965))
