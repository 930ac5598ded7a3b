"""The newsvendor: how much to make ready of what is thrown away when left over and costs extra when short.

For a demand X, an amount q costs left_cost · E[(q − X)+] + short_cost · E[(X − q)+], which is least at the quantile
short_cost ÷ (short_cost + left_cost) of X (Arrow, Harris, Marschak 1951; Snyder & Shen, Fundamentals of Supply Chain
Theory, 4.3). The demand is given as points with weights that add up to 1.
"""

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]


def critical_ratio(left_cost: float, short_cost: float) -> float:
    """The share of demands that the best amount covers. Costs per unit, not both 0."""
    return short_cost / (short_cost + left_cost)


def best_amount(points: Floats, weights: Floats, share: float) -> float:
    """The smallest point by which `share` of the weights is reached."""
    order = np.argsort(points, kind="stable")
    reached = np.cumsum(weights[order])
    place = int(np.searchsorted(reached, share * reached[-1] - 1e-12))
    return float(points[order][min(place, len(points) - 1)])


def expected_cost(amounts: Floats, points: Floats, weights: Floats, left_cost: float, short_cost: float) -> Floats:
    """What each of the amounts costs on average."""
    over = amounts[:, None] - points[None, :]
    costs: Floats = (left_cost * over.clip(0) - short_cost * over.clip(None, 0)) @ weights
    return costs


def best_in_steps(points: Floats, weights: Floats, left_cost: float, short_cost: float, step: float) -> float:
    """The multiple of `step`, at least one, that costs least: of the two beside the best amount, as cost is convex."""
    best = best_amount(points, weights, critical_ratio(left_cost, short_cost)) / step
    pair = np.maximum(np.array([np.floor(best), np.ceil(best)]), 1.0) * step
    return float(pair[np.argmin(expected_cost(pair, points, weights, left_cost, short_cost))])


def chance_short(amount: float, points: Floats, weights: Floats) -> float:
    """The share of demands above the amount."""
    return float(weights[points > amount].sum() / weights.sum())
