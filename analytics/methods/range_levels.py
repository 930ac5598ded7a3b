"""Where to cut chances so that ranges hold as much as they say: levels learnt from how earlier ones turned out.

For each earlier forecast of a day it is known how much of its chances lay before the day that came and how much up to
it (the probability integral transform: Dawid 1984, JRSS A 147:278–292; from memory). If chances were right these would
be spread evenly. Where they are not, the levels below which a tenth, half and nine tenths of them lie are where a range
should have been cut. Who had not come yet when one looked counts as out from there on, by the chance that she still
comes within the time looked at: Kaplan–Meier with weights. Levels of a group are pulled toward those of the group
around it by how few there are.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Doubles = NDArray[np.float64]
Marks = NDArray[np.bool_]

ENDS = np.array([0.1, 0.5, 0.9])
COVERED = 0.8
TRUST = 150.0  # outcomes' worth of trust in the levels of the group around
ROUNDING = 1e-9  # of sums


class Outcomes(NamedTuple):
    """One entry per earlier forecast: chances before the day that came and up to it, and 1; where nobody came yet, all
    chances so far twice, and the chance that she still comes; came tells them apart."""

    before: Doubles
    by_then: Doubles
    weight: Doubles
    came: Marks

    def some(self, wanted: Marks) -> "Outcomes":
        return Outcomes(self.before[wanted], self.by_then[wanted], self.weight[wanted], self.came[wanted])


def first_step(reached: NDArray[np.floating], level: Doubles | float) -> NDArray[np.int64]:
    """Place of the first step by which so much is reached; level: one, or one per row."""
    wanted = np.broadcast_to(np.asarray(level, np.float64), len(reached))[:, None] - ROUNDING
    steps: NDArray[np.int64] = np.minimum((reached < wanted).sum(axis=1), reached.shape[1] - 1)
    return steps


def if_right(reached: NDArray[np.floating]) -> Doubles:
    """Levels for ranges of whole steps that hold 80 % on average, if the chances are right: steps come in lumps."""
    rows, least, most = np.arange(len(reached)), 0.0, 1.0
    for _ in range(10):
        level = (least + most) / 2
        low, high = (first_step(reached, (1 + side * level) / 2) for side in (-1, 1))
        before = np.where(low > 0, reached[rows, np.maximum(low - 1, 0)], 0)
        held = float((reached[rows, high] - before).mean(dtype=np.float64))
        least, most = (level, most) if held < COVERED else (least, level)
    return np.array([(1 - most) / 2, 0.5, (1 + most) / 2])


def learnt(outcomes: Outcomes, around: Doubles) -> Doubles:
    """Levels from outcomes, pulled toward those `around`."""
    came = float(outcomes.came.sum())
    if not came:
        return around
    low, high = outcomes.by_then, outcomes.before
    found = [_quantile(values, outcomes, end) for values, end in zip((low, (low + high) / 2, high), ENDS, strict=True)]
    share = came / (came + TRUST)
    out: Doubles = share * np.array(found) + (1 - share) * around
    return np.maximum.accumulate(np.clip(out, 0, 1))


def _quantile(values: Doubles, outcomes: Outcomes, share: float) -> float:
    order = np.lexsort((~outcomes.came, values))
    weight, came = outcomes.weight[order], outcomes.came[order]
    at_risk = np.cumsum(weight[::-1])[::-1]
    left = np.cumprod(np.where(came, 1 - weight / np.maximum(at_risk, 1e-12), 1.0))
    reached = 1 - left[came]
    middle = (reached + np.concatenate([[0.0], reached[:-1]])) / 2
    return float(np.interp(share, np.append(middle, 1.0), np.append(values[order][came], 1.0)))
