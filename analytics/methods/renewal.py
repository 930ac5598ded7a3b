"""Visits to come, drawn at random: first the next one, then one gap after the other until the client stops.

A renewal process with a delayed first event, drawn by inverse distribution functions (textbook; no table is published
for it). The seed is fixed, so that the same book gives the same answer.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Chances = NDArray[np.float32]
Whole = NDArray[np.int64]
MOST_VISITS = 40  # in the days drawn; nobody comes more often


class Visits(NamedTuple):
    """One entry per visit drawn: in which run, whose, and how many days ahead."""

    run: Whole
    whose: Whole
    day: Whole

    def __add__(self, other: "Visits") -> "Visits":  # type: ignore[override]
        return Visits(*(np.concatenate(pair) for pair in zip(self, other, strict=True)))


def drawn(chances: Chances, whose: Whole, draws: np.random.Generator) -> Whole:
    """A day (1, 2, …) for each entry by its client's row of `chances`; one more than there are where none comes."""
    reached = np.cumsum(chances, axis=1, dtype=np.float64)
    ladder = (np.minimum(reached, 1.0) + 2 * np.arange(len(chances))[:, None]).ravel()
    place = np.searchsorted(ladder, draws.random(len(whose)) + 2 * whose, side="right")
    days: Whole = np.minimum(place - whose * chances.shape[1], chances.shape[1]) + 1
    return days


def following(starts: Visits, gaps: Chances, stops: NDArray[np.float64], draws: np.random.Generator) -> Visits:
    """The visits after each start within the days of `gaps`; after each one a client stops with her chance."""
    days, now, found = gaps.shape[1], starts, Visits(*(np.zeros(0, np.int64) for _ in range(3)))
    for _ in range(MOST_VISITS):
        stays = draws.random(len(now.whose)) >= stops[now.whose]
        now = Visits(now.run[stays], now.whose[stays], now.day[stays])
        day = now.day + drawn(gaps, now.whose, draws)
        within = day <= days
        now = Visits(now.run[within], now.whose[within], day[within])
        if not len(now.day):
            break
        found = found + now
    return found
