"""Where visits go that would have fallen on closed days: planted shares are found again, places worked by hand."""

import numpy as np
import pytest

from analytics.methods import moved_visits
from analytics.methods.moved_visits import AFTER, ELSEWHERE, FAR, PRIOR, Near, each_day, place_of, shares


def test_places_are_counted_from_the_spell() -> None:
    days = np.array([1, 2, 3, 4, 5, 12, 13, -1, -4, -13, 0])
    assert (place_of(days) - AFTER).tolist() == [0, 1, 2, 2, 3, 4, AFTER, -AFTER, 2 - AFTER, AFTER, AFTER]


def test_shares_add_up_and_days_of_a_place_share_alike() -> None:
    assert PRIOR.sum() == pytest.approx(1)
    before, after = each_day(PRIOR)
    assert (len(before), len(after)) == (FAR, FAR)
    assert before.sum() + after.sum() == pytest.approx(1 - PRIOR[ELSEWHERE])
    assert after[:4].tolist() == pytest.approx([0.2, 0.1, 0.05, 0.05])


def test_of_nothing_seen_the_prior_stays() -> None:
    nothing = Near(np.zeros(0), np.zeros(0), np.zeros(0, np.int64))
    assert shares(nothing).tolist() == pytest.approx(PRIOR.tolist())


BOTH_SIDES, NEXT_DAY = [0.3, 0.1, 0.05, 0, 0, 0.4, 0.1, 0, 0, 0, 0.05], [0, 0, 0, 0, 0, 1.0, 0, 0, 0, 0, 0]


@pytest.mark.parametrize("truth", [BOTH_SIDES, NEXT_DAY])
def test_planted_shares_are_found_among_visits_that_came_by_themselves(truth: list[float]) -> None:
    """4,000 visits, a third of which fall into the spell; the others come on any of the 40 days near it."""
    draws = np.random.default_rng(4)
    counts = np.array([last - first + 1 for first, last in moved_visits.PLACES] * 2 + [40 - 2 * FAR])
    fallen, alone = np.full(4000, 1 / 3), counts / counts.sum()
    moved = draws.random(4000) < 1 / 3
    goes = draws.choice(ELSEWHERE + 1, 4000, p=truth)
    place = np.where(moved & (goes < ELSEWHERE), goes, draws.choice(ELSEWHERE + 1, 4000, p=alone))
    found = shares(Near(np.full(4000, 2 / 3 / 40), fallen, place))
    assert found.sum() == pytest.approx(1)
    assert found.tolist() == pytest.approx(truth, abs=0.1)
