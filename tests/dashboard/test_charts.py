"""Pictures to scale, and harmless whatever the data says."""

from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from drawn import HOSTILE, SETTINGS, frame

from dashboard import charts
from dashboard.parts import (
    bars,
    palette,
)


def service(name: str, hours: float, net: float, product: float = 0, kind: str = "cut") -> dict[str, Any]:
    return {
        "month": "2026-10",
        "service_id": name,
        "service": name,
        "kind": kind,
        "lines": 1,
        "chair_hours": hours,
        "net": Decimal(str(net)),
        "net_per_chair_hour": net / hours,
        "after_product_per_chair_hour": (net - product) / hours,
    }


def test_a_blocks_area_is_its_net_revenue():
    rows = frame("chairs", service("Cut", 4, 240), service("Roots", 10, 450, 50, "root_touch_up"))
    kept, product = charts.chair_blocks(rows, (21.5, 36.5), SETTINGS, palette.LIGHT).data[:2]
    areas = [width * (low + top) for width, low, top in zip(kept.width, kept.y, product.y, strict=True)]
    assert areas == [240, 450]
    assert list(kept.x) == [0, 4]  # side by side, the dearest hour first
    assert [width * top for width, top in zip(kept.width, product.y, strict=True)] == [0, 50]


def test_an_open_hour_and_a_taken_one_are_two_lines_across():
    rows = frame("chairs", service("Cut", 4, 240))
    lines = charts.chair_blocks(rows, (21.5, 36.5), SETTINGS, palette.LIGHT).layout
    assert [(line.y0, line.line.dash) for line in lines.shapes] == [(21.5, "dot"), (36.5, "solid")]
    assert "an open hour costs €21.50" in lines.annotations[0].text
    assert "a taken hour must carry €36.50" in lines.annotations[0].text
    assert not charts.chair_blocks(rows, (None, None), SETTINGS, palette.LIGHT).layout.shapes


def months(*values: str, part: bool = False) -> pl.DataFrame:
    rows = [
        {"month": f"2026-{number:02}", "figure": "net_revenue", "value": Decimal(value), "part_month": False}
        for number, value in enumerate(values, 1)
    ]
    news = None if part or 90 <= int(values[-1]) <= 110 else "above"
    rows[-1] |= {"usual_low": Decimal(90), "usual_high": Decimal(110), "part_month": part, "flag": news}
    return frame("month", *rows)


def dots(picture: Any) -> Any:
    return next(trace for trace in picture.data if trace.mode == "markers")


def test_months_stay_months_in_their_order():
    picture = charts.verdict_months(months("100", "120", "105"), "2026-03", SETTINGS, palette.LIGHT)
    assert picture.layout.xaxis.type == "category"
    assert list(picture.layout.xaxis.categoryarray) == ["2026-01", "2026-02", "2026-03"]
    assert list(dots(picture).y) == [100, 120, 105]


def test_what_is_left_is_drawn_where_costs_are_set_with_the_days_closed():
    rows = months("100", "120", "105").with_columns(figure=pl.lit("left_after_costs"))
    closed = [
        {"month": name, "figure": "closed_days", "value": Decimal(days)}
        for name, days in (("2026-01", 0), ("2026-02", 4))
    ]
    picture = charts.verdict_months(pl.concat([rows, frame("month", *closed)]), "2026-03", SETTINGS, palette.LIGHT)
    assert list(dots(picture).y) == [100, 120, 105]
    assert picture.data[-1].hovertext == ("February 2026: 4 days closed",)


@pytest.mark.parametrize(("last", "part", "news"), [("105", False, False), ("111", False, True), ("50", True, False)])
def test_only_a_whole_month_outside_its_range_has_the_accent(last: str, part: bool, news: bool):
    picture = charts.verdict_months(months("100", last, part=part), "2026-02", SETTINGS, palette.LIGHT)
    marker = dots(picture).marker
    assert (marker.line.color[-1] == palette.LIGHT.accent) is news
    assert (marker.color[-1] == palette.LIGHT.paper) is part


def test_pictures_of_nothing_are_empty_not_broken():
    charts.verdict_months(frame("month"), "2026-10", SETTINGS, palette.DARK)
    charts.chair_blocks(frame("chairs"), (20.0, 30.0), SETTINGS, palette.DARK)
    assert bars.drawn([]) == '<ul class="bars"></ul>'


def test_a_service_name_from_data_is_no_markup():
    rows = frame("chairs", service(HOSTILE, 4, 240))
    trace = charts.chair_blocks(rows, (None, None), SETTINGS, palette.LIGHT).data[0]
    assert "<" not in trace.text[0]
    assert "<" not in trace.hovertext[0]
