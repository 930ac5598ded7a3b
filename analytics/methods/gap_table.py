"""Waits of every length and regularity in one table: how likely a client of each sort is to wait so long.

A sort of client, a node, is a usual gap (its median) and a shape. Gaps of the first shapes are log-normal, from clients
who keep to a day to those who hardly do; the last two are sums of two exponential gaps and single ones (Erlang-2 and
Erlang-1: no memory, the purchases of NBD models). With a small chance a visit was skipped, so that a gap is two of
hers; with a smaller one the gap is odd (a party, an illness) and may be anything around hers: the heavy tails.

Time is in any unit whose usual day counts one. It is cut into cells of about a day, which grow with the wait: edges lie
at UNIT · sinh(n / UNIT).
"""

from functools import cache
from math import erf, log, sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Whole = NDArray[np.int64]

UNIT, LONGEST = 100.0, 2000.0
SHORTEST_GAP, LONGEST_GAP, STEP = 3.0, 1200.0, 0.03
LENGTHS = np.arange(log(SHORTEST_GAP), log(LONGEST_GAP), STEP)
SPREADS = (0.03, 0.06, 0.1, 0.16, 0.25, 0.4, 0.6)
ERLANG = (2, 1)
MEDIANS = {1: 0.693147, 2: 1.678347}  # of Erlang gaps at rate 1
SHAPES = len(SPREADS) + len(ERLANG)
STRIDES = (1, 2, 3, 5, 8, 13, 20, 12, 16)  # lengths that one node stands for: wide gaps need no fine steps
SKIPPED_SPREAD, ODD_SPREAD = 0.1, 0.6
TINY = 1e-13  # what is less likely doesn't matter, and numbers near nought are slow


class Table(NamedTuple):
    """For usual, skipped and odd gaps at each node: cells, the probability to end in each cell, and longer, that to
    last beyond each edge (the first is 0). node_of: per shape the node of each of LENGTHS."""

    cells: Array
    longer: Array
    node_of: tuple[Whole, ...]


def edges() -> Array:
    """Where cells begin and end."""
    out: Array = np.concatenate([[0.0], UNIT * np.sinh(np.arange(1.5, UNIT * np.arcsinh(LONGEST / UNIT)) / UNIT)])
    return out


EDGES = edges()


def place(time: Array) -> tuple[Whole, Array]:
    """In which cell each time lies, and how far into it (0 to 1)."""
    steps = UNIT * np.arcsinh(time / UNIT)
    at = np.clip(np.where(steps < 1.5, steps / 1.5, steps - 0.5), 0, len(EDGES) - 1)
    cell = np.minimum(at.astype(np.int64), len(EDGES) - 2)
    return cell, at - cell


def beyond(longer: Array, time: Array) -> Array:
    """time: one per row. At each node of `longer` the chance that a gap lasts beyond it; linear within a cell."""
    cell, part = place(time)
    share = part[:, None]
    out: Array = longer[cell] * (1 - share) + longer[cell + 1] * share
    return out


@cache
def table() -> Table:
    """The same for all salons."""
    starts = np.cumsum([0, *(-(-len(LENGTHS) // stride) for stride in STRIDES)])
    node_of = tuple(start + np.arange(len(LENGTHS)) // stride for start, stride in zip(starts, STRIDES, strict=False))
    longer = np.empty((3, len(EDGES), int(starts[-1])))
    at = np.log(np.maximum(EDGES, 1e-6))[:, None]
    for shape, nodes in enumerate(node_of):
        middle = np.bincount(nodes - nodes[0], LENGTHS) / np.bincount(nodes - nodes[0])
        longer[:, :, nodes[0] : nodes[-1] + 1] = _waits(shape, at - middle)
    longer[:, 0] = 1
    return Table(np.maximum(longer[:, :-1] - longer[:, 1:], TINY), np.maximum(longer, TINY), node_of)


def _waits(shape: int, time: Array) -> tuple[Array, Array, Array]:
    """Usual, skipped and odd gaps: the chance to last beyond `time`, a logarithm in usual gaps."""
    if shape >= len(SPREADS):
        order = ERLANG[shape - len(SPREADS)]
        waited = np.exp(np.minimum(time, 6.0)) * MEDIANS[order]
        alone = _erlang(order, waited)
        return alone, _erlang(2 * order, waited), alone
    spread = SPREADS[shape]
    skipped, odd = sqrt(spread**2 / 2 + SKIPPED_SPREAD**2), max(spread, ODD_SPREAD)
    return _normal(time / spread), _normal((time - log(2)) / skipped), _normal(time / odd)


def _erlang(order: int, waited: Array) -> Array:
    terms, total = np.ones_like(waited), np.ones_like(waited)
    for number in range(1, order):
        terms = terms * waited / number
        total = total + terms
    out: Array = np.exp(-waited) * total
    return out


@cache
def _steps() -> tuple[Array, Array]:
    """The normal distribution as a table: scipy would cost every start of the command a fifth of a second."""
    at = np.linspace(-8, 8, 3201)
    return at, np.array([(1 - erf(z / sqrt(2))) / 2 for z in at])


def _normal(deviations: Array) -> Array:
    out: Array = np.interp(deviations, *_steps())
    return out
