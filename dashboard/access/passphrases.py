"""Passphrases: kept as argon2id hashes, and each wrong one makes the next wait longer."""

import math
import threading
import time
from collections.abc import Callable

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from analytics.stops import WorkStopped

SHORTEST = 8  # characters; with a paired phone, which is the other half (NIST SP 800-63B, from memory)
LONGEST = 200
FREE_TRIES = 3
LONGEST_WAIT_S = 900
_HASHER = PasswordHasher()  # its defaults are RFC 9106's second choice: 64 MiB, three passes


def hashed(passphrase: str) -> str:
    """What may be kept of a passphrase. Raises WorkStopped where it is too short or too long."""
    if not SHORTEST <= len(passphrase) <= LONGEST:
        raise WorkStopped(f"A passphrase has {SHORTEST} to {LONGEST} characters; a few words that only you know do.")
    return _HASHER.hash(passphrase)


def matches(kept: str, passphrase: str) -> bool:
    """Whether this is the passphrase that was kept."""
    try:
        return _HASHER.verify(kept, passphrase[: LONGEST + 1])
    except (VerificationError, InvalidHashError):
        return False


class Attempts:
    """How long somebody must wait who was wrong several times: 2, 4, 8 … seconds, up to a quarter of an hour.

    Counted by a name (a phone, a person) in memory, until the right one is given.
    """

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._wrong: dict[str, tuple[int, float]] = {}
        self._lock = threading.Lock()

    def wait_s(self, name: str) -> int:
        """Whole seconds until the next try counts; 0 where it may be made now."""
        _, free_at = self._wrong.get(name, (0, 0.0))
        return max(0, math.ceil(free_at - self._clock()))

    def was_wrong(self, name: str) -> None:
        with self._lock:
            count = self._wrong.get(name, (0, 0.0))[0] + 1
            wait = 0 if count < FREE_TRIES else min(2 ** (count - FREE_TRIES + 1), LONGEST_WAIT_S)
            self._wrong[name] = (count, self._clock() + wait)

    def was_right(self, name: str) -> None:
        with self._lock:
            self._wrong.pop(name, None)
