"""The month's first figures: a value over a small range with a dot. Every text from data is escaped here."""

from html import escape

from analytics import sentences
from analytics.definitions.rows import Row
from analytics.handover.small_range import places
from analytics.settings import Settings
from dashboard.parts.bars import part


def drawn(rows: list[Row], settings: Settings, month: str) -> str:
    """The figures side by side, or under each other on a phone."""
    return '<ul class="ranges">' + "".join(_figure(row, settings, month) for row in rows) + "</ul>"


def _figure(row: Row, settings: Settings, month: str) -> str:
    line = sentences.statement_line(row, settings, month)
    return (
        f'<li class="{"wants" if line.news else ""}"><span>{escape(line.name)}</span><em>{escape(line.value)}</em>'
        f"{strip(row)}"
        f"<small class='standing'>{escape(sentences.range_says(row, settings))}</small>"
        f"<small>{escape(sentences.before_after(row, settings, month))}</small></li>"
    )


def strip(row: Row) -> str:
    """The usual range as a band, the month before and a year before as marks, the month as a dot."""
    place = {name: 100 * at for name, at in places(row).items()}
    band = part(place["usual_low"], place["usual_high"] - place["usual_low"], "usual") if "usual_high" in place else ""
    marks = "".join(
        f'<b class="{name}" style="left:{place[name]:.2f}%"></b>' for name in ("year_ago", "previous") if name in place
    )
    hollow = " hollow" if row["part_month"] else ""
    dot = f'<u class="dot{hollow}" style="left:{place["value"]:.2f}%"></u>' if "value" in place else ""
    return f'<div class="strip" aria-hidden="true">{band}{marks}{dot}</div>'
