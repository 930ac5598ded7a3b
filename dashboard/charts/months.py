"""Months as dots, each with its usual range as a band behind it."""

import plotly.graph_objects as go

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings
from dashboard.charts.canvas import band, canvas, corner, sign
from dashboard.frames import Frame
from dashboard.parts.palette import Ink

MONTHS_SHOWN = 36
LEFT, CAME = "left_after_costs", "net_revenue"


def verdict_months(month_frame: Frame, chosen: str, settings: Settings, ink: Ink) -> go.Figure:
    """The figure `month`: what was left, month by month, or where costs were never set what came in.

    A mark under a month says on how many days it was closed, weekly ones apart.
    """
    left = month_frame.filter(figure=LEFT).drop_nulls("value")
    shown, says = (CAME, "net revenue") if left.is_empty() else (LEFT, "left after product and costs")
    picture = months_with_usual(month_frame.filter(figure=shown), chosen, says, settings, ink)
    _closures(picture, month_frame.filter(figure="closed_days").to_dicts(), chosen, settings, ink)
    return picture


def _closures(picture: go.Figure, rows: list[Row], chosen: str, settings: Settings, ink: Ink) -> None:
    closed = [row for row in rows if row["month"] <= chosen][-MONTHS_SHOWN:]
    some = [row for row in closed if row["value"]]
    picture.add_scatter(
        x=[row["month"] for row in some], y=[0] * len(some), mode="markers", cliponaxis=False, hoverinfo="text",
        marker={"symbol": "line-ns", "size": 9, "line": {"width": 3, "color": ink.quiet}},
        hovertext=[
            f"{wording.month_title(row['month'], settings)}: "
            f"{wording.counted(int(row['value']), 'day closed', 'days closed', settings)}"
            for row in some
        ],
    )  # fmt: skip


def months_with_usual(frame: Frame, chosen: str, says: str, settings: Settings, ink: Ink) -> go.Figure:
    """Money by month as dots (month, value, part_month, flag), with usual_low to usual_high as a band behind them."""
    rows = [row for row in frame.to_dicts() if row["month"] <= chosen][-MONTHS_SHOWN:]
    picture = canvas(ink, 250)
    _usual(picture, rows, ink)
    _dots(picture, rows, chosen, settings, ink)
    names = {row["month"]: wording.short_month(row["month"], settings) for row in rows}
    step = 12 if len(names) > 12 else max(1, len(names) // 3)  # the same month of each year, where there is one
    shown = list(names)[::-1][::step]
    picture.update_xaxes(
        type="category",
        categoryorder="array",
        categoryarray=list(names),
        tickvals=shown,
        ticktext=[names[month] for month in shown],
        tickangle=0,
    )
    picture.update_yaxes(tickformat="~s", tickprefix=sign(settings), rangemode="tozero")
    picture.update_layout(margin_r=78)  # room for the last month's amount
    corner(picture, says, ink)
    return picture


def _usual(picture: go.Figure, rows: list[Row], ink: Ink) -> None:
    known = [row for row in rows if row["usual_low"] is not None and row["usual_high"] is not None]
    if not known:
        return
    low, high = ([float(row[name]) for row in known] for name in ("usual_low", "usual_high"))
    band(picture, [row["month"] for row in known], low, high, ink.band)
    picture.add_annotation(
        x=known[0]["month"], y=high[0], text="usual range", xanchor="left", yanchor="bottom", showarrow=False,
        font={"color": ink.quiet, "size": 12},
    )  # fmt: skip


def _dots(picture: go.Figure, rows: list[Row], chosen: str, settings: Settings, ink: Ink) -> None:
    colours = [ink.accent if row["flag"] else ink.dot for row in rows]
    texts = [
        f"{wording.month_title(row['month'], settings)}: {wording.money(row['value'], settings, whole=True)}"
        for row in rows
    ]
    picture.add_scatter(
        x=[row["month"] for row in rows],
        y=[None if row["value"] is None else float(row["value"]) for row in rows],
        mode="markers",
        marker={
            "size": [13 if row["month"] == chosen else 8 for row in rows],
            "color": [ink.paper if row["part_month"] else colour for row, colour in zip(rows, colours, strict=True)],
            "line": {"color": colours, "width": 2},
            "opacity": 1,
        },
        hovertext=texts,
        hoverinfo="text",
    )
    for row in rows:
        if row["month"] == chosen and row["value"] is not None:
            so_far = "<br>so far" if row["part_month"] else ""
            picture.add_annotation(
                x=chosen, y=float(row["value"]), text=wording.money(row["value"], settings, whole=True) + so_far,
                showarrow=False, xshift=10, xanchor="left", font={"color": ink.text, "size": 13},
            )  # fmt: skip
