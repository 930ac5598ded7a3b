"""The individuals chart."""

import polars as pl
import pytest

from analytics.methods.control_chart import usual_before


def limits(*series: float, months: int) -> tuple[float, float]:
    """Of the last value, from the values before it."""
    low, high = usual_before(pl.col("value"), months)
    return pl.DataFrame({"value": series}).select(low=low, high=high).row(-1)


def test_by_hand() -> None:
    """Mean 105, every moving range 10: 105 ± 2.66 × 10, whatever the value itself."""
    assert limits(100.0, 110.0, 100.0, 110.0, 900.0, months=4) == pytest.approx((78.4, 131.6))


def test_a_constant_has_no_width() -> None:
    assert limits(7.0, 7.0, 7.0, 8.0, months=3) == (7, 7)


def test_limits_come_from_the_last_values_only() -> None:
    """Of 110, 100, 110 and 900: mean 305, moving ranges 10, 10 and 790."""
    assert limits(100.0, 110.0, 100.0, 110.0, 900.0, 500.0, months=4) == pytest.approx((-413.2, 1023.2))


def test_too_few_values_before_have_no_limits() -> None:
    assert limits(100.0, 110.0, 100.0, 110.0, months=4) == (None, None)
    assert limits(100.0, months=4) == (None, None)


def test_a_month_with_nothing_to_say_leaves_the_range_empty() -> None:
    low, _ = usual_before(pl.col("value"), 3)
    answer = pl.DataFrame({"value": [1.0, None, 2.0, 3.0, 4.0, 5.0]}).select(low=low)["low"]
    assert answer.to_list()[:5] == [None] * 5
    assert answer[5] is not None
