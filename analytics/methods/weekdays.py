"""On which days of the week a client comes: her own, pulled toward everybody's by how few visits she has.

Shares of weekdays differ between clients as a Dirichlet distribution around everybody's; its weight follows from how
often two visits of one client fall on the same weekday (moments: P(same) = Σm² + (1 − Σm²) ÷ (1 + weight)).
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

LEAST, MOST = 0.5, 200.0
SPREAD_EVENLY = 7.0  # visits' worth of pull toward all seven days alike
PAIRS_BY_CHANCE = 50.0  # pairs of visits that fall together by chance alone, as if they had been seen


def leanings(counts: Array, *, relative: bool = False) -> Array:
    """counts: visits per client and weekday. Answers 1 for a day as likely as any, more for her usual days.

    relative: 1 for a day as likely as it is for everybody.
    """
    everyone = counts.sum(axis=0) + SPREAD_EVENLY / 7
    everyone = everyone / everyone.sum()
    weight = _weight(counts, float((everyone**2).sum()))
    own = counts + weight * everyone
    shares = own / own.sum(axis=1, keepdims=True)
    out: Array = shares / everyone if relative else 7 * shares
    return out


def _weight(counts: Array, by_chance: float) -> float:
    """How many visits it takes until a client's own days count as much as everybody's."""
    totals = counts.sum(axis=1)
    pairs = float((totals * (totals - 1)).sum()) / 2
    same = float((counts * (counts - 1)).sum()) / 2
    beyond = (same - pairs * by_chance) / (pairs + PAIRS_BY_CHANCE)
    return float(np.clip((1 - by_chance) / beyond - 1, LEAST, MOST)) if beyond > 0 else MOST
