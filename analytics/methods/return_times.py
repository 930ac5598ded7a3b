"""How long until a client comes again: her own gaps, pulled toward clients of her kind by how few she has.

Each client has a usual gap exp(θ) and a spread σ. The logarithm of a gap is normal around θ with standard deviation σ;
with a small chance a visit was skipped, so that the gap is about two of hers; with a smaller one the gap is odd (a
party, an illness) and may be anything around hers. That mixture is the heavy tail. A gap of g whole days has the
probability that the mixture puts between g − ½ and g + ½ days.

(θ, σ) lie on a grid, NODES of them. How common each node is among clients of a kind, and how common skipped and odd
gaps are, is estimated from all clients at once by maximum likelihood with the EM algorithm, smoothed along θ after
each step (Silverman, Jones, Wilson, Nychka 1990, JRSS B 52:271–324), each kind pulled toward all kinds and those
toward a wide start around six weeks (common practice, no source), which is all that is known of a salon without gaps.
A client's own gaps, and that she has not come for `running` days, turn the node weights of her kind into her own
(empirical Bayes: Efron 2014, Statistical Science 29:285–301; references from memory). With few gaps of her own she is
like her kind; with many she is like herself.
"""

from dataclasses import dataclass
from functools import cache
from math import erf, log, sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float32]
Whole = NDArray[np.int64]

LONGEST_GAP = 900  # days; longer gaps count as this long
LONGEST_WAIT = 540  # a client silent for longer is treated as silent for so long
STEP = 0.03
LOCATIONS = np.arange(log(10), log(420), STEP)
SPREADS = np.array([0.03, 0.06, 0.1, 0.16, 0.25, 0.4, 0.6])
COMMON_SPREADS = np.array([0.08, 0.14, 0.24, 0.26, 0.16, 0.08, 0.04])
START_DAYS, START_SPREAD = 42.0, 0.45  # a start without gaps: six weeks, between three and twelve
SKIPPED_SPREAD, ODD_SPREAD = 0.1, 0.6
SHARES = np.array([0.92, 0.05, 0.03])  # usual, skipped and odd gaps, before any was seen
SHARES_WEIGHT = 60.0  # as if they had been seen on so many gaps
ALL_KINDS_WEIGHT, START_WEIGHT = 8.0, 15.0  # clients' worth of pull toward all kinds, and of these toward the start
ROUNDS, STEPS = 3, 8
TINY, LEAST_LOG = 1e-13, -25.0  # what is less likely doesn't matter, and numbers near nought are slow


class Waits(NamedTuple):
    """What is known of clients 0 … n−1: completed gaps (whose, how many days), kind of each and days since her last."""

    whose: Whole
    days: Whole
    kind: Whole
    running: Whole

    @property
    def gaps(self) -> Whole:
        """How many completed gaps each client has."""
        return np.bincount(self.whose, minlength=len(self.kind))


@dataclass(frozen=True)
class Rhythms:
    """prior: share of each node among clients of each kind. gap: probability of each number of days at each node.
    longer: chance that a gap exceeds so many days."""

    prior: Array
    gap: Array
    longer: Array

    def nodes(self, waits: Waits) -> Array:
        """Each client's weight on each node in the light of her completed gaps; rows add up to 1."""
        seen, counts = _counts(waits)
        return _normed(_likely(counts, self.gap[seen]) * self.prior[waits.kind])

    def still_out(self, nodes: Array, waits: Waits) -> NDArray[np.float64]:
        """Per client: the chance that a gap of hers lasts as long as she has been away."""
        out: NDArray[np.float64] = (nodes * self.longer[_running(waits)]).sum(axis=1, dtype=np.float64)
        return out

    def ahead(self, nodes: Array, waits: Waits, days: int) -> Array:
        """Per client the probability that she comes in 1, 2, … `days` days, given that she comes and hasn't yet.

        What lies further ahead is put on the last day.
        """
        running = _running(waits)
        out = np.empty((len(running), days), np.float32)
        for block in np.array_split(np.argsort(running, kind="stable"), max(1, len(running) // 256)):
            since = running[block][:, None]  # clients away about equally long need about the same days of the table
            first = int(since.min(initial=0))
            table = self.gap[first : int(since.max(initial=0)) + days + 1]
            out[block] = np.take_along_axis(nodes[block] @ table.T, since - first + np.arange(1, days + 1), axis=1)
        out /= np.maximum(self.still_out(nodes, waits), 1e-30)[:, None]
        out[:, -1] += np.maximum(1 - out.sum(axis=1), 0)
        scaled: Array = out / out.sum(axis=1, keepdims=True)
        return scaled


def _running(waits: Waits) -> Whole:
    return np.minimum(waits.running, LONGEST_WAIT)


@cache
def _normal() -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The normal distribution as a table: scipy would cost every start of the command a fifth of a second."""
    at = np.linspace(-8, 8, 3201)
    return at, np.array([(1 + erf(z / sqrt(2))) / 2 for z in at])


@cache
def _parts() -> tuple[Array, Array]:
    """For usual, skipped and odd gaps: the probability of 0 … LONGEST_GAP days at each node, and that of more."""
    edges = np.log(np.concatenate([[1e-4], np.arange(LONGEST_GAP + 1) + 0.5]))
    edges[-1] = 99.0
    where = np.repeat(LOCATIONS, len(SPREADS))
    spread = np.tile(SPREADS, len(LOCATIONS))
    skipped = np.hypot(spread / sqrt(2), SKIPPED_SPREAD)
    beyond = np.empty((3, LONGEST_GAP + 1, len(where)), np.float32)
    parts = np.empty_like(beyond)
    for place, (middle, wide) in enumerate(
        ((where, spread), (where + log(2), skipped), (where, np.maximum(spread, ODD_SPREAD)))
    ):
        above = 1 - np.interp((edges[:, None] - middle) / wide, *_normal())
        parts[place] = np.maximum(above[:-1] - above[1:], TINY)
        beyond[place] = np.maximum(above[1:], TINY)
    return parts, beyond


def _start() -> NDArray[np.float64]:
    """Node weights before anything was seen."""
    bell = np.exp(-0.5 * ((LOCATIONS - log(START_DAYS)) / START_SPREAD) ** 2)
    out: NDArray[np.float64] = np.outer(bell / bell.sum(), COMMON_SPREADS / COMMON_SPREADS.sum()).ravel()
    return out


def fit(waits: Waits, kinds: int, stopped: NDArray[np.float64]) -> Rhythms:
    """Node weights of each kind and the shares of skipped and odd gaps, by maximum likelihood.

    stopped: per client the chance that she stopped after her last visit, in the light of her visits alone; a client
    who stopped says nothing by staying away.
    """
    parts, beyond = _parts()
    shares = SHARES
    seen, counts = _counts(waits)
    seen_parts, away_parts = parts[:, seen], beyond[:, _running(waits)]
    gone = stopped[:, None].astype(np.float32)
    prior = np.tile(_start(), (kinds, 1)).astype(np.float32)
    for _ in range(ROUNDS):
        gap = _mixed(seen_parts, shares)
        likely = _likely(counts, gap) * (gone + (1 - gone) * _mixed(away_parts, shares))
        prior = _spread_of_nodes(likely, waits.kind, prior)
        nodes = _normed(likely * prior[waits.kind])
        shares = _shares(seen_parts, shares, (counts.T @ nodes) / gap)
    return Rhythms(prior, _mixed(parts, shares), _mixed(beyond, shares))


def _counts(waits: Waits) -> tuple[Whole, Array]:
    """The different gaps there are, and how often each client had each."""
    seen, place = np.unique(np.clip(waits.days, 1, LONGEST_GAP), return_inverse=True)
    counts = np.zeros((len(waits.kind), len(seen)), np.float32)
    np.add.at(counts, (waits.whose, place), 1)
    return seen, counts


def _mixed(parts: Array, shares: NDArray[np.float64]) -> Array:
    out: Array = np.tensordot(shares.astype(np.float32), parts, 1)
    return out


def _likely(counts: Array, gap: Array) -> Array:
    """Likelihood of each client's gaps at each node, 1 at her best one."""
    logs = counts @ np.log(gap)
    out: Array = np.exp(np.maximum(logs - logs.max(axis=1, keepdims=True), LEAST_LOG))
    return out


def _normed(weights: Array) -> Array:
    out: Array = weights / np.maximum(weights.sum(axis=1, keepdims=True), 1e-30)
    return np.where(out < TINY, np.float32(0), out)


def _spread_of_nodes(likely: Array, kind: Whole, prior: Array) -> Array:
    """EM steps for how common each node is in each kind, smoothed along the location and pulled together."""
    for _ in range(STEPS):
        mass = np.zeros(prior.shape)
        for each in range(len(prior)):
            rows = likely[kind == each]
            fits = np.maximum(rows @ prior[each], 1e-30)
            mass[each] = prior[each] * (rows.T @ (1 / fits))
        prior = _pulled(_smooth(mass)).astype(np.float32)
    return prior


def _smooth(mass: NDArray[np.float64]) -> NDArray[np.float64]:
    grid = mass.reshape(len(mass), len(LOCATIONS), len(SPREADS))
    padded = np.pad(grid, ((0, 0), (1, 1), (0, 0)), mode="edge")
    out: NDArray[np.float64] = (0.25 * padded[:, :-2] + 0.5 * grid + 0.25 * padded[:, 2:]).reshape(mass.shape)
    return out


def _pulled(mass: NDArray[np.float64]) -> NDArray[np.float64]:
    everyone = mass.sum(axis=0) + START_WEIGHT * _start()
    pulled = mass + ALL_KINDS_WEIGHT * everyone / everyone.sum()
    out: NDArray[np.float64] = pulled / pulled.sum(axis=1, keepdims=True)
    return out


def _shares(parts: Array, shares: NDArray[np.float64], weight: Array) -> NDArray[np.float64]:
    """How common usual, skipped and odd gaps are: an EM step, each gap counted as what it may have been.

    weight: per gap and node how often it was seen there ÷ its probability there.
    """
    each = shares * [float((part * weight).sum(dtype=np.float64)) for part in parts]
    pulled = each + SHARES_WEIGHT * SHARES
    out: NDArray[np.float64] = pulled / pulled.sum()
    return out
