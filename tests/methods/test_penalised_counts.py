"""Counts with a log-linear rate whose effects are held near nothing."""

import numpy as np
import pytest

from analytics.methods.penalised_counts import Group, fit

FREE = 1e3  # a spread at which nothing is held, and a weight at which it stays there
LONG = 1e12


def weeks(rows: int) -> np.ndarray:
    return np.arange(rows) // 7


def test_without_holding_it_is_the_poisson_regression_of_a_textbook() -> None:
    """Dobson, An Introduction to Generalized Linear Models (1990), p. 93, as R prints it under ?glm: 3.045, −0.4543 and
    −0.2930 for outcomes 2 and 3, nothing for treatments; standard errors 0.1709, 0.2022 and 0.1927."""
    counts = np.array([18.0, 17, 15, 20, 10, 20, 25, 13, 12])
    outcome, treatment = np.tile([0, 1, 2], 3), np.repeat([0, 1, 2], 3)
    design = np.stack([np.ones(9), outcome == 1, outcome == 2, treatment == 1, treatment == 2], axis=1).astype(float)
    found = fit(counts, np.ones(9), design, np.arange(9), (Group(slice(1, 5), FREE, LONG),))
    assert found.effects == pytest.approx([3.045, -0.4543, -0.2930, 0, 0], abs=5e-4)
    errors = np.sqrt(np.diag(found.covariance) / found.dispersion)
    assert errors[:3] == pytest.approx([0.1709, 0.2022, 0.1927], abs=5e-4)


def salon(rows: int, effect: float, seed: int = 1) -> tuple[np.ndarray, np.ndarray]:
    """Counts around 20 and around 20 × e^effect on every other row."""
    column = np.arange(rows) % 2.0
    design = np.stack([np.ones(rows), column], axis=1)
    return np.random.default_rng(seed).poisson(20 * np.exp(effect * column)).astype(float), design


@pytest.mark.parametrize("effect", [-0.5, 0.0, 0.4])
def test_many_counts_tell_the_effect_and_few_leave_it_near_nothing(effect: float) -> None:
    def found(rows: int) -> float:
        counts, design = salon(rows, effect)
        group = Group(slice(1, 2), 0.05, 1000.0)
        return float(fit(counts, np.ones(rows), design, weeks(rows), (group,)).effects[1])

    assert found(4000) == pytest.approx(effect, abs=0.03)
    assert abs(found(4)) <= abs(effect) / 2 + 0.03


def test_exposure_is_what_the_rate_is_per() -> None:
    counts, design = salon(400, 0.3)
    group = (Group(slice(1, 2), FREE, LONG),)
    one = fit(counts, np.ones(400), design, weeks(400), group)
    per_two = fit(counts, np.full(400, 2.0), design, weeks(400), group)
    assert per_two.effects == pytest.approx(one.effects - [np.log(2), 0])
    assert per_two.rate(np.full(400, 2.0), design) == pytest.approx(one.rate(np.ones(400), design))


def test_a_group_of_effects_learns_its_spread() -> None:
    """Forty columns whose effects spread by 0.4, where 0.1 was thought before; and by nothing."""
    draw, rows, columns = np.random.default_rng(5), 1200, 40
    column = np.arange(rows) % columns
    design = np.concatenate([np.ones((rows, 1)), column[:, None] == np.arange(columns)], axis=1)
    group = (Group(slice(1, columns + 1), 0.1, 3.0),)
    for spread in (0.4, 0.0):
        counts = draw.poisson(15 * np.exp(draw.normal(0, spread, columns))[column]).astype(float)
        found = fit(counts, np.ones(rows), design, weeks(rows), group).spreads[0]
        assert found == pytest.approx(0.4, abs=0.12) if spread else found < 0.06


def test_dispersion_is_that_of_blocks() -> None:
    """Whole weeks that are thick or thin together are overdispersed, though days within them are not told apart."""
    draw, rows = np.random.default_rng(6), 2100
    design, group = np.stack([np.ones(rows), np.zeros(rows)], axis=1), (Group(slice(1, 2), 0.1, 3.0),)
    alone = draw.poisson(10, rows).astype(float)
    together = draw.poisson(10 * np.repeat(draw.gamma(25, 1 / 25, rows // 7), 7)).astype(float)
    found = [fit(counts, np.ones(rows), design, weeks(rows), group).dispersion for counts in (alone, together)]
    assert found[0] == pytest.approx(1, abs=0.2)
    assert found[1] == pytest.approx(1 + 70 / 25, rel=0.25)


def test_heavy_tails_let_one_effect_be_large_and_keep_the_others_small() -> None:
    """A step to double in one of ten stretches, where steps are held near nothing."""
    rows, steps = 700, 10
    ramps = (np.arange(rows)[:, None] >= np.arange(steps) * rows / steps).astype(float)[:, 1:]
    design = np.concatenate([np.ones((rows, 1)), ramps], axis=1)
    counts = np.random.default_rng(7).poisson(10 * np.exp(np.log(2) * ramps[:, 4])).astype(float)

    def steps_found(freedom: float) -> np.ndarray:
        group = Group(slice(1, steps), 0.03, 40.0, freedom)
        return fit(counts, np.ones(rows), design, weeks(rows), (group,)).effects[1:]

    heavy, normal = steps_found(2.0), steps_found(np.inf)
    assert abs(heavy[4] - np.log(2)) < 0.5 * abs(normal[4] - np.log(2))
    assert np.abs(np.delete(heavy, 4)).max() < np.abs(np.delete(normal, 4)).max()
