"""Visits to come, drawn from what is known."""

import numpy as np
import pytest

from analytics.methods.renewal import Waiting, visits_to_come

EDGES = np.array([0.0, 9.9, 10.1, 40.0, 40.2])
EVERY_TEN, EVERY_FORTY = [1, 1, 0, 0, 0], [1, 1, 1, 1, 0]
LONGER = np.array([EVERY_TEN, EVERY_FORTY], np.float64).T


def waiting(nodes: list[float], still: float = 1.0, a: float = 1e-9, b: float = 1e9) -> Waiting:
    """400 clients alike, who were here today."""
    weights = np.tile(np.array(nodes, np.float64), (400, 1))
    away = np.zeros(400)
    return Waiting(weights, np.ones((400, 2), np.float64), away, np.full(400, still), a, np.full(400, b))


def test_every_ten_days_by_hand() -> None:
    """Days 10, 20 and 30 within 35."""
    assert visits_to_come(waiting([1, 0]), LONGER, EDGES, 35.0) == pytest.approx(3)


def test_half_are_no_clients_any_more() -> None:
    assert visits_to_come(waiting([1, 0], still=0.5), LONGER, EDGES, 35.0) == pytest.approx(1.5)


def test_whether_she_comes_at_all_is_worked_out_not_drawn() -> None:
    """Of the first sort she comes within 35 days, and stops; of the second after 40: a quarter of a visit."""
    who = waiting([0.25, 0.75], a=1e9, b=1e-9)
    assert visits_to_come(who, LONGER, EDGES, 35.0) == pytest.approx(0.25)


def test_who_always_stops_comes_once() -> None:
    assert visits_to_come(waiting([1, 0], a=1e9, b=1e-9), LONGER, EDGES, 35.0) == pytest.approx(1)


def test_a_client_is_of_one_sort_throughout() -> None:
    """Either every 10 days, 8 times in 85, or every 40, twice: five on average."""
    assert visits_to_come(waiting([0.5, 0.5]), LONGER, EDGES, 85.0).mean() == pytest.approx(5, abs=0.1)


def test_days_gone_by_are_taken_off() -> None:
    """Away for 20 of about 40 days she is of the second sort: day 20, then 60."""
    base = waiting([0.5, 0.5])
    out = np.tile(np.array([0, 1], np.float64), (400, 1))
    late = base._replace(away=np.full(400, 20.0), outlasts=out)
    assert visits_to_come(late, LONGER, EDGES, 61.0) == pytest.approx(2)
