"""What usually comes on top of what is booked, by how far ahead one looks.

The advance booking method of hotels and airlines in its regression form: what comes is what a forecast without bookings
says, moved by how far what is booked lies above or below what is usually booked that long before (Weatherford & Kimes
2003, A comparison of forecasting methods for hotel revenue management, International Journal of Forecasting 19; from
memory). A slope of 1 is the additive pick-up: each hour booked more is an hour more that comes; slopes are pulled
toward it by a normal prior.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

PICK_UP, PICK_UP_SPREAD = 1.0, 0.3  # the slope before anything was seen, and how far from it slopes lie
LEAST_MISS = 0.05  # of what was to be expected: by how much a forecast is off at the least
FEW = 12.0  # past days' worth of trust that bookings tell nothing of what comes


@dataclass(frozen=True)
class PickUp:
    """Per week ahead. usual: share of what was to be expected that is booked by then. slope: what an hour booked beyond
    that adds. left: variance of what comes given what is booked, as a share of its variance without."""

    usual: Array
    slope: Array
    left: Array

    def factor(self, booked: Array) -> Array:
        """booked: share of what is to be expected, per week. What to take that times."""
        out: Array = np.maximum(1 + self.slope * (booked - self.usual), booked)
        return out


def pick_up(booked: Array, came: Array, weight: Array) -> PickUp:
    """booked, came: shares of what was to be expected, past days × weeks ahead; NaN where it is not known.
    weight: of each past day."""
    known = np.isfinite(booked) & np.isfinite(came)
    weights = np.where(known, weight[:, None], 0.0)
    total = weights.sum(axis=0)
    seen = np.where(known, booked, 0.0)
    usual = (weights * seen).sum(axis=0) / np.maximum(total, 1e-12)
    above = np.where(known, booked - usual, 0.0)
    more = np.where(known, came - 1, 0.0)
    count = total**2 / np.maximum((weights**2).sum(axis=0), 1e-12)  # as many past days of one weight
    both, square, miss = (
        count * (weights * product).sum(axis=0) / np.maximum(total, 1e-12)
        for product in (above * more, above**2, more**2)
    )
    prior = np.maximum(miss / np.maximum(count, 1e-12), LEAST_MISS**2) / PICK_UP_SPREAD**2
    slope = (both + prior * PICK_UP) / (square + prior)
    missed = (weights * (more - slope * above) ** 2).sum(axis=0) / np.maximum((weights * more**2).sum(axis=0), 1e-12)
    trust = count / (count + FEW)
    return PickUp(usual, slope, np.minimum(trust * missed + 1 - trust, 1.0))
