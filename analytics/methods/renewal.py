"""How many visits are to come of each client: lives drawn at random until she stops or the time is over.

In each life a client is of one sort and has one chance to stop, drawn from what is known of her: who came soon is
likely to come soon again. Gaps are drawn by inverse distribution functions (a renewal process whose first gap has begun
already; textbook). The seed is fixed, so that the same book gives the same answer.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Whole = NDArray[np.int64]

SEED, RUNS = 20_240_501, 60


class Waiting(NamedTuple):
    """Clients between two visits. nodes: weight of each sort in the light of all that is known, stopping apart.
    outlasts: chance that a gap of that sort lasts as long as she is away. away: how long. still: chance that she is
    a client at all. stays_for: b of the Beta(a, b) that her chance to stop after a visit has; a is one for all."""

    nodes: Array
    outlasts: Array
    away: Array
    still: Array
    a: float
    stays_for: Array


def visits_to_come(waiting: Waiting, longer: Array, edges: Array, span: float) -> Array:
    """Mean number of visits of each client within `span`. longer: chance that a gap lasts beyond each of `edges`, one
    column per sort."""
    draws, total = np.random.default_rng(SEED), np.zeros(len(waiting.away))
    gaps, sorts = _Ladder(1 - longer.T.astype(np.float64)), _Ladder(_summed(waiting.nodes * waiting.outlasts))
    for _ in range(RUNS):
        who = np.flatnonzero(draws.random(len(total)) < waiting.still)
        sort = sorts.at(who, draws.random(len(who)))
        begun = 1 - waiting.outlasts[who, sort].astype(np.float64)
        time = gaps.value(sort, begun + (1 - begun) * draws.random(len(who)), edges) - waiting.away[who]
        stops = draws.beta(waiting.a, waiting.stays_for[who])
        while len(who):
            came = time <= span
            np.add.at(total, who[came], 1)
            goes_on = came & (draws.random(len(who)) >= stops)
            who, sort, time, stops = who[goes_on], sort[goes_on], time[goes_on], stops[goes_on]
            time = time + np.maximum(gaps.value(sort, draws.random(len(who)), edges), 1.0)
    return total / RUNS


def _summed(weights: Array) -> Array:
    out: Array = np.cumsum(weights, axis=1, dtype=np.float64)
    return out / np.maximum(out[:, -1:], 1e-30)


class _Ladder:
    """Rows of growing shares, one above the other, so that all are searched at once."""

    def __init__(self, shares: Array) -> None:
        self.shares = np.maximum.accumulate(np.clip(shares, 0, 1), axis=1)
        self.steps = (self.shares + 2.0 * np.arange(len(shares))[:, None]).ravel()

    def at(self, row: Whole, share: Array) -> Whole:
        """The first place in each row that lies above the share."""
        width = self.shares.shape[1]
        place = np.searchsorted(self.steps, share + 2.0 * row, side="right") - row * width
        out: Whole = np.clip(place, 0, width - 1)
        return out

    def value(self, row: Whole, share: Array, edges: Array) -> Array:
        """Where each row reaches the share, between its edges."""
        place = np.maximum(self.at(row, share), 1)
        below, above = self.shares[row, place - 1], self.shares[row, place]
        part = np.clip((share - below) / np.maximum(above - below, 1e-12), 0, 1)
        out: Array = edges[place - 1] + part * (edges[place] - edges[place - 1])
        return out
