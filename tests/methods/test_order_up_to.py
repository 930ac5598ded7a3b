"""The order-up-to level, whole packs, and what expires before it is used."""

import polars as pl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analytics.methods.order_up_to import order_up_to, packs_to
from analytics.methods.shelf_life import wasted


def level(mean: float, sd: float, weeks: float, service_level: float) -> float:
    return float(pl.select(order_up_to(pl.lit(mean), pl.lit(sd), weeks, service_level)).item())


def test_for_one_week_it_is_the_published_newsvendor_level() -> None:
    """Snyder and Shen, example 4.3 (also in stockpyl, MIT): N(50, 8²), h .18, p .70: level 56.60395592743389."""
    assert level(50, 8, 1, 0.70 / 0.88) == pytest.approx(56.60395592743389, rel=1e-9)


def test_over_several_weeks_means_add_up_and_so_do_variances() -> None:
    assert level(50, 8, 4, 0.70 / 0.88) == pytest.approx(200 + 2 * 6.60395592743389, rel=1e-9)
    assert level(50, 8, 4, 0.5) == 200


@pytest.mark.parametrize(("there", "packs"), [(100, 0), (60, 0), (59.9, 1), (0, 1), (-0.1, 2), (-60, 2)])
def test_packs_are_whole_and_never_less_than_none(there: float, packs: int) -> None:
    assert pl.select(packs_to(pl.lit(60.0), pl.lit(there), pl.lit(60.0))).item() == packs


def lots(*rows: tuple[float, float]) -> list[float]:
    """Waste of lots in order of expiry: (held, used by then)."""
    frame = pl.DataFrame(rows, schema=["held", "usable"], orient="row")
    return frame.select(wasted(pl.col("held"), pl.col("usable")))["held"].to_list()


def test_what_expires_unused_by_hand() -> None:
    """60 g till day 10 and 60 g till day 20, 5 g a day: 50 g of the first are used, then 50 g of the second."""
    assert lots((60, 50), (60, 100)) == [10, 10]
    assert lots((40, 50), (60, 100)) == [0, 0]
    assert lots((30, 0), (60, 100)) == [30, 0]


LOTS = st.lists(st.tuples(st.integers(0, 100), st.integers(0, 60)), min_size=1, max_size=8)


@settings(max_examples=50, deadline=None)
@given(LOTS)
def test_no_lot_wastes_more_than_it_held_and_waste_is_what_using_day_by_day_leaves(rows: list[tuple[int, int]]) -> None:
    """rows: what a lot holds, and what is used between its expiry and the one before."""
    usable, between, left, by_hand = [], 0, [held for held, _ in rows], []
    for place, (_, used) in enumerate(rows):
        between += used
        usable.append(between)
        for lot in range(place, len(rows)):  # first to expire, first used
            taken = min(left[lot], used)
            left[lot], used = left[lot] - taken, used - taken  # noqa: PLW2901
        by_hand.append(left[place])
    assert lots(*[(held, by) for (held, _), by in zip(rows, usable, strict=True)]) == by_hand
