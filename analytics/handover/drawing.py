"""Where a number lies in a picture, on a ruler or on a small range: what is drawn, and nothing that anybody reads."""

import math
from decimal import Decimal

from analytics.definitions.rows import Row

ON_THE_RANGE = ("value", "previous", "year_ago", "usual_low", "usual_high")
ROOM = 0.08  # of a small range, on either side
STEPS = (1, 2, 2.5, 5, 10)  # what the lines across a picture go up by, times a power of ten
LINES_ACROSS = 4


def places(row: Row) -> dict[str, float]:
    """Where each value of a figure lies on its small range, 0–1, with room on either side; a lone one in the middle.

    Of value, previous, year_ago, usual_low and usual_high, those there are.
    """
    known = {name: float(row[name]) for name in ON_THE_RANGE if row[name] is not None}
    low, high = min(known.values(), default=0.0), max(known.values(), default=0.0)
    return {
        name: 0.5 if low == high else ROOM + (1 - 2 * ROOM) * (value - low) / (high - low)
        for name, value in known.items()
    }


def lines_across(tallest: float) -> list[float]:
    """Round amounts from nothing up to the first that the tallest value does not reach."""
    power = 10.0 ** math.floor(math.log10(max(tallest, 1) / LINES_ACROSS))
    step = next(power * step for step in STEPS if power * step * LINES_ACROSS >= tallest)
    count = next(count for count in range(1, LINES_ACROSS + 2) if step * count > tallest)
    return [step * place for place in range(count + 1)]


def up_to(value: float | Decimal, top: float) -> float:
    """How far up a value lies in a picture that ends at `top`, 0–1."""
    return float(value) / top


def lengths(amounts: list[float]) -> list[float]:
    """The lengths of bars from zero, −1 to 1: the longest is as long as there is room for."""
    scale = max(map(abs, amounts), default=0) or 1
    return [amount / scale for amount in amounts]


def along(mark: float | Decimal, top: float) -> float:
    """Where a mark lies on a ruler that ends at `top`, in percent; what lies beyond it at its end."""
    return min(float(mark), top) / top * 100


def ruler_top(longest: float) -> float:
    """Where a ruler ends that shows the longest of some lengths: half as long again."""
    return 1.5 * longest
