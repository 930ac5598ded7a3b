"""Where visits go that would have fallen on closed days: to open days before and after them, or to another time.

A visit that came near a closed spell came on the day its own rhythm had it, or it was moved there from a day of the
spell. How likely each is follows from the rhythm; in which places moved visits end is found from many of them by
maximum likelihood with the EM algorithm (a mixture of known parts with unknown shares: Dempster, Laird & Rubin 1977),
pulled toward PRIOR as by so many visits.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Whole = NDArray[np.int64]

# open days before a spell and after it, nearest first, that are looked at together
PLACES = ((1, 1), (2, 2), (3, 4), (5, 7), (8, 12))
FAR = PLACES[-1][-1]
DAYS = np.array([last - first + 1 for first, last in PLACES] * 2)
AFTER, ELSEWHERE = len(PLACES), 2 * len(PLACES)
# two in five before, the nearer the more; one in ten at another time (no source)
PRIOR = np.array([0.1, 0.08, 0.1, 0.08, 0.04, 0.2, 0.1, 0.1, 0.07, 0.03, 0.1])
PRIOR_VISITS = 15.0
STEPS = 40
TINY = 1e-12


class Near(NamedTuple):
    """Visits that came after a closed spell or shortly before it. own: the density her rhythm has for that day, given
    that she had not come by FAR open days before the spell. fallen: what it has for the spell. place: where she came,
    a number below AFTER before the spell, below ELSEWHERE after it."""

    own: Array
    fallen: Array
    place: Whole


def shares(near: Near) -> Array:
    """Of visits that would have fallen into a spell, the share that goes to each place; they add up to 1."""
    out = PRIOR
    for _ in range(STEPS):
        moved, elsewhere = _likely(near, out)
        found = np.bincount(near.place, moved, ELSEWHERE + 1)
        found[ELSEWHERE] = elsewhere.sum()
        out = (found + PRIOR * PRIOR_VISITS) / (found.sum() + PRIOR_VISITS)
    return out


def _likely(near: Near, share: Array) -> tuple[Array, Array]:
    """The chance of each visit to have been moved to where it came, and to have been put off to another time."""
    moved = near.fallen * a_day(share)[near.place]
    elsewhere = near.fallen * share[-1] * near.own / np.maximum(1 - near.fallen, TINY)
    total = np.maximum(near.own + moved + elsewhere, TINY)
    return moved / total, elsewhere / total


def a_day(share: Array) -> Array:
    """The share of each place for each of its days; nothing for elsewhere."""
    return np.append(share[:-1] / DAYS, 0.0)


def place_of(open_days: Whole) -> Whole:
    """open_days: counted from the spell, 1 for the first after it, −1 for the last before it; 0 for days of it."""
    firsts = np.array([first for first, _ in PLACES])
    near = np.searchsorted(firsts, np.abs(open_days), side="right") - 1
    out: Whole = np.where(open_days > 0, AFTER + near, near)
    return np.where((open_days == 0) | (np.abs(open_days) > FAR), ELSEWHERE, out)


def each_day(share: Array) -> tuple[Array, Array]:
    """The share of each of the FAR open days before and after a spell, nearest first."""
    each = np.repeat(a_day(share)[:-1], DAYS)
    return each[:FAR], each[FAR:]
