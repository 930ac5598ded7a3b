"""Published values of managerial accounting and of comparing months. Sources stand beside each check."""

from fractions import Fraction

import polars as pl
import pytest

from analytics.methods.break_even import price_trial
from analytics.methods.price_volume_mix import Sold, price_volume_mix
from analytics.periods import per_usual_month


def test_global_air_exercise() -> None:
    """The Global Air exercise of managerial accounting: planned 1,000, 3,000 and 16,000 at 3,200, 2,400 and 900; actual
    2,400, 6,000 and 15,600 earned 6.24, 9.60 and 10.92 million. Price −9.36, quantity 4.96 and mix 6.36 million."""
    planned = [Sold(Fraction(q), Fraction(q * price)) for q, price in ((1000, 3200), (3000, 2400), (16000, 900))]
    earned = ((2400, 6_240_000), (6000, 9_600_000), (15600, 10_920_000))
    effects = price_volume_mix(planned, [Sold(Fraction(q), Fraction(amount)) for q, amount in earned])
    price, volume, mix = (sum(part) for part in zip(*effects, strict=True))
    assert (price, volume, mix) == (-9_360_000, 4_960_000, 6_360_000)


def test_haircut_break_even() -> None:
    """OpenStax, Principles of Managerial Accounting 3.2: 200 haircuts at 35 less 20 leave the fixed 3,000."""
    assert price_trial(200, 35, 20, 30).after_product_before == 3000


@pytest.mark.parametrize(("amount", "days", "usual"), [(100_000, 28, 108_705), (110_000, 31, 108_004)])
def test_month_length(amount: int, days: int, usual: int) -> None:
    """Month-length adjustment at 365.25 ÷ 12 days a month, as forecasting texts give it (arithmetic redone)."""
    assert round(pl.select(per_usual_month(pl.lit(amount), days)).item()) == usual
