"""What was to be expected of each month from the months before it, and how far such expectations have missed.

A monthly number, brought to a scale on which it wobbles alike whatever its size (methods/steady_scale), is taken as

    level, which may drift (a random walk) + season (one deviation for each twelfth of the year) + noise

the local level model with a seasonal (Harvey 1989, Forecasting, Structural Time Series Models; from memory). Its
covariance over the months is known up to a scale, so that one Cholesky factor holds every month's forecast from the
months before it alone: forward substitution answers the misses one month ahead, each with its standard error (the
prediction error decomposition). How strong drift and season are against the noise is averaged over STRENGTHS, weighted
by how well each foretold the months before; until a year has shown it, a season is taken to be likely, though hardly
one larger than LARGE_SEASON. The scale is that of the misses so far, begun with a first guess that
counts as GUESS_COUNTS misses, so that ranges are Student's t: wide with little history, and without a year behind them
wider by the season that nobody has seen yet. A month that misses by more than FAR of its errors is brought in to that
before later months learn from it, unless the month before missed as far on the same side: then things are different.

A steady drift is what the generalised least squares estimate of a slope over the last twelve months says, beside a
level that hardly moves: the same misses, weighted by how far such a slope would have led them astray.

The strengths, the guess and the limits were chosen on salons of tests/simulated/seasons, seeds 0 to 19.
"""

from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

DRIFTS, SEASONS = (0.03, 0.1, 0.3, 1.0), (0.0, 0.7, 1.5, 3.0)  # standard deviations, of that of the noise
STRENGTHS = np.array(list(product(DRIFTS, SEASONS)))
STEADIEST = len(SEASONS)  # the first strengths: those of a level that hardly moves
NO_SEASON, LARGE_SEASON = 0.05, 0.3  # weight beside that of a season as strong as the noise; a standard deviation
YEAR = 12
GUESS_COUNTS = 3.0
FAR, FAR_AFTER = 4.0, YEAR  # standard errors; months, since the first of a season is far off as well
DRIFTING = 3.0  # standard errors of the slope; by chance alone about one month in a thousand
UNKNOWN_LEVEL, UNKNOWN_VALUE = 1e4, 1e6  # variances, of that of the noise


@dataclass(frozen=True)
class Expectation:
    """Per series and month, on the scale of the values; NaN before the first known month."""

    middle: Floats
    spread: Floats  # standard error of the month's miss
    freedom: Floats  # misses so far and the first guess: the degrees of freedom of Student's t
    slope: Floats  # a month, over the last twelve; NaN where none is steady


def expectation(values: Floats, noise: Floats, guess: Floats) -> Expectation:
    """Of each month from those before it; a month's slope is from those up to and with it.

    values: series × months in order of time, NaN where unknown. noise: each value's variance beside that of a usual
    month. guess: the variance of a usual month as it would be guessed before that month.
    """
    known = ~np.isnan(values)
    blurred = np.where(known, noise, UNKNOWN_VALUE)
    factors = np.linalg.cholesky(_covariance(blurred)).astype(np.float64)
    learnt = _Learnt(factors, blurred - noise)
    for at in range(values.shape[1]):
        learnt.month(at, values[:, at], guess[:, at])
    return Expectation(learnt.middle, learnt.spread, learnt.freedom, _slopes(learnt))


def _covariance(noise: Floats) -> Floats:
    """series × strengths × months × months, in units of the noise of a usual month."""
    at = np.arange(noise.shape[1])
    walk = np.minimum.outer(at, at) + 1.0
    same_place = (np.subtract.outer(at, at) % YEAR == 0).astype(float)
    drift, season = (STRENGTHS[:, place, None, None] ** 2 for place in (0, 1))
    out: Floats = UNKNOWN_LEVEL + drift * walk + season * same_place + noise[:, None, :, None] * np.eye(len(at))
    return out


class _Learnt:
    """What the months so far say: per series and strength, the misses and how likely they were."""

    def __init__(self, factors: Floats, blur: Floats) -> None:
        """blur: variance that unknown values were given beyond their own."""
        series, strengths, months, _ = factors.shape
        self.factors, self.blur = factors, blur
        self.misses = np.zeros((series, strengths, months))
        self.squares = np.zeros((series, strengths))
        self.likely = np.zeros((series, strengths))
        self.count = np.full((series, 1), -1.0)  # the first value says where the level is, and is no miss
        self.far = np.zeros((series, strengths))
        self.middle, self.spread, self.freedom = (np.full((series, months), np.nan) for _ in range(3))
        self.known = np.zeros((series, months))
        self.scales, self.weights = (np.zeros((series, strengths, months)) for _ in range(2))

    def month(self, at: int, value: Floats, guess: Floats) -> None:
        """Middle, spread and degrees of freedom for the month; then its value is learnt."""
        row = self.factors[:, :, at, : at + 1]
        middle = (row[..., :at] * self.misses[:, :, :at]).sum(axis=2)
        error, freedom = row[..., at], GUESS_COUNTS + self.count.clip(0)
        scale = (GUESS_COUNTS * guess[:, None] + self.squares) / freedom
        weight = _shares(self.likely + _prior(guess))
        mean = (weight * middle).sum(axis=1)
        ahead = (error**2 - self.blur[:, at, None]) * scale
        spread = np.sqrt((weight * (ahead + (middle - mean[:, None]) ** 2)).sum(axis=1))
        began = self.count[:, 0] >= 0
        self.middle[:, at], self.spread[:, at] = np.where(began, (mean, spread), np.nan)
        self.freedom[:, at], self.known[:, at] = freedom[:, 0], self.count[:, 0] + 1
        self.scales[..., at], self.weights[..., at] = scale, weight
        self._learn(at, (value[:, None] - middle) / error, error, scale, freedom)

    def _learn(self, at: int, miss: Floats, error: Floats, scale: Floats, freedom: Floats) -> None:
        there = ~np.isnan(miss)
        judged = there & (self.count >= 0)
        miss = np.where(there, miss, 0.0)
        reach = FAR * np.sqrt(scale)
        far = np.sign(miss) * (np.abs(miss) > reach) * (judged & (self.count >= FAR_AFTER))
        brought_in = (far != 0) & (far != self.far)
        self.far = np.where(there, far, self.far)
        miss = np.where(brought_in, np.clip(miss, -reach, reach), miss)
        self.misses[:, :, at] = miss
        density = -np.log(error) - 0.5 * np.log(scale) - (freedom + 1) / 2 * np.log1p(miss**2 / (freedom * scale))
        self.likely += np.where(judged, density, 0.0)
        self.squares += np.where(judged, miss**2, 0.0)
        self.count += there.any(axis=1, keepdims=True)


def _slopes(learnt: _Learnt) -> Floats:
    """Of the year up to each month, where it is steady; NaN elsewhere and until there is a year."""
    at = np.arange(learnt.middle.shape[1])
    rises = np.maximum(0.0, at[:, None] - (at[None, :] - YEAR))  # one a column: a year's rise up to that month
    steadiest = learnt.factors[:, :STEADIEST]
    astray = np.triu(np.linalg.solve(steadiest, np.broadcast_to(rises, steadiest.shape)))
    worth = (astray**2).sum(axis=2)
    slope = (astray * learnt.misses[:, :STEADIEST, :, None]).sum(axis=2) / worth
    weight = learnt.weights[:, :STEADIEST] / learnt.weights[:, :STEADIEST].sum(axis=1, keepdims=True)
    errors = (weight * slope / np.sqrt(learnt.scales[:, :STEADIEST] / worth)).sum(axis=1)
    steady = (np.abs(errors) > DRIFTING) & (learnt.known > YEAR)
    out: Floats = np.where(steady, (weight * slope).sum(axis=1), np.nan)
    return out


def _prior(guess: Floats) -> Floats:
    """Logarithms of weights, series × strengths, where a usual month's variance is guessed to be this."""
    season = STRENGTHS[:, 1] ** 2
    out: Floats = np.log(NO_SEASON + season * np.exp(-season * guess[:, None] / LARGE_SEASON**2))
    return out


def _shares(likely: Floats) -> Floats:
    weight = np.exp(likely - likely.max(axis=1, keepdims=True))
    out: Floats = weight / weight.sum(axis=1, keepdims=True)
    return out
