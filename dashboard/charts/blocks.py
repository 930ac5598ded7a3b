"""Chair hours as blocks: a block's area is its net revenue."""

from itertools import accumulate

import plotly.graph_objects as go

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings
from dashboard.charts.canvas import canvas, corner, plain, sign
from dashboard.frames import Frame
from dashboard.parts.palette import KINDS, ON_BLOCK, ON_KIND, Ink

SMALLEST_LABEL = 11


def chair_blocks(chairs: Frame, costs: tuple[float | None, float | None], settings: Settings, ink: Ink) -> go.Figure:
    """The figure `chairs` of one month: a block per service, as wide as its chair hours, as high as its net an hour.

    The area of a block is its net revenue. Its hatched top is what the product cost; the lines across are what an open
    chair hour costs and what a taken one must carry, which the plain part of a block should reach.
    """
    rows = _shown(chairs)
    widths = [row["chair_hours"] for row in rows]
    *starts, end = accumulate(widths, initial=0.0)
    kept = [max(row["after_product_per_chair_hour"], 0.0) for row in rows]
    picture = canvas(ink, 380)
    common = {"x": starts, "width": widths, "offset": 0, "hoverinfo": "text"}
    line = {"color": ink.paper, "width": 1.5}
    picture.add_bar(
        **common,
        y=kept,
        text=[plain(row["service"]) for row in rows],
        textposition="inside",
        insidetextanchor="end",
        textfont={"color": [ON_KIND.get(row["kind"], ON_BLOCK) for row in rows], "size": 13},
        marker={"color": [KINDS.get(row["kind"], KINDS["other"]) for row in rows], "line": line},
        hovertext=[_block_text(row, settings) for row in rows],
    )
    picture.add_bar(
        **common,
        base=kept,
        y=[row["net_per_chair_hour"] - under for row, under in zip(rows, kept, strict=True)],
        marker={
            "color": ink.band,
            "line": line,
            "pattern": {"shape": "/", "fgcolor": ink.quiet, "size": 5, "solidity": 0.25},
        },
        hovertext=[f"{plain(row['service'])}: product" for row in rows],
    )
    picture.update_layout(barmode="overlay", uniformtext={"minsize": SMALLEST_LABEL, "mode": "hide"})
    _cost_lines(picture, costs, settings, ink)
    picture.update_xaxes(title={"text": "chair hours, side by side", "font": {"size": 12}}, range=[0, end or 1])
    picture.update_yaxes(tickprefix=sign(settings), rangemode="tozero")
    corner(picture, "net per chair hour", ink)
    return picture


def _shown(chairs: Frame) -> list[Row]:
    """Services that took a chair and brought something, the dearest hour first."""
    rows = [row for row in chairs.to_dicts() if row["chair_hours"] > 0 and (row["net_per_chair_hour"] or 0) > 0]
    return sorted(rows, key=lambda row: (-row["net_per_chair_hour"], row["service_id"]))


def _block_text(row: Row, settings: Settings) -> str:
    hour = wording.money(row["net_per_chair_hour"], settings)
    return f"{plain(row['service'])}: {hour} an hour, {wording.hours(row['chair_hours'], settings)}"


def _cost_lines(picture: go.Figure, costs: tuple[float | None, float | None], settings: Settings, ink: Ink) -> None:
    """The cost of an open hour and that of a taken one, each with its words at its end."""
    said = ("an open hour costs", "a taken hour must carry")
    known = [(cost, words) for cost, words in zip(costs, said, strict=True) if cost is not None]
    for cost, words in known:
        dash = "dot" if words == said[0] else "solid"
        picture.add_hline(y=cost, line={"color": ink.accent, "width": 2.5, "dash": dash})
    if known:
        text = " · ".join(
            f"{'- -' if words == said[0] else '—'} {words} {wording.money(cost, settings)}" for cost, words in known
        )
        picture.add_annotation(
            x=1, xref="paper", y=1, yref="paper", text=text, xanchor="right", yanchor="bottom", yshift=18,
            showarrow=False, font={"color": ink.accent_text, "size": 12},
        )  # fmt: skip
        picture.update_layout(margin_t=44)
