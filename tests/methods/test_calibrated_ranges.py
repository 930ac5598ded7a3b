"""What was predicted against what was seen."""

import polars as pl
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.methods.calibration import reliability


def test_by_hand() -> None:
    """40 said 0.2, of whom 10 came; 40 said 0.8, of whom 30 came; nobody else."""
    said, came = [0.2] * 40 + [0.8] * 40, [True] * 10 + [False] * 30 + [True] * 30 + [False] * 10
    frame = reliability(pl.Series(said), pl.Series(came))
    assert frame.rows() == [(0.2, 0.25, 40), (0.8, 0.75, 40)]


def test_too_few_say_nothing_and_unknown_ones_do_not_count() -> None:
    assert reliability(pl.Series([0.5] * 39), pl.Series([True] * 39)).is_empty()
    unknown = reliability(pl.Series([0.1, None] * 30), pl.Series([True, False] * 30))
    assert unknown.is_empty()


@effort(max_examples=30, deadline=None)
@given(st.lists(st.tuples(st.sampled_from([0.1, 0.2, 0.5, 0.9]), st.booleans()), min_size=40, max_size=200))
def test_everybody_is_in_one_group_and_order_does_not_matter(rows: list[tuple[float, bool]]) -> None:
    frame = reliability(pl.Series([one for one, _ in rows]), pl.Series([came for _, came in rows]))
    turned = reliability(pl.Series([one for one, _ in rows[::-1]]), pl.Series([came for _, came in rows[::-1]]))
    assert frame["n"].sum() == len(rows) and frame["predicted"].is_sorted()
    assert frame["n"].to_list() == turned["n"].to_list()
