"""The coming weeks: what is booked, what is expected, what is open."""

import plotly.graph_objects as go

from analytics import wording
from analytics.definitions.rows import Row
from analytics.sentences.ahead import OVERFLOWS
from analytics.settings import Settings
from dashboard.charts.canvas import canvas, corner, faint
from dashboard.frames import Frame
from dashboard.parts.palette import Ink


def weeks_ahead(ahead: Frame, settings: Settings, ink: Ink) -> go.Figure:
    """The figure `ahead`: a bar of what is booked, a dot with its band of what is expected, a line of what is open."""
    picture = canvas(ink, 320)
    rows = ahead.sort("week_start").to_dicts()
    names = [wording.short_day(row["week_start"], settings) for row in rows]
    at = list(range(len(rows)))
    colours = [ink.accent if row["standing"] == OVERFLOWS else ink.dot for row in rows]
    hours = [row["chair_hours_expected"] for row in rows]
    said = [f"{name}: {wording.hours(each, settings)}" for name, each in zip(names, hours, strict=True)]
    booked = [row["chair_hours_booked"] for row in rows]
    picture.add_bar(x=at, y=booked, width=0.7, marker={"color": ink.band}, hoverinfo="skip")
    picture.add_bar(
        x=at, base=[row["chair_hours_low"] for row in rows], y=[_likely(row) for row in rows],
        width=0.22, marker={"color": [faint(colour) for colour in colours]}, hoverinfo="skip",
    )  # fmt: skip
    picture.add_scatter(
        x=at, y=hours, mode="markers", marker={"color": colours, "size": 9}, hovertext=said, hoverinfo="text"
    )
    for place, row in zip(at, rows, strict=True):
        opened = row["chair_hours_open"]
        picture.add_shape(
            type="line", x0=place - 0.42, x1=place + 0.42, y0=opened, y1=opened, line={"color": ink.text, "width": 2}
        )
    shown = at[::3]
    picture.update_layout(barmode="overlay")
    picture.update_xaxes(tickvals=shown, ticktext=[names[place] for place in shown], range=[-0.6, len(at) - 0.4])
    picture.update_yaxes(rangemode="tozero", ticksuffix=" h")
    corner(picture, "chair hours, week by week", ink)
    return picture


def _likely(row: Row) -> float | None:
    """How tall the band is; nothing where there is no range."""
    low, high = row["chair_hours_low"], row["chair_hours_high"]
    return None if low is None or high is None else high - low
