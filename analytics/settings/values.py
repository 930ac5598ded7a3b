"""How single values of salon.toml are written: opening spans, days, lists, exact numbers."""

import re
from datetime import date
from decimal import Decimal
from itertools import pairwise
from typing import Annotated, Any

from pydantic import BeforeValidator

DAY_MINUTES = 24 * 60

Span = tuple[int, int]
"""Opening and closing, minutes after midnight of the day it opens; closing may lie past 1440."""


def _minutes(clock: str) -> int:
    found = re.fullmatch(r"(\d{1,2}):(\d{2})", clock.strip())
    if not found or int(found[2]) > 59 or int(found[1]) * 60 + int(found[2]) > DAY_MINUTES:
        raise ValueError(f"{clock.strip()!r} is not a time of day such as 09:00")
    return int(found[1]) * 60 + int(found[2])


def _span(text: str) -> Span:
    opens, dash, closes = text.partition("-")
    if not dash:
        raise ValueError(f"{text.strip()!r} is not a span such as 09:00-18:00")
    start, end = _minutes(opens), _minutes(closes)
    if start in (end, DAY_MINUTES):
        raise ValueError(f"{text.strip()!r} is not a span such as 09:00-18:00; a whole day is 00:00-24:00")
    return start, end if end > start else end + DAY_MINUTES


def _spans(value: Any) -> tuple[Span, ...]:
    """'09:00-12:30, 13:30-18:00' -> minutes; a span that ends before it starts ends on the next day."""
    if not isinstance(value, str):
        raise ValueError("expected text such as 09:00-18:00")
    spans = tuple(sorted(_span(part) for part in value.split(",") if part.strip()))
    if any(later[0] < earlier[1] for earlier, later in pairwise(spans)):
        raise ValueError("two opening spans overlap")
    return spans


def _text_list(value: Any) -> Any:
    return tuple(value) if isinstance(value, list) else value


def _days(value: Any) -> Any:
    """A list of days as text or as TOML dates."""
    if not isinstance(value, list):
        raise ValueError('expected a list of days such as ["2026-12-25"]')
    return tuple(_a_day(day) for day in value)


def _a_day(value: Any) -> date:
    if type(value) is date:
        return value
    try:
        return date.fromisoformat(value)
    except (TypeError, ValueError):
        raise ValueError(f"{value!r} is not a day such as 2026-12-25") from None


def _number(value: Any) -> Any:
    """A number as TOML writes it: neither yes/no nor text."""
    if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
        raise ValueError(f"{value!r} is not a number")
    return value


Number = Annotated[float, BeforeValidator(_number)]
Exact = Annotated[Decimal, BeforeValidator(_number)]
Spans = Annotated[tuple[Span, ...], BeforeValidator(_spans)]
Texts = Annotated[tuple[str, ...], BeforeValidator(_text_list)]
Days = Annotated[tuple[date, ...], BeforeValidator(_days)]
