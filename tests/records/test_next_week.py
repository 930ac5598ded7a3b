"""What another week without a visit takes from the chance of return."""

from datetime import date

import numpy as np
import polars as pl
import pytest
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.records.clients.habits import AHEAD_DAYS, Habits

TODAY = date(2026, 11, 1)


def one_client(chance: float, within_a_week: float) -> Habits:
    """A client who, if she still is one, comes on the third day with that probability, else on the thirtieth."""
    ahead = np.zeros((1, AHEAD_DAYS))
    ahead[0, 2], ahead[0, 29] = within_a_week, 1 - within_a_week
    clients = pl.DataFrame({"site": [""], "client_id": ["Ada"]})
    return Habits(TODAY, clients, np.array([chance]), ahead, np.array([0.1, 0.5, 0.9]))


def test_by_hand() -> None:
    """Of 100 such clients 80 still are, of whom 40 come within the week; of the 60 who have not come, 40 still are."""
    row = one_client(0.8, 0.5).expected().row(0, named=True)
    assert (row["chance_of_return"], row["chance_next_week"]) == pytest.approx((0.8, 2 / 3), abs=1e-6)


def test_who_was_not_expected_loses_nothing() -> None:
    assert one_client(0.8, 0.0).expected()["chance_next_week"][0] == pytest.approx(0.8)


@effort(max_examples=15, deadline=None)
@given(st.floats(0, 1), st.floats(0, 1))
def test_it_never_grows_by_waiting(chance: float, within_a_week: float) -> None:
    later = one_client(chance, within_a_week).chance_later(7)[0]
    assert -1e-9 <= later <= chance + 1e-6
