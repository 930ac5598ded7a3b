"""Whether a client who hasn't come is late or gone: she may stop after any visit, with a chance of her own.

After her first visit a client stops for good with a chance that is one for all: many try a salon and do not come again.
After each later one she stops with chance p; p differs between clients as a Beta(a, b) distribution. A client who came
again x times survived x such moments; after the last she has either stopped or is still between two visits, which a gap
outlasts with probability S, her chance of still being out by her own rhythm. Where `stopped` is the chance to have
stopped by the moments survived alone (of Beta(a, b) after n survived ones: a ÷ (a + b + n)),
    likelihood of stopping or not = chance to have survived × [stopped + (1 − stopped) × S]
    chance she is still a client  = (1 − stopped) S ÷ [stopped + (1 − stopped) S].
This is the modified BG/NBD family (Batislam, Denizel, Filiztekin 2007, Int J Research in Marketing 24:201–209; with
regular gaps MBG/CNBD-k: Reutterer, Platzer, Schröder 2021, IJRM 38:194–215) with S left open: a regular client a month
past her day has a small S and is likely gone, an irregular one isn't. There the first visit is like the others, which
is the case of a chance a ÷ (a + b) and Beta(a, b + 1) after it. In BG/NBD (Fader, Hardie, Lee 2005, Marketing
Science 24:275–284) nobody stops after the first visit: one moment fewer, and none for a client who never came again.

Clients seen first as the book opens are mostly old ones, whose first visit in it is none; they have a chance of their
own, so that they say nothing of new ones.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Whole = NDArray[np.int64]

# What is known before any client was seen: one in 30 visits was the last, as if on so many visits; of first visits one
# in 20 of those as the book opens, one in 5 later, as if on so many clients (common practice, no source).
START_STOPPED, START_VISITS = 1.0, 30.0
FIRST_STOPPED, FIRST_CLIENTS = np.array([0.05, 0.2]), 5.0
MEANS = np.geomspace(0.0005, 0.6, 40)
WEIGHTS = np.array([0.5, 1, 2, 4, 8, 16, 32, 64, 128, 512])  # a + b
STEPS = 20
LEAST = 1e-300


def stays(times: Whole, a: float, b: float) -> Array:
    """Chance to survive so many moments: E[(1 − p)^times] = B(a, b + times) ÷ B(a, b)."""
    steps = np.arange(max(int(times.max(initial=0)), 1))
    logs = np.concatenate([[0.0], np.cumsum(np.log(b + steps) - np.log(a + b + steps))])
    out: Array = np.exp(logs[times])
    return out


def stopped(times: Whole, a: float, b: float) -> Array:
    """Chance to have stopped at the moment after `times` survived ones, by those alone."""
    out: Array = a / (a + b + times.astype(np.float64))
    return out


def still_client(times: Whole, outlasts: Array, a: float, b: float) -> Array:
    """Chance that she is still a client; outlasts: S of the module's text."""
    gone = stopped(times, a, b)
    out: Array = (1 - gone) * outlasts / np.maximum((1 - gone) * outlasts + gone, LEAST)
    return out


def log_likelihood(times: Whole, outlasts: Array, a: float, b: float) -> Array:
    """Per client, of her visits after the first and of what followed the last."""
    gone = stopped(times, a, b)
    out: Array = np.log(stays(times, a, b)) + np.log(np.maximum(gone + (1 - gone) * outlasts, LEAST))
    return out


def fit(times: Whole, outlasts: Array) -> tuple[float, float]:
    """a and b of highest likelihood on a grid of means and weights, drawn a little toward what is known beforehand."""
    means, weights = np.repeat(MEANS, len(WEIGHTS)), np.tile(WEIGHTS, len(MEANS))
    a, b = means * weights, (1 - means) * weights
    steps = np.arange(int(times.max(initial=0)) + 1)
    gone = a[:, None] / ((a + b)[:, None] + steps)
    survived = np.cumsum(np.log1p(-gone), axis=1) - np.log1p(-gone)  # all moments before each
    likely = survived @ np.bincount(times, minlength=len(steps)).astype(np.float64)
    for number, row in enumerate(gone):
        chance = row[times]
        likely[number] += np.log(np.maximum(chance + (1 - chance) * outlasts, LEAST)).sum()
    likely += START_STOPPED * np.log(means) + (START_VISITS * np.log1p(-means))
    best = int(np.argmax(likely))
    return float(a[best]), float(b[best])


@dataclass(frozen=True)
class Stopping:
    """first: chance to stop after the first visit, of those first seen as the book opens and of those seen later.
    a and b: of the chance to stop after each later one."""

    first: tuple[float, float] = (1 / 3, 1 / 3)  # where fitting starts
    a: float = START_STOPPED
    b: float = START_VISITS - START_STOPPED

    def gone(self, times: Whole, later: Whole) -> Array:
        """Per client the chance to have stopped after her last visit, by those alone; times: how often she came again;
        later: 1 where she was first seen later than as the book opened."""
        once = np.asarray(self.first)[later]
        return np.where(times == 0, once, stopped(np.maximum(times - 1, 0), self.a, self.b))

    def still(self, times: Whole, later: Whole, outlasts: Array) -> Array:
        """Chance that she is still a client; outlasts: S of the module's text."""
        gone = self.gone(times, later)
        out: Array = (1 - gone) * outlasts / np.maximum((1 - gone) * outlasts + gone, LEAST)
        return out

    def fitted(self, times: Whole, later: Whole, outlasts: Array) -> "Stopping":
        """The chances of highest likelihood in the light of S."""
        first = [self._first(group, times[later == group], outlasts[later == group]) for group in (0, 1)]
        back = times > 0
        return Stopping((first[0], first[1]), *fit(times[back] - 1, outlasts[back]))

    def moved(self, before: "Stopping") -> float:
        """By how much the chances to stop differ from those before."""
        first = max(abs(one - other) for one, other in zip(self.first, before.first, strict=True))
        return max(first, abs(self.a / (self.a + self.b) - before.a / (before.a + before.b)))

    def _first(self, group: int, times: Whole, outlasts: Array) -> float:
        """By EM: who came once stopped, or is still out."""
        out, chance = outlasts[times == 0], self.first[group]
        for _ in range(STEPS):
            gone = float((chance / np.maximum(chance + (1 - chance) * out, LEAST)).sum())
            chance = (gone + float(FIRST_STOPPED[group]) * FIRST_CLIENTS) / (len(times) + FIRST_CLIENTS)
        return chance
