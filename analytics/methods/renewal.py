"""How many visits are to come of each client: her chance to come at all, and how many follow her next visit.

The chance to come is worked out. Her sort and the day of her next visit are drawn from what is known of her: who came
soon is likely to come soon again. Draws are from equal parts of their distributions in turn (Latin hypercube sampling:
McKay, Beckman & Conover 1979, Technometrics 21:239–245; from memory), with a fixed seed, so that the same book gives
the same answer. How many visits then follow is the renewal function of her sort (textbook), each visit counted by the
chance that she has not stopped by then: E[(1 − p)^k] for the k-th, where p is Beta(a, b). Time is cut into days.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Whole = NDArray[np.int64]

SEED, RUNS, TINY = 20_240_501, 60, 1e-30
FEW = 1e-6  # visits that make no difference


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
    later = np.minimum(_beyond(longer, edges, waiting.away + span), waiting.outlasts)
    soon = waiting.nodes * (waiting.outlasts - later)
    comes = waiting.still * soon.sum(axis=1) / np.maximum((waiting.nodes * waiting.outlasts).sum(axis=1), TINY)
    who = np.flatnonzero(comes > 0)
    stays, group = np.unique(waiting.stays_for[who], return_inverse=True)
    follow = _following(longer, edges, span, _still(waiting.a, stays, int(span)))
    draws, visits = np.random.default_rng(SEED), np.zeros(len(comes))
    gaps, sorts = _Ladder(1 - longer.T.astype(np.float64)), _Ladder(_summed(soon[who]))
    everybody = np.arange(len(who))
    for of_sorts, of_gaps in zip(_strata(draws, len(who)), _strata(draws, len(who)), strict=True):
        sort = sorts.at(everybody, of_sorts)
        begun, over = 1 - waiting.outlasts[who, sort], 1 - later[who, sort]
        time = gaps.value(sort, begun + (over - begun) * of_gaps, edges) - waiting.away[who]
        visits[who] += 1 + _read(follow, group, sort, span - time)
    out: Array = comes * visits / RUNS
    return out


def _still(a: float, b: Array, most: int) -> Array:
    """groups × visits: the chance not to have stopped before the first, second, … of the visits that follow."""
    steps = np.arange(most + 1)
    return np.cumprod((b[:, None] + steps) / (a + b[:, None] + steps), axis=1).astype(np.float64)


def _following(longer: Array, edges: Array, span: float, still: Array) -> Array:
    """groups × sorts × days: visits that follow one within so many days and a half; gaps end in the middle of days."""
    days = int(span) + 1
    ends = np.concatenate([[0.0], np.arange(days) + 0.5])
    ends[1] = 0.0  # no gap is shorter than half a day
    gap = -np.diff(_beyond(longer, edges, ends), axis=0).T
    spectrum = np.fft.rfft(gap, 2 * days, axis=1)
    out = np.zeros((len(still), *gap.shape))
    sorts, reached = np.arange(len(gap)), gap
    for visit in still.T:
        out[:, sorts] += visit[:, None, None] * np.cumsum(reached, axis=1)
        lasts = reached.sum(axis=1) > FEW
        sorts, reached = sorts[lasts], reached[lasts]
        if not len(sorts):
            break
        reached = np.fft.irfft(np.fft.rfft(reached, 2 * days, axis=1) * spectrum[sorts], axis=1)[:, :days]
    return out


def _read(follow: Array, group: Whole, sort: Whole, left: Array) -> Array:
    """What follows within the days left, between one half day and the next."""
    at = np.clip(left - 0.5, 0, follow.shape[2] - 1)
    day = np.minimum(at.astype(np.int64), max(follow.shape[2] - 2, 0))
    below, above = follow[group, sort, day], follow[group, sort, np.minimum(day + 1, follow.shape[2] - 1)]
    out: Array = below + (at - day) * (above - below)
    return out


def _strata(draws: np.random.Generator, clients: int) -> Array:
    """Runs × clients: random shares, one in each of RUNS equal parts for every client, in an order of her own."""
    part = draws.permuted(np.tile(np.arange(RUNS), (clients, 1)), axis=1)
    out: Array = (part + draws.random(part.shape)).T / RUNS
    return out


def _beyond(longer: Array, edges: Array, time: Array) -> Array:
    """time: one per row. Per sort the chance that a gap lasts beyond it; linear between edges."""
    place = np.clip(np.searchsorted(edges, time, side="right") - 1, 0, len(edges) - 2)
    part = np.clip((time - edges[place]) / (edges[place + 1] - edges[place]), 0, 1)[:, None]
    out: Array = longer[place] * (1 - part) + longer[place + 1] * part
    return out


def _summed(weights: Array) -> Array:
    out: Array = np.cumsum(weights, axis=1, dtype=np.float64)
    return out / np.maximum(out[:, -1:], TINY)


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
