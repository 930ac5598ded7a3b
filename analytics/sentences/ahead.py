"""The coming weeks: which are likely to overflow and which have room.

A week takes what is expected, or what is booked already where that is more. It is likely to overflow where that is more
than is open, and may overflow where the high end of the range is. It has room where a quarter of the open hours stays
free even at the high end.
"""

from datetime import date, timedelta
from typing import Any

import polars as pl

from analytics import wording
from analytics.settings import Settings

Row = dict[str, Any]
ROOM = 0.25  # of the open hours
MOST_NAMED = 3


def ahead_sentence(ahead: pl.DataFrame, settings: Settings, today: date) -> str:
    """Names the weeks that overflow and those with room."""
    rows = [row for row in ahead.to_dicts() if row["chair_hours_open"]]
    if not any(row["clients_expected"] or row["chair_hours_booked"] for row in rows):
        return "Nobody is expected or booked in the coming weeks that the salon opens."
    standings: dict[str, list[Row]] = {name: [row for row in rows if standing(row) == name] for name in STANDINGS}
    parts = [
        _named(standings[name], say, settings, today) for name, say in STANDINGS.items() if say and standings[name]
    ]
    if not standings[OVERFLOWS]:
        parts = ["no week is likely to overflow", *parts]
    clients = wording.number(sum(row["clients_expected"] for row in rows), settings)
    return f"In the {len(ahead)} weeks ahead about {clients} visits are expected; {'; '.join(parts)}."


OVERFLOWS, MAY_OVERFLOW, HAS_ROOM, ORDINARY, CLOSED = "overflows", "may overflow", "room", "ordinary", "closed"
STANDINGS = {
    OVERFLOWS: "more than is open is likely",
    MAY_OVERFLOW: "it may get too full",
    HAS_ROOM: "there is room",
    ORDINARY: "",
}


def standing(row: Row) -> str:
    """Whether a week overflows, may overflow, has room, or is closed."""
    opened, booked = row["chair_hours_open"] or 0.0, row["chair_hours_booked"] or 0.0
    expected, high = (max(row[name] or 0.0, booked) for name in ("chair_hours_expected", "chair_hours_high"))
    if not opened:
        return CLOSED
    if expected > opened:
        return OVERFLOWS
    if high > opened:
        return MAY_OVERFLOW
    return HAS_ROOM if opened - high >= ROOM * opened else ORDINARY


def _named(rows: list[Row], say: str, settings: Settings, today: date) -> str:
    """Weeks by their days, the fullest or emptiest first; many are counted and the first few named."""
    emptiest = standing(rows[0]) == HAS_ROOM
    order = sorted(rows, key=_free, reverse=emptiest)
    weeks = sorted(order[:MOST_NAMED], key=lambda row: row["week_start"])
    names = wording.listed([week_name(row["week_start"], settings, today) for row in weeks])
    most = "most in " if len(rows) > MOST_NAMED and emptiest else "above all in " if len(rows) > MOST_NAMED else ""
    count = f" in {wording.counted(len(rows), 'week', 'weeks', settings)}," if len(rows) > MOST_NAMED else " in"
    return f"{say}{count} {most}{names}".replace(" in most in", " in")


def _free(row: Row) -> float:
    return float(row["chair_hours_open"] - max(row["chair_hours_high"] or 0.0, row["chair_hours_booked"] or 0.0))


def week_name(monday: date, settings: Settings, today: date) -> str:
    """'9–15 November'."""
    return wording.days(monday, monday + timedelta(days=6), settings, today)


def week_line(row: Row, settings: Settings) -> str:
    """One week in numbers: clients and hours with their range, booked and open."""
    low, high = (wording.number(row[name], settings) for name in ("chair_hours_low", "chair_hours_high"))
    expected = wording.hours(row["chair_hours_expected"], settings)
    booked, opened = (wording.hours(row[name], settings) for name in ("chair_hours_booked", "chair_hours_open"))
    clients = wording.number(row["clients_expected"], settings)
    return f"{clients} clients, {expected} expected ({low}–{high} h) · {booked} booked · {opened} open"
