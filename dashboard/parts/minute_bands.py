"""How long services take: a band, a dot and the menu's mark each. Every text from data is escaped here."""

from html import escape

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings
from dashboard.parts.bars import at, list_name, part

MINUTES = ("high_minutes", "menu_minutes")


def drawn(rows: list[Row], settings: Settings) -> str:
    """A line per service: name, median and menu minutes in words, over its range from nothing on."""
    top = max((row[name] for row in rows for name in MINUTES if row[name] is not None), default=0) * 1.03 or 1
    return f'<ul class="{list_name(len(rows))}">' + "".join(_span(row, top, settings) for row in rows) + "</ul>"


def _span(row: Row, top: float, settings: Settings) -> str:
    low, median, high = (at(row[name], top) for name in ("low_minutes", "median_minutes", "high_minutes"))
    menu = (
        "" if row["menu_minutes"] is None else f'<b class="menu" style="left:{at(row["menu_minutes"], top):.2f}%"></b>'
    )
    dot = f'<u class="dot" style="left:{median:.2f}%"></u>'
    return (
        f"<li><span>{escape(wording.plain_cell(row['service']))}</span><em>{escape(_minutes(row, settings))}</em>"
        f'<div class="strip" aria-hidden="true">{part(low, high - low, "usual")}{menu}{dot}</div>'
        f"<small>{escape(_more(row, settings))}</small></li>"
    )


def _minutes(row: Row, settings: Settings) -> str:
    said = f"{wording.number(row['median_minutes'], settings)} minutes"
    menu = row["menu_minutes"]
    return said if menu is None else f"{said}, menu {wording.number(menu, settings)}"


def _more(row: Row, settings: Settings) -> str:
    low, high = (wording.number(row[name], settings) for name in ("low_minutes", "high_minutes"))
    over = row["over_menu_share"]
    longer = "the menu gives no minutes" if over is None else f"{wording.share(over, settings)} over the menu"
    times = row["single_lines"] if row["basis"] == "single" else row["lines"]
    shared = ", shared" if row["basis"] == "shared" else ""
    return f"eight of ten {low}–{high} minutes · {longer} · {wording.counted(times, 'time', 'times', settings)}{shared}"
