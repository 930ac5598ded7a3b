"""Work that is killed while it writes several files as one."""

import itertools
from collections.abc import Callable

import pytest

from analytics.storage import together


class KilledError(BaseException):
    pass


def stopping_at(stop: int, broken: pytest.MonkeyPatch) -> None:
    """Whatever writes or moves a file dies at the step of this number."""
    steps = itertools.count(1)

    def counted(do: Callable[..., None]) -> Callable[..., None]:
        def step(*given: object) -> None:
            if next(steps) == stop:
                raise KilledError
            do(*given)

        return step

    for name in ("replace_private", "_moved"):
        broken.setattr(together, name, counted(getattr(together, name)))
