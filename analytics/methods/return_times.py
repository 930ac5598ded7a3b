"""How long until a client comes again: her own gaps, pulled toward clients of her kind by how few she has.

Each client is of one sort, a node of methods/gap_table: a usual gap and a shape, from clockwork to no memory. How
common each length is among clients of a kind, how common each shape is at a length, and how common skipped and odd gaps
are, is estimated from all clients at once by maximum likelihood with the EM algorithm. Lengths are smoothed after each
step (Silverman, Jones, Wilson, Nychka 1990, JRSS B 52:271–324). Shapes are told by clients with a gap alone, are alike
at like lengths, and where few such clients are they are as elsewhere: who came once fits any shape of a long gap, and
taken for a regular client of a very long one she would never count as gone. (On customers of CDNOW other than those of
the test, visits to come erred by half a hundredth less so than with shapes told by clients with two gaps.) Each kind is
pulled toward all kinds, and those toward a wide start around six weeks (common practice, no source), which is all that
is known of a salon without gaps.

A client's own gaps, and that she has not come for so long, turn the node weights of her kind into her own (empirical
Bayes: Efron 2014, Statistical Science 29:285–301; references from memory). With few gaps of her own she is like her
kind; with many she is like herself. Mixing over lengths and shapes without a formula for either holds the models of
regular and irregular buyers as special cases (NBD: one shape; CNBD-k and Pareto/GGG: Platzer and Reutterer 2016,
Marketing Science 35:779–799).
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Whole = NDArray[np.int64]

START_DAYS, START_SPREAD = 42.0, 0.45  # a start without gaps: six weeks, between three and twelve
ANY_LENGTH, ANY_SPREAD = 0.3, 1.2  # and, for so many, anything
COMMON_SHAPES = np.array([0.08, 0.14, 0.24, 0.26, 0.16, 0.08, 0.04, 0.02, 0.02])
USUAL_PARTS = np.array([0.92, 0.05, 0.03])  # usual, skipped and odd gaps, before any was seen
PARTS_WEIGHT = 60.0  # as if they had been seen on so many gaps
ALL_KINDS_WEIGHT, START_WEIGHT = 8.0, 15.0  # clients' worth of pull toward all kinds, and of these toward the start
TELLING_GAPS = 1  # a client with fewer says nothing of shapes
ALIKE, SHAPES_WEIGHT = 0.3, 5.0  # lengths with like shapes, on the log scale; clients' worth of pull toward all
STEPS = 8
TINY, LEAST_LOG = 1e-13, -25.0


class Waits(NamedTuple):
    """What is known of clients 0 … n−1: completed gaps (whose, in which cell), kind of each, and beyond: at each node
    of each part of the table, the chance that a gap lasts as long as she has been away."""

    whose: Whole
    cells: Whole
    kind: Whole
    beyond: Array

    @property
    def gaps(self) -> Whole:
        """How many completed gaps each client has."""
        return np.bincount(self.whose, minlength=len(self.kind))


class Grid(NamedTuple):
    """The sorts of clients there are. lengths: logarithms of usual gaps. node_of: per shape the node of each length.
    cells: for usual, skipped and odd gaps, the probability of each node's gap to end in each cell of time."""

    lengths: Array
    node_of: tuple[Whole, ...]
    cells: Array


@dataclass(frozen=True)
class Rhythms:
    """lengths: how common each length is in each kind. shapes: per kind and length, how common each shape is. parts:
    how common usual, skipped and odd gaps are."""

    lengths: Array
    shapes: Array
    parts: Array

    def mixed(self, table: Array) -> Array:
        """Usual, skipped and odd gaps taken together."""
        out: Array = np.tensordot(self.parts, table, 1)
        return out

    def prior(self, grid: Grid) -> Array:
        """Share of each node among clients of each kind."""
        nodes = grid.cells.shape[-1]
        out = np.zeros((len(self.lengths), nodes))
        for shape, node in enumerate(grid.node_of):
            for kind, mass in enumerate(self.lengths * self.shapes[:, :, shape]):
                out[kind] += np.bincount(node, mass, nodes)
        return out

    def nodes(self, waits: Waits, grid: Grid) -> Array:
        """Each client's weight on each node in the light of her completed gaps; rows add up to 1."""
        seen, counts = _counts(waits)
        likely = _likely(counts, self.mixed(grid.cells[:, seen]))
        return _normed(likely * self.prior(grid)[waits.kind])


def start(grid: Grid, kinds: int) -> Rhythms:
    """Before anything was seen."""
    shapes = np.tile(COMMON_SHAPES / COMMON_SHAPES.sum(), (kinds, len(grid.lengths), 1))
    return Rhythms(np.tile(_usual_lengths(grid.lengths), (kinds, 1)), shapes, USUAL_PARTS)


def closer(before: Rhythms, waits: Waits, grid: Grid, gone: Array) -> tuple[Rhythms, Array]:
    """Some steps of EM nearer to what is most likely; and per client the chance that a gap outlasts her absence.

    gone: per client the chance that she stopped after her last visit, in the light of her visits alone; a client
    who stopped says nothing by staying away.
    """
    seen, counts = _counts(waits)
    gap, out = before.mixed(grid.cells[:, seen]), before.mixed(waits.beyond)
    by_gaps = _likely(counts, gap)
    stopped = gone[:, None]
    likely = by_gaps * (stopped + (1 - stopped) * out)
    now = before
    for _ in range(STEPS):
        now = _step(now, likely, waits, grid)
    prior = now.prior(grid)[waits.kind]
    nodes = _normed(likely * prior)
    parts = _parts(grid.cells[:, seen], before.parts, (counts.T @ nodes) / gap)
    outlasts = (_normed(by_gaps * prior) * out).sum(axis=1, dtype=np.float64)
    return Rhythms(now.lengths, now.shapes, parts), outlasts


def _step(now: Rhythms, likely: Array, waits: Waits, grid: Grid) -> Rhythms:
    """One step of EM: each client shared out over the nodes she may be of, then counted."""
    prior, telling = now.prior(grid), waits.gaps >= TELLING_GAPS
    common, told = np.zeros_like(now.lengths), np.zeros_like(now.shapes)
    for kind in range(len(prior)):
        for tells in (False, True):
            rows = likely[(waits.kind == kind) & (telling == tells)]
            weight = rows.T @ (1 / np.maximum(rows @ prior[kind], 1e-30))
            for shape, node in enumerate(grid.node_of):
                mass = now.lengths[kind] * now.shapes[kind, :, shape] * weight[node]
                common[kind] += mass
                told[kind, :, shape] += mass * tells
    everywhere = _pulled(told.sum(axis=1), COMMON_SHAPES / COMMON_SHAPES.sum())
    near = np.exp(-0.5 * ((grid.lengths[:, None] - grid.lengths) / ALIKE) ** 2)
    shapes = near @ told + SHAPES_WEIGHT * everywhere[:, None, :]
    return Rhythms(
        _pulled(_smooth(common), _usual_lengths(grid.lengths)), shapes / shapes.sum(axis=2, keepdims=True), now.parts
    )


def _usual_lengths(lengths: Array) -> Array:
    bells = [
        share / spread * np.exp(-0.5 * ((lengths - np.log(START_DAYS)) / spread) ** 2)
        for share, spread in ((1 - ANY_LENGTH, START_SPREAD), (ANY_LENGTH, ANY_SPREAD))
    ]
    out: Array = sum(bells) / np.sum(bells)
    return out


def _counts(waits: Waits) -> tuple[Whole, Array]:
    """The different cells gaps ended in, and how often each client's did in each."""
    seen, place = np.unique(waits.cells, return_inverse=True)
    counts = np.zeros((len(waits.kind), len(seen)))
    np.add.at(counts, (waits.whose, place), 1)
    return seen, counts


def _likely(counts: Array, gap: Array) -> Array:
    """Likelihood of each client's gaps at each node, 1 at her best one."""
    logs = counts @ np.log(gap)
    out: Array = np.exp(np.maximum(logs - logs.max(axis=1, keepdims=True), LEAST_LOG))
    return out


def _normed(weights: Array) -> Array:
    out: Array = weights / np.maximum(weights.sum(axis=1, keepdims=True), 1e-30)
    return np.where(out < TINY, 0.0, out)


def _smooth(mass: Array) -> Array:
    padded = np.pad(mass, ((0, 0), (1, 1)), mode="edge")
    out: Array = 0.25 * padded[:, :-2] + 0.5 * mass + 0.25 * padded[:, 2:]
    return out


def _pulled(mass: Array, usual: Array) -> Array:
    """Shares of each kind: pulled toward all kinds, and those toward what is usual."""
    everyone = mass.sum(axis=0) + START_WEIGHT * usual
    pulled = mass + ALL_KINDS_WEIGHT * everyone / everyone.sum()
    out: Array = pulled / pulled.sum(axis=1, keepdims=True)
    return out


def _parts(table: Array, parts: Array, weight: Array) -> Array:
    """How common usual, skipped and odd gaps are: an EM step, each gap counted as what it may have been.

    weight: per cell and node how often a gap was seen there ÷ its probability there.
    """
    each = parts * [float((part * weight).sum(dtype=np.float64)) for part in table]
    pulled = each + PARTS_WEIGHT * USUAL_PARTS
    out: Array = pulled / pulled.sum()
    return out
