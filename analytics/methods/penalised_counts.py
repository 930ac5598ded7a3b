"""Counts that follow a log-linear rate, with effects held near nothing as far as the counts do not speak for them.

Quasi-Poisson regression (McCullagh & Nelder, Generalized Linear Models, 2nd ed., ch. 6 and 9) with normal priors
around nothing, one spread for each group of effects. The spreads are found with the effects, by empirical Bayes (an
EM step per round, Dempster, Laird & Rubin 1977: a group's mean square effect, with what is uncertain of it): few
counts leave a group at its prior spread and its effects near nothing, many let it grow or vanish. The spread of
counts around the rate is measured on blocks (weeks), since days within a week make good for each other.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Whole = NDArray[np.int64]

ROUNDS = 60
SETTLED = 1e-5  # of an effect, between rounds
MOST_STEP = 1.0  # on the log scale, so that a first round far off does not overshoot
BLOCKS_WEIGHT = 8.0  # blocks' worth of trust that counts scatter as Poisson counts do
LEAST_DISPERSION = 0.1


@dataclass(frozen=True)
class Group:
    """Columns of the design whose effects come from one spread: its prior value, worth `weight` effects. freedom: of a
    t distribution in place of a normal one, so that most effects stay small and one may be large."""

    columns: slice
    spread: float
    weight: float
    freedom: float = np.inf


@dataclass(frozen=True)
class Fit:
    """effects: one per column. covariance: of the effects. spreads: one per group. dispersion: variance ÷ mean."""

    effects: Array
    covariance: Array
    spreads: tuple[float, ...]
    dispersion: float

    def rate(self, exposure: Array, design: Array) -> Array:
        out: Array = exposure * np.exp(design @ self.effects)
        return out


def fit(counts: Array, exposure: Array, design: Array, blocks: Whole, groups: tuple[Group, ...]) -> Fit:
    """counts: per row, at least one of them not 0. exposure: what the rate is per, more than 0. design: rows × columns,
    the first of them 1. blocks: 0, 1, … the block of each row. groups: of the other columns; the first is left free."""
    effects: Array = np.zeros(design.shape[1])
    effects[0] = np.log(counts.sum() / exposure.sum())
    spreads, squares = _prior(groups), np.zeros(design.shape[1])
    dispersion = 1.0
    for _ in range(ROUNDS):
        mean = exposure * np.exp(design @ effects)
        weighed = design * mean[:, None]
        information = (design.T @ weighed) / dispersion
        precision = _precision(squares, groups, spreads)
        covariance = _inverse(information + np.diag(precision))
        step = covariance @ (design.T @ (counts - mean) / dispersion - precision * effects)
        effects += np.clip(step, -MOST_STEP, MOST_STEP)
        squares = effects**2 + np.diag(covariance)
        spreads = _spreads(groups, squares, spreads)
        dispersion = _dispersion(counts, mean, blocks)
        if np.abs(step).max() < SETTLED:
            break
    return Fit(effects, covariance, tuple(float(spread) for spread in spreads), dispersion)


def _prior(groups: tuple[Group, ...]) -> Array:
    return np.array([group.spread for group in groups], dtype=np.float64)


def _inverse(matrix: Array) -> Array:
    return np.linalg.inv(matrix).astype(np.float64)


def _precision(squares: Array, groups: tuple[Group, ...], spreads: Array) -> Array:
    """squares: of each effect, as far as it is known."""
    precision = np.full(len(squares), 1e-6)
    for group, spread in zip(groups, spreads, strict=True):
        precision[group.columns] = _believed(group, squares, spread) / spread**2
    return precision


def _believed(group: Group, squares: Array, spread: float) -> Array:
    """What an effect's square counts for: 1 under a normal spread, less the further out it lies under a t."""
    if np.isinf(group.freedom):
        return np.ones(len(squares[group.columns]))
    out: Array = (group.freedom + 1) / (group.freedom + squares[group.columns] / spread**2)
    return out


def _spreads(groups: tuple[Group, ...], squares: Array, spreads: Array) -> Array:
    found = []
    for group, spread in zip(groups, spreads, strict=True):
        each = _believed(group, squares, spread) * squares[group.columns]
        found.append((each.sum() + group.weight * group.spread**2) / (len(each) + group.weight))
    out: Array = np.sqrt(np.array(found))
    return out


def _dispersion(counts: Array, mean: Array, blocks: Whole) -> float:
    """Pearson's statistic over blocks; effects take so little of it, held near nothing, that none is taken off."""
    expected = np.bincount(blocks, weights=mean)
    misses = np.bincount(blocks, weights=counts - mean)
    seen = expected > 0
    scatter = float((misses[seen] ** 2 / expected[seen]).sum())
    return max((scatter + BLOCKS_WEIGHT) / (float(seen.sum()) + BLOCKS_WEIGHT), LEAST_DISPERSION)
