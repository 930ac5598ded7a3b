"""How sure a share is."""

import polars as pl
import pytest
from scipy.stats import binomtest

from analytics.methods.proportion import wilson


def ends(came: int, of: int) -> tuple[float | None, float | None]:
    return pl.select(*(end.alias(name) for name, end in zip("lh", wilson(pl.lit(came), pl.lit(of)), strict=True))).row(
        0
    )


@pytest.mark.parametrize(("came", "of"), [(0, 10), (7, 58), (10, 10), (1, 1), (412, 3000)])
def test_is_what_scipy_says(came: int, of: int) -> None:
    interval = binomtest(came, of).proportion_ci(method="wilson")
    assert ends(came, of) == pytest.approx((interval.low, interval.high), abs=1e-12)


def test_nothing_to_divide_by() -> None:
    assert ends(0, 0) == (None, None)
