"""A value on its small range, as the month's page and paper draw it."""

from analytics.definitions.rows import Row

ON_THE_RANGE = ("value", "previous", "year_ago", "usual_low", "usual_high")
ROOM = 0.08  # of a small range, on either side


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
