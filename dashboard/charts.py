"""A figure's frame -> a plotly figure. Nothing of the pages, nothing that works a number out."""

import plotly.graph_objects as go
import polars as pl

from analytics import wording
from analytics.sentences.ahead import OVERFLOWS, standing
from analytics.settings import Settings
from dashboard.parts.palette import KINDS, ON_BLOCK, ON_KIND, Ink

MONTHS_SHOWN = 25  # two years and the month itself
SMALLEST_LABEL = 11
FACE = '"Source Sans", sans-serif'  # the face the pages bring along


def plain(text: str) -> str:
    """Text from data for a picture: plotly reads a few HTML tags, so none may come in."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _canvas(ink: Ink, height: int) -> go.Figure:
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


def revenue_months(month_frame: pl.DataFrame, chosen: str, settings: Settings, ink: Ink) -> go.Figure:
    """The figure `month`: net revenue as dots over the months, each with its usual range as a band behind it."""
    return months_with_usual(month_frame.filter(figure="net_revenue"), chosen, "net revenue", settings, ink)


def months_with_usual(frame: pl.DataFrame, chosen: str, says: str, settings: Settings, ink: Ink) -> go.Figure:
    """Money by month as dots (month, value, part_month), each with usual_low to usual_high as a band behind it."""
    rows = frame.filter(pl.col("month") <= chosen).tail(MONTHS_SHOWN)
    picture = _canvas(ink, 290)
    _band(picture, rows, ink)
    _dots(picture, rows, chosen, settings, ink)
    names = {month: wording.short_month(month, settings) for month in rows["month"]}
    step = 12 if len(names) > 12 else max(1, len(names) // 3)  # the same month of each year, where there is one
    shown = rows["month"].to_list()[::-1][::step]
    picture.update_xaxes(
        type="category",
        categoryorder="array",
        categoryarray=list(names),
        tickvals=shown,
        ticktext=[names[month] for month in shown],
        tickangle=0,
    )
    picture.update_yaxes(tickformat="~s", tickprefix=_sign(settings), rangemode="tozero")
    picture.update_layout(margin_r=78)  # room for the last month's amount
    _corner(picture, says, ink)
    return picture


def _band(picture: go.Figure, rows: pl.DataFrame, ink: Ink) -> None:
    known = rows.drop_nulls(["usual_low", "usual_high"])
    if known.is_empty():
        return
    low, high = (known[name].cast(pl.Float64).clip(0).to_list() for name in ("usual_low", "usual_high"))
    months = known["month"].to_list()
    picture.add_scatter(x=months, y=high, mode="lines", line={"width": 0}, hoverinfo="skip")
    picture.add_scatter(
        x=months, y=low, mode="lines", line={"width": 0}, fill="tonexty", fillcolor=ink.band, hoverinfo="skip"
    )
    picture.add_annotation(
        x=months[0], y=high[0], text="usual range", xanchor="left", yanchor="bottom", showarrow=False,
        font={"color": ink.quiet, "size": 12},
    )  # fmt: skip


def _dots(picture: go.Figure, rows: pl.DataFrame, chosen: str, settings: Settings, ink: Ink) -> None:
    colours = [ink.accent if _outside(row) else ink.dot for row in rows.to_dicts()]
    texts = [
        f"{wording.month_title(row['month'], settings)}: {wording.money(row['value'], settings, whole=True)}"
        for row in rows.to_dicts()
    ]
    picture.add_scatter(
        x=rows["month"].to_list(),
        y=rows["value"].cast(pl.Float64).to_list(),
        mode="markers",
        marker={
            "size": [13 if month == chosen else 8 for month in rows["month"]],
            "color": [ink.paper if part else colour for part, colour in zip(rows["part_month"], colours, strict=True)],
            "line": {"color": colours, "width": 2},
            "opacity": 1,
        },
        hovertext=texts,
        hoverinfo="text",
    )
    for row in rows.filter(pl.col("month") == chosen).drop_nulls("value").to_dicts():
        so_far = "<br>so far" if row["part_month"] else ""
        picture.add_annotation(
            x=chosen, y=float(row["value"]), text=wording.money(row["value"], settings, whole=True) + so_far,
            showarrow=False, xshift=10, xanchor="left", font={"color": ink.text, "size": 13},
        )  # fmt: skip


def _outside(row: dict[str, object]) -> bool:
    value, low, high = (row[name] for name in ("value", "usual_low", "usual_high"))
    if row["part_month"] or value is None or low is None or high is None:
        return False
    return not float(str(low)) <= float(str(value)) <= float(str(high))


def _sign(settings: Settings) -> str:
    """The currency's sign, for an axis."""
    return "".join(sign for sign in wording.money(0, settings, whole=True) if sign not in "0\u00a0\u202f ")


def chair_blocks(chairs: pl.DataFrame, cost: float | None, settings: Settings, ink: Ink) -> go.Figure:
    """The figure `chairs` of one month: a block per service, as wide as its chair hours, as high as its net an hour.

    The area of a block is its net revenue. Its hatched top is what the product cost; the line across is what an open
    chair hour costs, which the plain part of a block must clear.
    """
    rows = chairs.filter((pl.col("chair_hours") > 0) & (pl.col("net_per_chair_hour") > 0))
    rows = rows.sort("net_per_chair_hour", "service_id", descending=[True, False])
    starts = rows["chair_hours"].cum_sum() - rows["chair_hours"]
    kept = rows["after_product_per_chair_hour"].clip(0)
    picture = _canvas(ink, 380)
    names = [plain(name) for name in rows["service"]]
    common = {"x": starts.to_list(), "width": rows["chair_hours"].to_list(), "offset": 0, "hoverinfo": "text"}
    line = {"color": ink.paper, "width": 1.5}
    picture.add_bar(
        **common,
        y=kept.to_list(),
        text=names,
        textposition="inside",
        insidetextanchor="end",
        textfont={"color": [ON_KIND.get(kind, ON_BLOCK) for kind in rows["kind"]], "size": 13},
        marker={"color": [KINDS.get(kind, KINDS["other"]) for kind in rows["kind"]], "line": line},
        hovertext=[_block_text(row, settings) for row in rows.to_dicts()],
    )
    picture.add_bar(
        **common,
        base=kept.to_list(),
        y=(rows["net_per_chair_hour"] - kept).to_list(),
        marker={
            "color": ink.band,
            "line": line,
            "pattern": {"shape": "/", "fgcolor": ink.quiet, "size": 5, "solidity": 0.25},
        },
        hovertext=[f"{name}: product" for name in names],
    )
    picture.update_layout(barmode="overlay", uniformtext={"minsize": SMALLEST_LABEL, "mode": "hide"})
    _cost_line(picture, cost, settings, ink)
    across = [0, rows["chair_hours"].sum() or 1]
    picture.update_xaxes(title={"text": "chair hours, side by side", "font": {"size": 12}}, range=across)
    picture.update_yaxes(tickprefix=_sign(settings), rangemode="tozero")
    _corner(picture, "net per chair hour", ink)
    return picture


def _block_text(row: dict[str, object], settings: Settings) -> str:
    hour = wording.money(float(str(row["net_per_chair_hour"])), settings)
    return f"{plain(str(row['service']))}: {hour} an hour, {wording.hours(float(str(row['chair_hours'])), settings)}"


def _cost_line(picture: go.Figure, cost: float | None, settings: Settings, ink: Ink) -> None:
    if cost is None:
        return
    picture.add_hline(y=cost, line={"color": ink.accent, "width": 2.5})
    picture.add_annotation(
        x=1, xref="paper", y=1, yref="paper", text=f"line: {wording.money(cost, settings)} an open hour costs",
        xanchor="right", yanchor="bottom", yshift=5, showarrow=False, font={"color": ink.accent_text, "size": 12},
    )  # fmt: skip


def return_curves(curves: pl.DataFrame, split: str, name: str, label: str, ink: Ink) -> go.Figure:
    """The figure `return_curves`: the share returned, week by week, of everybody and of one group, each with its band.

    Under the weeks stands how many clients of the group are still waited for.
    """
    picture = _canvas(ink, 340)
    everybody = curves.filter(split="everybody").sort("week")
    chosen = everybody if split == "everybody" else curves.filter(split=split, name=name).sort("week")
    if split != "everybody":
        _curve(picture, everybody, "all", ink.quiet, ink)
    _curve(picture, chosen, plain(label), ink.accent, ink)
    at_risk = dict(chosen.select("week", "at_risk").iter_rows())
    weeks = [week for week in (0, 4, 8, 12, 16, 20, 26) if week in at_risk]
    picture.update_xaxes(
        tickvals=weeks, ticktext=[f"{week}<br>{at_risk[week]}" for week in weeks], range=[-0.5, 33],
        title={"text": "weeks since the first visit; below it, clients still waited for", "font": {"size": 12}},
    )  # fmt: skip
    picture.update_yaxes(tickformat=".0%", range=[0, 1.02])
    _corner(picture, "share that has returned", ink)
    return picture


def _curve(picture: go.Figure, rows: pl.DataFrame, label: str, colour: str, ink: Ink) -> None:
    """A line with its band behind it, and its name at its end."""
    if rows.is_empty():
        return
    known = rows.drop_nulls(["returned_low", "returned_high"])
    step = {"mode": "lines", "hoverinfo": "skip"}
    edge = {**step, "line": {"width": 0, "shape": "linear"}}
    picture.add_scatter(x=known["week"].to_list(), y=known["returned_high"].to_list(), **edge)
    picture.add_scatter(
        x=known["week"].to_list(), y=known["returned_low"].to_list(), **edge, fill="tonexty",
        fillcolor=ink.band if colour == ink.quiet else faint(colour),
    )  # fmt: skip
    picture.add_scatter(
        x=rows["week"].to_list(), y=rows["returned"].to_list(), mode="lines", line={"color": colour, "width": 2.5},
        hovertext=[f"week {week}: {share:.0%}" for week, share in rows.select("week", "returned").iter_rows()],
        hoverinfo="text",
    )  # fmt: skip
    last, named = rows.row(-1, named=True), ink.quiet if colour == ink.quiet else ink.accent_text
    picture.add_annotation(
        x=last["week"], y=last["returned"], text=label, xanchor="left", xshift=6, showarrow=False,
        yshift=-12 if colour == ink.quiet else 12, font={"color": named, "size": 12},
    )  # fmt: skip


def weeks_ahead(ahead: pl.DataFrame, settings: Settings, ink: Ink) -> go.Figure:
    """The figure `ahead`: a bar of what is booked, a dot with its band of what is expected, a line of what is open."""
    picture = _canvas(ink, 320)
    rows = ahead.sort("week_start")
    names = [wording.short_day(monday, settings) for monday in rows["week_start"]]
    at = list(range(rows.height))
    colours = [ink.accent if standing(row) == OVERFLOWS else ink.dot for row in rows.to_dicts()]
    hours = rows["chair_hours_expected"]
    said = [f"{name}: {wording.hours(each, settings)}" for name, each in zip(names, hours, strict=True)]
    picture.add_bar(
        x=at, y=rows["chair_hours_booked"].to_list(), width=0.7, marker={"color": ink.band}, hoverinfo="skip"
    )
    picture.add_bar(
        x=at, base=rows["chair_hours_low"].to_list(), y=(rows["chair_hours_high"] - rows["chair_hours_low"]).to_list(),
        width=0.22, marker={"color": [faint(colour) for colour in colours]}, hoverinfo="skip",
    )  # fmt: skip
    picture.add_scatter(
        x=at, y=hours.to_list(), mode="markers", marker={"color": colours, "size": 9},
        hovertext=said,
        hoverinfo="text",
    )  # fmt: skip
    for place, opened in zip(at, rows["chair_hours_open"], strict=True):
        picture.add_shape(
            type="line", x0=place - 0.42, x1=place + 0.42, y0=opened, y1=opened, line={"color": ink.text, "width": 2}
        )
    shown = at[::3]
    picture.update_layout(barmode="overlay")
    picture.update_xaxes(tickvals=shown, ticktext=[names[place] for place in shown], range=[-0.6, len(at) - 0.4])
    picture.update_yaxes(rangemode="tozero", ticksuffix=" h")
    _corner(picture, "chair hours, week by week", ink)
    return picture


def calibration(by_width: pl.DataFrame, by_chance: pl.DataFrame, ink: Ink) -> go.Figure:
    """Two pictures side by side: the share inside against the width of the range, and the share seen against the chance
    said. Frames of methods.calibration."""
    picture = _canvas(ink, 300)
    widths = by_width["predicted"].to_list()
    widest = max(widths, default=1) * 1.1
    common = {"mode": "markers", "marker": {"color": ink.dot, "size": 10}, "hoverinfo": "text", "cliponaxis": False}
    line = {"color": ink.quiet, "width": 1.5, "dash": "dash"}
    picture.add_scatter(x=[0, widest], y=[0.8, 0.8], mode="lines", line=line, hoverinfo="skip")
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
    _corner(picture, "came within the range", ink)
    picture.add_annotation(
        x=0.58, xref="paper", y=1, yref="paper", text="came within 90 days", xanchor="left", yanchor="bottom", yshift=5,
        showarrow=False, font={"color": ink.quiet, "size": 12},
    )  # fmt: skip
    return picture


def faint(colour: str) -> str:
    """The colour as a pale film, for bands."""
    red, green, blue = (int(colour[place : place + 2], 16) for place in (1, 3, 5))
    return f"rgba({red},{green},{blue},0.22)"


def _corner(picture: go.Figure, text: str, ink: Ink) -> None:
    """What the upright axis counts, at its head, instead of a title turned on its side."""
    picture.add_annotation(
        x=0, xref="paper", y=1, yref="paper", text=text, xanchor="left", yanchor="bottom", yshift=5,
        showarrow=False, font={"color": ink.quiet, "size": 12},
    )  # fmt: skip
