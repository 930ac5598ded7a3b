"""What every picture shares: an empty canvas, its inks, and text from data that stays text."""

from typing import Any

import plotly.graph_objects as go

from analytics import wording
from analytics.settings import Settings
from dashboard.parts.palette import Ink

FACE = '"Source Sans", sans-serif'  # the face the pages bring along


def plain(text: str) -> str:
    """Text from data for a picture: plotly reads a few HTML tags, so none may come in."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def canvas(ink: Ink, height: int) -> go.Figure:
    """An empty picture: no grid across, pale lines, tick labels in the ink of the text."""
    figure = go.Figure()
    figure.update_layout(
        height=height,
        margin={"l": 8, "r": 8, "t": 24, "b": 8},
        paper_bgcolor="rgba(0,0,0,0)",
        plot_bgcolor="rgba(0,0,0,0)",
        font={"color": ink.text, "size": 13, "family": FACE},
        showlegend=False,
        hoverlabel={"bgcolor": ink.panel, "bordercolor": ink.line, "font": {"color": ink.text}},
        dragmode=False,
    )
    axis = {"tickfont": {"color": ink.text, "size": 12}, "automargin": True, "zeroline": False, "fixedrange": True}
    figure.update_xaxes(**axis, showgrid=False, linecolor=ink.line)
    figure.update_yaxes(**axis, gridcolor=ink.line, gridwidth=1, nticks=5)
    return figure


def corner(picture: go.Figure, text: str, ink: Ink, x: float = 0) -> None:
    """What the upright axis counts, at its head, instead of a title turned on its side."""
    picture.add_annotation(
        x=x, xref="paper", y=1, yref="paper", text=text, xanchor="left", yanchor="bottom", yshift=5,
        showarrow=False, font={"color": ink.quiet, "size": 12},
    )  # fmt: skip


def sign(settings: Settings) -> str:
    """The currency's sign, for an axis."""
    return "".join(sign for sign in wording.money(0, settings, whole=True) if sign not in "0\u00a0\u202f ")


def faint(colour: str) -> str:
    """The colour as a pale film, for bands."""
    red, green, blue = (int(colour[place : place + 2], 16) for place in (1, 3, 5))
    return f"rgba({red},{green},{blue},0.22)"


def band(picture: go.Figure, x: list[Any], low: list[float], high: list[float], colour: str) -> None:
    """A filled band from low to high."""
    edge: dict[str, Any] = {"x": x, "mode": "lines", "line": {"width": 0}, "hoverinfo": "skip"}
    picture.add_scatter(**edge, y=high)
    picture.add_scatter(**edge, y=low, fill="tonexty", fillcolor=colour)
