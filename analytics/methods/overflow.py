"""Work that does not fit where it is wanted goes to the nearest places before and after, as far as there is room.

Half of what is too much looks for room on either side, again and again until all of it fits or has been through every
place; what finds none at all is not done. No table is published for it.
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def fitted(wanted: Array, most: Array) -> Array:
    """wanted: runs × places in a row. most: what each place holds, in every run alike or not. What is done in each."""
    done, over = np.minimum(wanted, most), np.maximum(wanted - most, 0.0)
    back = forth = over / 2
    for _ in range(wanted.shape[1]):
        back, forth = _moved(back, -1), _moved(forth, 1)
        asking = back + forth
        taken = np.minimum(asking, most - done)
        done = done + taken
        left = np.divide(asking - taken, asking, out=np.zeros_like(asking), where=asking > 0)
        back, forth = back * left, forth * left
    return done


def _moved(work: Array, step: int) -> Array:
    """By one place; at either end it turns round."""
    out = np.zeros_like(work)
    if step < 0:
        out[:, :-1] = work[:, 1:]
    else:
        out[:, 1:] = work[:, :-1]
    return out
