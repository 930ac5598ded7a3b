"""Scales on which a number wobbles alike whatever its size, and the way back.

Counted things, or sums over them, have a variance of unit × mean by chance and of mean² by what befalls them all, and
2·asinh(√(value ÷ (TURN · unit))) evens that out: a square root for few, a logarithm for many, and nought for none
(variance-stabilising transformations: Bartlett 1947, Anscombe 1948; from memory). A share of n things takes the arcsine
of its root with Anscombe's 3/8 (its variance is near 1 ÷ 4n), a mean the logarithm. The way back is never below nought,
and for a share never above 1.
"""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

TURN = 10.0  # so many units are between few and many
CORNER = 3 / 8  # Anscombe's, added to the things counted and to those not


def of_sums(sums: Floats, unit: Floats) -> Floats:
    """sums ≥ 0, anything below counted as nought; unit > 0: what one thing brings."""
    out: Floats = 2 * np.arcsinh(np.sqrt(np.maximum(sums, 0) / (TURN * unit)))
    return out


def sums_of(scaled: Floats, unit: Floats) -> Floats:
    """The way back from of_sums."""
    out: Floats = np.sinh(np.maximum(scaled, 0) / 2) ** 2 * TURN * unit
    return out


def variance_of_sums(usual: Floats, unit: Floats) -> Floats:
    """What chance alone makes of_sums vary by where `usual` is the mean."""
    out: Floats = unit / (usual + TURN * unit)
    return out


def of_shares(shares: Floats, things: Floats) -> Floats:
    """shares 0–1 of so many things; those beyond count as the nearest of the two."""
    inside = (np.clip(shares, 0, 1) * things + CORNER) / (things + 2 * CORNER)
    out: Floats = np.arcsin(np.sqrt(inside))
    return out


def shares_of(scaled: Floats, things: Floats) -> Floats:
    """The way back from of_shares."""
    inside = np.sin(np.clip(scaled, 0, np.pi / 2)) ** 2
    out: Floats = np.clip((inside * (things + 2 * CORNER) - CORNER) / np.maximum(things, 1e-9), 0, 1)
    return out


def student(covered: float, freedom: Floats) -> Floats:
    """Half the width, in standard errors, that holds this share of Student's t with 3 or more degrees of freedom.

    The expansion around the normal quantile (Abramowitz & Stegun 1964, 26.7.5), right to a hundredth there.
    """
    from statistics import NormalDist

    z = NormalDist().inv_cdf((1 + covered) / 2)
    terms = (
        (z**3 + z) / 4,
        (5 * z**5 + 16 * z**3 + 3 * z) / 96,
        (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384,
        (79 * z**9 + 776 * z**7 + 1482 * z**5 - 1920 * z**3 - 945 * z) / 92160,
    )
    width: Floats = np.full_like(freedom, z)
    for power, term in enumerate(terms, start=1):
        width = width + term / freedom**power
    return width
