"""Who has returned, week by week, as lines with their bands."""

import plotly.graph_objects as go

from analytics.definitions.rows import Row
from dashboard.charts.canvas import band, canvas, corner, faint, plain
from dashboard.frames import Frame
from dashboard.parts.palette import Ink

TICKS = (0, 4, 8, 12, 16, 20, 26)


def return_curves(curves: Frame, split: str, name: str, label: str, ink: Ink) -> go.Figure:
    """The figure `return_curves`: the share returned, week by week, of everybody and of one group, each with its band.

    Under the weeks stands how many clients of the group are still waited for.
    """
    picture = canvas(ink, 340)
    everybody = curves.filter(split="everybody").sort("week").to_dicts()
    chosen = everybody if split == "everybody" else curves.filter(split=split, name=name).sort("week").to_dicts()
    if split != "everybody":
        _curve(picture, everybody, "all", ink.quiet, ink)
    _curve(picture, chosen, plain(label), ink.accent, ink)
    at_risk = {row["week"]: row["at_risk"] for row in chosen}
    weeks = [week for week in TICKS if week in at_risk]
    picture.update_xaxes(
        tickvals=weeks, ticktext=[f"{week}<br>{at_risk[week]}" for week in weeks], range=[-0.5, 33],
        title={"text": "weeks since the first visit; below it, clients still waited for", "font": {"size": 12}},
    )  # fmt: skip
    picture.update_yaxes(tickformat=".0%", range=[0, 1.02])
    corner(picture, "share that has returned", ink)
    return picture


def _curve(picture: go.Figure, rows: list[Row], label: str, colour: str, ink: Ink) -> None:
    """A line with its band behind it, and its name at its end."""
    if not rows:
        return
    known = [row for row in rows if row["returned_low"] is not None and row["returned_high"] is not None]
    low, high = ([row[name] for row in known] for name in ("returned_low", "returned_high"))
    band(picture, [row["week"] for row in known], low, high, ink.band if colour == ink.quiet else faint(colour))
    picture.add_scatter(
        x=[row["week"] for row in rows], y=[row["returned"] for row in rows], mode="lines",
        line={"color": colour, "width": 2.5}, hoverinfo="text",
        hovertext=[f"week {row['week']}: {row['returned']:.0%}" for row in rows],
    )  # fmt: skip
    last, named = rows[-1], ink.quiet if colour == ink.quiet else ink.accent_text
    picture.add_annotation(
        x=last["week"], y=last["returned"], text=label, xanchor="left", xshift=6, showarrow=False,
        yshift=-12 if colour == ink.quiet else 12, font={"color": named, "size": 12},
    )  # fmt: skip
