"""What a month of a service leaves, and how many sales a dearer price may lose."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from analytics.methods.break_even import break_even_share, price_trial


def test_a_sale_that_leaves_nothing_over_never_breaks_even() -> None:
    assert break_even_share(10, 0) is None
    assert break_even_share(0, 10) is None


def test_a_price_up_by_a_quarter_may_lose_a_fifth() -> None:
    assert break_even_share(40, 50) == pytest.approx(0.2)


def test_a_price_cut_needs_more_clients() -> None:
    assert break_even_share(50, 40) == pytest.approx(-0.25)


def test_a_month_at_another_price_in_another_time_with_some_clients_gone() -> None:
    """20 lines of 45 minutes at 50 net with 10 of product; 10 % dearer, 30 minutes, a tenth stay away."""
    trial = price_trial(20, 50, 10, 45, price_ratio=1.1, minutes=30, staying_away=0.1)
    assert (trial.net_before, trial.after_product_before, trial.chair_hours_before) == (1000, 800, 15)
    assert trial.net_after == pytest.approx(990)  # 18 × 55
    assert trial.after_product_after == pytest.approx(810)  # 18 × 45
    assert trial.chair_hours_after == pytest.approx(9)
    assert trial.net_per_chair_hour_after == pytest.approx(110)
    assert trial.break_even_share == pytest.approx(1 / 9)  # 40 ÷ 45


def test_a_service_that_takes_no_time_brings_nothing_an_hour() -> None:
    assert price_trial(20, 50, 10, 0).net_per_chair_hour_before is None


@given(
    st.floats(1, 200), st.floats(5, 200), st.floats(0, 4), st.floats(5, 240), st.floats(0.9, 2)
)  # fmt: skip
def test_with_the_break_even_share_gone_the_month_keeps_what_it_had(
    lines: float, net: float, product: float, minutes: float, ratio: float
) -> None:
    share = price_trial(lines, net, product, minutes, ratio).break_even_share
    assert share is not None
    trial = price_trial(lines, net, product, minutes, ratio, staying_away=share)
    assert trial.after_product_after == pytest.approx(trial.after_product_before)
