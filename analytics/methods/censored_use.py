"""How much is used, where it is known of some and of others only between which limits it lies.

Maximum likelihood without a form: each use that is only known to lie above `low` and up to `high` is shared over the
known uses within those limits, in proportion to how likely they are, until the shares no longer change (Turnbull 1976,
J R Stat Soc B 38:290–295; self-consistency, Efron 1967). Beyond that method, a use that is not known takes after known
ones of about the same amount made ready (`mixed`; normal weights, LIKE wide on the log scale), because who is given
more usually takes more: without it the estimate is biased wherever amounts follow needs. With one amount made ready for
all it is Turnbull's own estimate. Where no known use lies within the limits, the middle between them stands in.
"""

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]

LIKE = 0.15  # amounts within about 15 % of one another are alike
NO_LIKE = 1e-9
ROUNDS, SAME = 500, 1e-4  # until no point gains or loses more than this of one use
WIDTH = 0.3  # of the rule-of-thumb width of a smoothing kernel (Silverman 1986), which blurs short and long hair
STEPS = 9  # points that each smoothed one is drawn out to
LEAST = (
    20  # a use under a twentieth of the mean counts as that: a bowl that was hardly touched is no spread to draw out
)


def shared(low: Floats, high: Floats, mixed: Floats) -> tuple[Floats, Floats]:
    """Points of use, and for each of the n uses how much of it lies at each point (n × points, rows add up to 1).

    low < use <= high; known where low == high. mixed > 0: what was made ready for it. At least one use is known.
    """
    known = low == high
    used, unknown = high[known], ~known
    within = (used > low[unknown, None]) & (used <= high[unknown, None])
    apart = np.log(mixed)[unknown, None] - np.log(mixed[known])
    possible = np.where(within, np.exp(-0.5 * (apart / LIKE) ** 2), 0.0)
    alone = possible.sum(axis=1) < NO_LIKE
    middle = (low[unknown][alone] + high[unknown][alone]) / 2
    possible = np.hstack([np.where(alone[:, None], 0.0, possible), np.eye(len(possible))[:, alone]])
    points = np.concatenate([used, middle])
    shares = np.zeros((len(low), len(points)))
    shares[known, : len(used)] = np.eye(len(used))
    shares[unknown] = _self_consistent(possible, shares[known].sum(axis=0))
    return points, shares


def _self_consistent(possible: Floats, counted: Floats) -> Floats:
    """Shares of the unknown uses over the points; counted: how many known uses lie at each point."""
    weights = counted + possible.sum(axis=0)
    shares: Floats = possible
    for _ in range(ROUNDS):
        shares = possible * weights
        shares /= shares.sum(axis=1, keepdims=True)
        before, weights = weights, counted + shares.sum(axis=0)
        if np.abs(weights - before).max(initial=0.0) < SAME:
            break
    return shares


def smoothed(points: Floats, weights: Floats) -> tuple[Floats, Floats]:
    """The same distribution with each point drawn out a little on the log scale, mean and spread of the logs kept.

    What is known of a few dozen uses has gaps where the next use may well lie.
    """
    logs = np.log(np.maximum(points, points @ weights / LEAST))
    mean = (weights * logs).sum()
    spread = float(np.sqrt((weights * (logs - mean) ** 2).sum()))
    if spread == 0:
        return points, weights
    width = WIDTH * spread * float((weights**2).sum()) ** 0.2
    kernel = _normal_steps() * width
    drawn = mean + (logs[:, None] - mean + kernel[None, :]) / np.sqrt(1 + (kernel**2).mean() / spread**2)
    return np.exp(drawn).ravel(), np.repeat(weights / STEPS, STEPS)


def _normal_steps() -> Floats:
    from scipy.special import ndtri

    steps: Floats = ndtri((np.arange(STEPS) + 0.5) / STEPS)
    return steps


def share_point(points: Floats, weights: Floats, share: float) -> float:
    """The point below which `share` of the weights lies, drawn straight between points: the usual quantile where all
    weights are equal (Hyndman & Fan 1996, definition 7)."""
    order = np.argsort(points, kind="stable")
    at, weight = points[order], weights[order]
    reached = np.cumsum(weight) - weight / 2
    first, last = reached[0], reached[-1]
    places = (reached - first) / (last - first) if last > first else np.zeros_like(reached)
    return float(np.interp(share, places, at))
