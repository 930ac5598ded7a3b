"""Rows that several figures need are worked out once for the same tables.

Frames and settings are never changed in place, so the same objects in mean the same rows out. An answer is kept for as
long as all it was made from is in use, and forgotten with it.
"""

import weakref
from collections.abc import Callable
from datetime import date
from functools import wraps
from typing import Any, ParamSpec, TypeVar

Asked = ParamSpec("Asked")
Answer = TypeVar("Answer")
BY_VALUE = (str, date, int)


def memoised(work: Callable[Asked, Answer]) -> Callable[Asked, Answer]:
    """The function, answering at once where it was asked with the very same frames, settings and day before."""
    answers: dict[tuple[Any, ...], Answer] = {}

    @wraps(work)
    def at_once(*given: Asked.args, **named: Asked.kwargs) -> Answer:
        everything = (*given, *named.values())
        key = (*named, *(one if isinstance(one, BY_VALUE) else id(one) for one in everything))
        if key not in answers:
            answers[key] = work(*given, **named)
            for one in everything:
                if not isinstance(one, BY_VALUE):
                    weakref.finalize(one, answers.pop, key, None)
        return answers[key]

    return at_once
