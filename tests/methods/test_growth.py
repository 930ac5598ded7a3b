"""Growth of hair as a prior that measurements update."""

from math import sqrt

import polars as pl
import pytest

from analytics.methods.growth import days_to, evidence, is_possible, posterior, shrinks


def rate_after(*measured: tuple[float, float], mean: float = 0.35, sd: float = 0.075) -> tuple[float, float]:
    """Mean and standard deviation after measurements of (days, mm)."""
    rows = pl.DataFrame(measured, schema={"days": pl.Float64(), "mm": pl.Float64()}, orient="row")
    weight, pull = evidence(pl.col("mm"), pl.col("days"))
    sums = rows.select(weight=weight, pull=pull)
    rate, spread = posterior(pl.lit(mean), pl.lit(sd), pl.col("weight"), pl.col("pull"))
    return sums.select(rate=rate, spread=spread).row(0)


def test_without_a_measurement_the_prior_stands() -> None:
    assert rate_after() == pytest.approx((0.35, 0.075))


def test_one_measurement_worked_by_hand() -> None:
    """8 mm in 21 days: precision 177.778 + 196; mean (62.222 + 74.667) ÷ 373.778."""
    assert rate_after((21, 8)) == pytest.approx((136.8889 / 373.7778, 1 / sqrt(373.7778)), rel=1e-6)


def test_measurements_one_after_the_other_are_measurements_at_once() -> None:
    first = rate_after((21, 8))
    assert rate_after((28, 12), mean=first[0], sd=first[1]) == pytest.approx(rate_after((21, 8), (28, 12)))


def test_many_measurements_leave_the_prior_behind() -> None:
    rate, spread = rate_after(*[(42, 21.0)] * 500)
    assert rate == pytest.approx(0.5, abs=0.001)
    assert spread < 0.002


@pytest.mark.parametrize(
    ("mm", "days", "possible"), [(38.1, 42, True), (38.2, 42, False), (4.5, 0, True), (0, 30, True), (-1, 30, False)]
)
def test_more_than_hair_can_grow_is_not_possible(mm: float, days: int, possible: bool) -> None:
    """42 days × 0.8 + 3 × 1.5 = 38.1 mm."""
    assert pl.select(is_possible(pl.lit(mm), pl.lit(days))).item() is possible


@pytest.mark.parametrize(("mm", "rate", "day"), [(10.5, 0.35, 30), (10, 0.35, 29), (0.35, 0.35, 1), (30, 0.35, 86)])
def test_the_first_whole_day_on_which_a_length_is_reached(mm: float, rate: float, day: int) -> None:
    assert pl.select(days_to(pl.lit(mm), pl.lit(rate))).item() == day


@pytest.mark.parametrize(
    ("later", "earlier", "wrong"), [(5.4, 10.0, True), (5.5, 10.0, False), (12, 10.0, False), (0, None, False)]
)
def test_hair_does_not_shrink(later: float, earlier: float | None, wrong: bool) -> None:
    """10 − 3 × 1.5 = 5.5 mm."""
    assert pl.select(shrinks(pl.lit(later), pl.lit(earlier, pl.Float64))).item() is wrong
