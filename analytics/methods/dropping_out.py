"""Whether a client who hasn't come is late or gone: she may stop after any visit, with a chance of her own.

After each visit, the first included, a client stops for good with chance p; p differs between clients as a Beta(a, b)
distribution. A client who came again x times survived x such moments; after the last she has either stopped (p) or is
still between two visits, which a gap outlasts with probability S, her chance of still being out by her own rhythm:
    likelihood of stopping or not = B(a, b + x) ÷ B(a, b) × [a ÷ (a + b + x) + (b + x) ÷ (a + b + x) × S]
    chance she is still a client  = (b + x) S ÷ [a + (b + x) S].
This is the modified BG/NBD family (Batislam, Denizel, Filiztekin 2007, Int J Research in Marketing 24:201–209; with
regular gaps MBG/CNBD-k: Reutterer, Platzer, Schröder 2021, IJRM 38:194–215) with S left open: a regular client a month
past her day has a small S and is likely gone, an irregular one isn't. In BG/NBD (Fader, Hardie, Lee 2005, Marketing
Science 24:275–284) nobody stops after the first visit: one moment fewer, and none for a client who never came again.
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# What is known before any client was seen: one in 30 visits was the last, as if on so many visits.
START_STOPPED, START_VISITS = 1.0, 30.0
MEANS = np.geomspace(0.0005, 0.5, 40)
WEIGHTS = np.array([0.5, 1, 2, 4, 8, 16, 32, 64, 128, 512])  # a + b


def stays(times: NDArray[np.int64], a: float, b: float) -> Array:
    """Chance to survive so many moments: E[(1 − p)^times] = B(a, b + times) ÷ B(a, b)."""
    steps = np.arange(max(int(times.max(initial=0)), 1))
    logs = np.concatenate([[0.0], np.cumsum(np.log(b + steps) - np.log(a + b + steps))])
    out: Array = np.exp(logs[times])
    return out


def stopped(times: NDArray[np.int64], a: float, b: float) -> Array:
    """Chance to have stopped at the moment after `times` survived ones, by those alone."""
    out: Array = a / (a + b + times.astype(np.float64))
    return out


def still_client(times: NDArray[np.int64], outlasts: Array, a: float, b: float) -> Array:
    """Chance that she is still a client; outlasts: S of the module's text."""
    gone = stopped(times, a, b)
    out: Array = (1 - gone) * outlasts / np.maximum((1 - gone) * outlasts + gone, 1e-300)
    return out


def log_likelihood(times: NDArray[np.int64], outlasts: Array, a: float, b: float) -> Array:
    """Per client, of her visits after the first and of what followed the last."""
    gone = stopped(times, a, b)
    out: Array = np.log(stays(times, a, b)) + np.log(np.maximum(gone + (1 - gone) * outlasts, 1e-300))
    return out


def fit(times: NDArray[np.int64], outlasts: Array) -> tuple[float, float]:
    """a and b of highest likelihood on a grid of means and weights, drawn a little toward what is known beforehand."""
    best = max(
        (
            float(log_likelihood(times, outlasts, mean * weight, (1 - mean) * weight).sum())
            + START_STOPPED * float(np.log(mean))
            + START_VISITS * float(np.log1p(-mean)),
            mean * weight,
            (1 - mean) * weight,
        )
        for mean in MEANS
        for weight in WEIGHTS
    )
    return float(best[1]), float(best[2])
