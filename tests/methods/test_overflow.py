"""What does not fit goes to its neighbours."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from analytics.methods.overflow import fitted


def row(*wanted: float, most: float = 10.0) -> list[float]:
    return fitted(np.array([wanted]), np.full(len(wanted), most))[0].tolist()


def test_what_fits_stays() -> None:
    assert row(3, 10, 0) == [3, 10, 0]


def test_half_goes_to_either_side() -> None:
    assert row(5, 14, 5) == [7, 10, 7]


def test_where_a_neighbour_is_full_it_goes_on_to_the_next() -> None:
    """Six too many: three each way; the left neighbour takes one of them and passes two on."""
    assert row(5, 9, 16, 5, 5) == pytest.approx([7, 10, 10, 8, 5])


def test_what_is_too_much_everywhere_is_not_done() -> None:
    assert row(20, 20) == [10, 10]


@given(arrays(np.float64, (3, 6), elements=st.floats(0, 40)), st.floats(0, 30))
def test_no_place_holds_more_and_nothing_comes_from_nowhere(wanted: np.ndarray, most: float) -> None:
    done = fitted(wanted, np.full(6, most))
    assert (done <= most + 1e-9).all()
    assert (done >= np.minimum(wanted, most) - 1e-9).all()
    assert (done.sum(axis=1) <= wanted.sum(axis=1) + 1e-9).all()
