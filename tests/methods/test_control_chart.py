"""The individuals chart."""

import polars as pl
import pytest

from analytics.methods.control_chart import limits, usual_before


def test_by_hand() -> None:
    """Mean 105, every moving range 10: 105 ± 2.66 × 10."""
    assert limits([100, 110, 100, 110]) == pytest.approx((78.4, 131.6))


def test_a_constant_has_no_width_and_one_value_no_limits() -> None:
    assert limits([7, 7, 7]) == (7, 7)
    assert limits([7]) is None
    assert limits([]) is None


def test_limits_come_from_the_values_before_and_not_from_the_value_itself() -> None:
    series = [100.0, 110.0, 100.0, 110.0, 900.0, 500.0]
    low, high = usual_before(pl.col("value"), 4)
    answer = pl.DataFrame({"value": series}).select(low=low, high=high)
    assert answer["low"].to_list()[:4] == [None] * 4
    assert answer.row(4) == pytest.approx(limits(series[:4]))
    assert answer.row(5) == pytest.approx(limits(series[1:5]))


def test_a_month_with_nothing_to_say_leaves_the_range_empty() -> None:
    low, _ = usual_before(pl.col("value"), 3)
    answer = pl.DataFrame({"value": [1.0, None, 2.0, 3.0, 4.0, 5.0]}).select(low=low)["low"]
    assert answer.to_list()[:5] == [None] * 5
    assert answer[5] is not None
