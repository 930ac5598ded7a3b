"""The range of a share, against Student's t and by drawing samples."""

import numpy as np
import polars as pl
import pytest
from scipy import stats

from analytics.methods.ratio import ratio_range


def sums(left: np.ndarray, mixed: np.ndarray, sampled: float = 0.0) -> pl.DataFrame:
    row = {"n": len(left), "left": left.sum(), "mixed": mixed.sum(), "left_2": (left**2).sum(), "sampled": sampled}
    return pl.DataFrame([row | {"mixed_2": (mixed**2).sum(), "left_x": (left * mixed).sum()}])


def range_of(*given: object) -> tuple[float, float]:
    low, high = ratio_range(sums(*given), "left", "mixed")  # type: ignore[arg-type]
    return low[0], high[0]


def test_equal_bowls_are_an_ordinary_mean() -> None:
    left, mixed = np.array([5.0, 9.0, 14.0, 12.0]), np.full(4, 50.0)
    wanted = stats.t.interval(0.8, 3, loc=(left / 50).mean(), scale=stats.sem(left / 50))
    assert range_of(left, mixed) == pytest.approx(wanted)


def test_where_all_bowls_were_weighed_nothing_is_left_to_guess() -> None:
    assert range_of(np.array([5.0, 9.0]), np.array([40.0, 50.0]), 1.0) == pytest.approx((14 / 90, 14 / 90))


def test_one_bowl_and_none_say_nothing() -> None:
    assert range_of(np.array([5.0]), np.array([40.0])) == (None, None)
    assert range_of(np.array([]), np.array([])) == (None, None)


@pytest.mark.parametrize(("weighed", "of"), [(6, 120), (30, 60), (100, 120)])
def test_holds_the_true_share_eight_times_in_ten(weighed: int, of: int) -> None:
    """Salons of bowls with gamma use and amounts that differ; so many weighed at random."""
    draw, held = np.random.default_rng(weighed), 0
    for _ in range(600):
        mixed = 5 * draw.integers(6, 20, of).astype(float)
        left = (mixed * (1 - draw.gamma(12, 0.75 / 12, of))).clip(0)
        picked = draw.choice(of, weighed, replace=False)
        low, high = range_of(left[picked], mixed[picked], weighed / of)
        held += low <= left.sum() / mixed.sum() <= high
    assert 0.75 < held / 600 < 0.87
