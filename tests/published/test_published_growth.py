"""Growth of scalp hair against published rates."""

import polars as pl
import pytest

from analytics.definitions.tables import TABLES
from analytics.methods.growth import days_to
from analytics.settings import RootLengths

PRIOR = RootLengths()
GROUP_MEANS = (0.256, 0.396, 0.280, 0.367, 0.411)  # mm a day; Loussouarn 2001, Br J Dermatol 145:294–297, and 2005


@pytest.mark.parametrize(("rate", "days", "whole_days"), [(0.280, 45.4, 46), (0.367, 34.6, 35), (0.411, 30.9, 31)])
def test_days_to_half_an_inch(rate: float, days: float, whole_days: int) -> None:
    """Loussouarn, El Rawadi, Genain 2005, Int J Dermatol 44 S1:6–9: 12.7 mm at 280, 367 and 411 µm a day."""
    assert 12.7 / rate == pytest.approx(days, abs=0.05)
    assert pl.select(days_to(pl.lit(12.7), pl.lit(rate))).item() == whole_days


def test_a_centimetre_in_28_days() -> None:
    """BioNumbers 109909."""
    assert pl.select(days_to(pl.lit(10.0), pl.lit(10 / 28))).item() == 28


def test_a_centimetre_a_month_is_the_default_rate() -> None:
    """Common practice, no source: a centimetre a month is about 0.35 mm a day (0.35 × 28.6 ≈ 10)."""
    assert PRIOR.growth_mm_per_day * 28.6 == pytest.approx(10, abs=0.05)
    assert pl.select(days_to(pl.lit(PRIOR.touch_up_from_mm), pl.lit(PRIOR.growth_mm_per_day))).item() == 29


def test_the_default_rate_lies_among_the_published_means() -> None:
    """Loussouarn 2001 and Loussouarn et al. 2005: 80 % of the prior reaches over all of their group means."""
    assert min(GROUP_MEANS) < PRIOR.growth_mm_per_day < max(GROUP_MEANS)
    low, high = (PRIOR.growth_mm_per_day + side * 1.2816 * PRIOR.growth_sd for side in (-1, 1))
    assert low < min(GROUP_MEANS) < max(GROUP_MEANS) < high
    assert PRIOR.growth_mm_per_day < 12.7 / 30.44  # half an inch a month is above every group mean


def test_no_developer_is_stronger_than_the_law_allows() -> None:
    """Regulation (EC) 1223/2009, Annex III entry 12 (2019/831): 12 % hydrogen peroxide in hair products."""
    strength = next(column for column in TABLES["products"].columns if column.name == "strength_percent")
    assert strength.high == 12
