"""Bowls against values published elsewhere."""

import numpy as np
import polars as pl
import pytest
from scipy.special import ndtri

from analytics.methods.newsvendor import best_amount, critical_ratio, expected_cost
from analytics.methods.peroxide import LIMIT_PERCENT, VOLUMES, strength, too_strong
from analytics.methods.price_quantity import price_variance, quantity_variance


def test_newsvendor_example() -> None:
    """Snyder & Shen, Fundamentals of Supply Chain Theory, example 4.3 (figures as in stockpyl.newsvendor, MIT):
    h 0.18, p 0.70, demand N(50, 8²): 56.60395592743389 at a cost of 1.9976051931766445. Here the normal demand is cut
    into 200,000 equally likely points."""
    points = 50 + 8 * ndtri((np.arange(200_000) + 0.5) / 200_000)
    weights = np.full(200_000, 1 / 200_000)
    amount = best_amount(points, weights, critical_ratio(0.18, 0.70))
    assert amount == pytest.approx(56.60395592743389, abs=1e-3)
    assert expected_cost(np.array([amount]), points, weights, 0.18, 0.70)[0] == pytest.approx(
        1.9976051931766445, abs=1e-4
    )


def mixed(*parts: tuple[float, float | None]) -> float | None:
    """The strength of grams of a percent mixed together; 0 % for what holds no peroxide."""
    frame = pl.DataFrame({"g": [g for g, _ in parts], "p": [p for _, p in parts]}, schema={"g": float, "p": float})
    return frame.select(strength(pl.col("g"), pl.col("p"), pl.col("g").sum())).item()


@pytest.mark.parametrize(
    ("colour", "developer", "percent", "ready"), [(1, 1, 6, 3.0), (1, 1.5, 6, 3.6), (1, 2, 12, 8.0)]
)
def test_dilution(colour: float, developer: float, percent: float, ready: float) -> None:
    """Arithmetic by parts: 1:1 of 6 % is 3.0 %, 1:1.5 of 6 % is 3.6 %, 1:2 of 12 % is 8.0 %."""
    assert mixed((colour, 0), (developer, percent)) == pytest.approx(ready)


def test_two_developers_and_one_of_unknown_strength() -> None:
    assert mixed((30, 3), (30, 9)) == pytest.approx(6)
    assert mixed((30, 0), (30, None)) is None


def test_volumes_are_labels() -> None:
    """11.2 × mol/L at 34.0147 g/mol: 10 volume is 3.04 % w/v and 40 volume 12.1 %, above what the label says.

    3 % as 10 volume, 6 % as 20 volume and so on: common practice, no source."""
    assert VOLUMES == {3: 10, 6: 20, 9: 30, 12: 40}
    percent = {volume: volume / 11.2 * 34.0147 / 10 for volume in VOLUMES.values()}
    assert percent[10] == pytest.approx(3.035, abs=0.003)
    assert percent[30] == pytest.approx(9.11, abs=0.003)
    assert percent[40] == pytest.approx(12.14, abs=0.01)
    assert percent[40] > LIMIT_PERCENT


def test_twelve_percent_is_the_limit() -> None:
    """Regulation (EC) No 1223/2009, Annex III, entry 12, as amended by (EU) 2019/831: 12 % in hair products."""
    frame = pl.DataFrame({"percent": [11.9, 12.0, 12.1, None]})
    assert frame.select(too_strong(pl.col("percent"))).to_series().to_list() == [False, False, True, None]


def test_price_and_quantity_variance() -> None:
    """OpenStax, Principles of Accounting 2, 8.2: standard 0.25 lb at 7, actual 0.50 at 9: 1.00 and 1.75 dearer."""
    found = pl.select(
        price=price_variance(pl.lit(0.50 * 9), pl.lit(0.50 * 7)),
        quantity=quantity_variance(pl.lit(0.50 * 7), pl.lit(0.25 * 7)),
    )
    assert found.row(0) == (1.00, 1.75)
