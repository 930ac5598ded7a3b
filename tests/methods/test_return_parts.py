"""The parts of the habit: rhythm, stopping, weekdays, and visits drawn from them."""

import numpy as np
import pytest

from analytics.methods import dropping_out, return_times, weekdays


def fitted(gaps: list[list[int]], running: list[int]) -> tuple[return_times.Rhythms, return_times.Waits]:
    """One kind; each client's gaps and the days since her last visit."""
    whose = np.array([place for place, each in enumerate(gaps) for _ in each], np.int64)
    days = np.array([gap for each in gaps for gap in each], np.int64)
    waits = return_times.Waits(whose, days, np.zeros(len(gaps), np.int64), np.array(running, np.int64))
    return return_times.fit(waits, 1, np.full(len(gaps), 0.02)), waits


def middle(gaps: list[list[int]], running: list[int]) -> list[int]:
    """Days ahead by which half of what may come has come."""
    rhythms, waits = fitted(gaps, running)
    ahead = rhythms.ahead(rhythms.nodes(waits), waits, 350)
    return [int(day) + 1 for day in (np.cumsum(ahead, axis=1) < 0.5).sum(axis=1)]


def test_a_gap_has_one_length_or_another() -> None:
    rhythms, _ = fitted([[42, 40, 44]] * 5, [10] * 5)
    assert rhythms.gap.sum(axis=0) == pytest.approx(1, abs=1e-5)
    assert 1 - np.cumsum(rhythms.gap, axis=0)[42] == pytest.approx(rhythms.longer[42], abs=1e-5)
    assert rhythms.prior.sum(axis=1) == pytest.approx(1, abs=1e-5)


def test_the_days_gone_by_are_taken_off() -> None:
    assert middle([[42, 41, 43, 42, 42, 41, 43]] * 20, [2, 12, *[5] * 18])[:2] == [40, 30]


def test_one_odd_client_is_pulled_toward_the_others() -> None:
    few, many = middle([[42] * 8] * 20 + [[60], [60] * 20], [0] * 22)[20:]
    assert 42 < few < many
    assert many in (59, 60, 61)


def test_nobody_known_leaves_six_weeks() -> None:
    assert 36 <= middle([[]], [0])[0] <= 46


def test_stopping_is_found_where_there_is_some() -> None:
    """A third of 3,000 clients stopped at each visit; half of the rest came again by now."""
    draws = np.random.default_rng(2)
    times = draws.geometric(1 / 3, 3000) - 1
    a, b = dropping_out.fit(times, np.full(3000, 0.01))
    assert a / (a + b) == pytest.approx(1 / 3, abs=0.03)


def test_a_chance_to_stay_worked_by_hand() -> None:
    """Beta(1, 3): E[(1 − p)²] = 3/4 × 4/5; after two visits survived she stops with 1/6."""
    assert dropping_out.stays(np.array([0, 1, 2]), 1, 3) == pytest.approx([1, 0.75, 0.6])
    assert dropping_out.stopped(np.array([2]), 1, 3) == pytest.approx(1 / 6)
    assert dropping_out.still_client(np.array([2]), np.array([0.2]), 1, 3) == pytest.approx(1 / 6 / (1 / 6 + 1 / 6))


def test_usual_weekdays_count_by_how_many_visits_show_them() -> None:
    always, new, any_day = np.array([0, 0, 0, 20, 0, 0, 0]), np.zeros(7), np.array([3, 3, 3, 3, 3, 3, 3])
    leanings = weekdays.leanings(np.array([always] * 10 + [new] + [any_day] * 10, float))
    assert leanings.sum(axis=1) == pytest.approx(7)
    assert leanings[0, 3] > 5 > leanings[10, 3] > leanings[11, 3]
