"""Every figure of the month as a table: its months as a small area, its value, and what was to be expected.

Every text from data is escaped here.
"""

from html import escape

from analytics import sentences, wording
from analytics.definitions.rows import Row
from analytics.settings import Settings
from dashboard.frames import Frame

MONTHS = 24
WHOLE = 100.0  # percent
HEAD = ("", "Two years", "Now", "Expected")


def drawn(frame: Frame, settings: Settings, month: str) -> str:
    """The figure `month` in groups, those of the month that are news in the accent."""
    months = sorted({name for name in frame["month"] if name <= month})[-MONTHS:]
    lines = {
        name: [of_month.get(each) for each in months]
        for (name,), rows in frame.filter(frame["month"].is_in(months)).group_by("figure", maintain_order=True)
        for of_month in [dict(zip(rows["month"], rows["value"], strict=True))]
    }
    now = {row["figure"]: row for row in frame.filter(month=month).to_dicts()}
    heads = "".join(f'<th scope="col">{name}</th>' for name in HEAD)
    groups = [
        f'<tr><th class="group" colspan="{len(HEAD)}" scope="colgroup">{escape(title)}</th></tr>'
        + "".join(_row(line, now[line.figure], lines[line.figure], settings) for line in group)
        for title, group in sentences.statement(frame, settings, month).items()
    ]
    return f'<table class="all"><tr>{heads}</tr>{"".join(groups)}</table>'


def _row(line: sentences.FigureLine, row: Row, values: list[object], settings: Settings) -> str:
    expected = wording.quantity(row["expected"], row["unit"], settings)
    return (
        f'<tr class="{"wants" if line.news else ""}"><th scope="row">{escape(line.name)}</th>'
        f"<td>{small_area(values)}</td><td><b>{escape(line.value)}</b></td><td>{escape(expected)}</td></tr>"
    )


def small_area(values: list[object]) -> str:
    """The values in order as an area over nothing (or the lowest below it); one that is not known leaves a gap."""
    known = [float(str(value)) for value in values if value is not None]
    if len(known) < 2:
        return ""
    low, high = min(0.0, *known), max(0.0, *known)
    base, span, step = WHOLE * high / ((high - low) or 1), (high - low) or 1, WHOLE / (len(values) - 1)
    tops = [base if value is None else WHOLE * (high - float(str(value))) / span for value in values]
    points = ", ".join(f"{place * step:.1f}% {top:.1f}%" for place, top in enumerate(tops))
    outline = f"0% {base:.1f}%, {points}, 100% {base:.1f}%"
    return f'<div class="small" aria-hidden="true" style="clip-path:polygon({outline})"></div>'
