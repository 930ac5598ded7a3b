"""The hours of the week as a table of shades, with the number in each. Every text from data is escaped here."""

from html import escape

from analytics import sentences, wording
from analytics.definitions.rows import Row
from analytics.settings import WEEKDAYS, Settings
from dashboard.parts.palette import SHADES

TAKEN, BROUGHT = "taken_share", "net_per_open_hour"


def drawn(rows: list[Row], shown: str, settings: Settings) -> str:
    """A row per clock hour and a column per weekday with opening hours; fuller or dearer is the stronger shade."""
    cells = {(row["weekday"], row["hour"]): row for row in rows if row["open_hours"] > 0}
    days = [day for day in WEEKDAYS if any(weekday == day for weekday, _ in cells)]
    most = 1.0 if shown == TAKEN else max((row[shown] or 0 for row in cells.values()), default=0) or 1
    heads = "".join(f'<th scope="col">{escape(sentences.weekday_name(day, settings, short=True))}</th>' for day in days)
    lines = "".join(
        f'<tr><th scope="row">{hour}:00</th>'
        + "".join(_cell(cells.get((day, hour)), shown, most, settings) for day in days)
        + "</tr>"
        for hour in _hours(cells)
    )
    return f'<table class="week"><tr><th></th>{heads}</tr>{lines}</table>'


def _hours(cells: dict[tuple[str, int], Row]) -> list[int]:
    hours = [hour for _, hour in cells]
    return list(range(min(hours), max(hours) + 1)) if hours else []


def _cell(row: Row | None, shown: str, most: float, settings: Settings) -> str:
    if row is None or row[shown] is None:
        return '<td class="closed"></td>'
    says = wording.share(row[shown], settings) if shown == TAKEN else wording.money(row[shown], settings, whole=True)
    return f'<td class="shade{shade(row[shown], most)}">{escape(says)}</td>'


def shade(value: float, most: float) -> int:
    """Which of the shades a value has: equal steps from nothing to `most`."""
    return min(int(max(value, 0) / most * len(SHADES)), len(SHADES) - 1)
