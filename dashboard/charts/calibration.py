"""How far ranges and chances can be trusted: what came to pass against what was said."""

import plotly.graph_objects as go

from dashboard.charts.canvas import canvas, corner
from dashboard.frames import Frame
from dashboard.parts.palette import Ink

MEANT = 0.8  # of the ranges


def calibration(by_width: Frame, by_chance: Frame, ink: Ink) -> go.Figure:
    """Two pictures side by side: the share inside against the width of the range, and the share seen against the chance
    said. Frames of predicted, seen and n."""
    picture = canvas(ink, 300)
    widest = max(by_width["predicted"], default=1) * 1.1
    common = {"mode": "markers", "marker": {"color": ink.dot, "size": 10}, "hoverinfo": "text", "cliponaxis": False}
    line = {"color": ink.quiet, "width": 1.5, "dash": "dash"}
    picture.add_scatter(x=[0, widest], y=[MEANT, MEANT], mode="lines", line=line, hoverinfo="skip")
    picture.add_scatter(x=[0, 1], y=[0, 1], mode="lines", line=line, hoverinfo="skip", xaxis="x2", yaxis="y2")
    for frame, axes in ((by_width, {}), (by_chance, {"xaxis": "x2", "yaxis": "y2"})):
        said = [f"{seen:.0%} of {count}" for seen, count in frame.select("seen", "n").iter_rows()]
        picture.add_scatter(x=frame["predicted"].to_list(), y=frame["seen"].to_list(), hovertext=said, **common, **axes)
    axis = picture.layout.xaxis.to_plotly_json()
    upright = picture.layout.yaxis.to_plotly_json() | {"tickformat": ".0%", "range": [0, 1.04]}
    small = {"size": 12}
    picture.update_layout(
        xaxis={**axis, "domain": [0, 0.44], "range": [0, widest],
               "title": {"text": "width of the range, days", "font": small}},
        xaxis2={**axis, "domain": [0.58, 1], "range": [0, 1.04], "tickformat": ".0%", "anchor": "y2", "nticks": 3,
                "title": {"text": "chance said", "font": small}},
        yaxis=upright,
        yaxis2={**upright, "anchor": "x2"},
    )  # fmt: skip
    corner(picture, "came within the range", ink)
    corner(picture, "came within 90 days", ink, x=0.58)
    return picture
