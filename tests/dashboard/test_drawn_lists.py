"""Lists drawn in words and bars: rulers, ranges, bridges, the week, minutes."""

import re
from datetime import date
from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from drawn import HOSTILE, SETTINGS, TODAY, contrast, luminance

from analytics import sentences
from analytics.catalogue import result
from analytics.settings import parse_settings
from dashboard.parts import (
    all_figures,
    bars,
    bridge,
    layout,
    lists,
    minute_bands,
    palette,
    price_trial,
    rulers,
    week_hours,
)

CLIENT = {
    "client_id": "C1",
    "client": "Vera",
    "kind": "root_touch_up",
    "stylist": "Odile",
    "days_since": 77,
    "regrowth_mm": 27.0,
    "regrowth_low_mm": 18.0,
    "regrowth_high_mm": 36.0,
    "ready_from": date(2026, 9, 14),
    "ready_by": date(2026, 11, 6),
    "expected_low_on": date(2026, 11, 3),
    "expected_on": date(2026, 11, 9),
    "expected_high_on": date(2026, 11, 17),
    "state": "ready",
    "booked_on": None,
    "may_contact": True,
    "phone": "+31 6 000",
    "email": "v@example.org",
    "chance_of_return": 0.9,
    "chance_next_week": 0.85,
    "chance_lost": 0.05,
    "passes_soon": True,
    "usual_services": "Roots, Cut",
    "usual_chair_minutes": 120.0,
    "last_mixed": "Ash 20 g, Six 30 g",
    "last_mixed_on": date(2026, 8, 15),
    "last_mixed_g": 50,
    "last_left_g": 8,
    "patch_tested_on": None,
    "skin_test_by": None,
    "next_visit_on": None,
    "next_services": None,
    "answer": None,
}


def test_the_ruler_is_to_scale():
    drawn = rulers.ruler(CLIENT, SETTINGS)
    assert 'class="band" style="left:40.00%;width:40.00%"' in drawn  # 18 to 36 mm; it ends at 45
    assert '<u style="left:60.00%">' in drawn  # 27 mm
    assert '<b style="left:22.22%">' in drawn and '<b style="left:66.67%">' in drawn  # 10 and 30 mm


def test_a_client_line_says_what_the_ruler_shows():
    line = rulers.client_line(CLIENT, SETTINGS, TODAY)
    assert "27 mm <small>(18–36 mm)</small>" in line
    assert "Makes sense 14 September – 6 November; may come 3–17 November, likely the 9th" in line
    assert "11 weeks since root touch-up with Odile. Usually Roots, Cut, 120 min" in line
    assert "more growth than one application covers from 6 November, then longer and dearer; chance of return" in line
    assert "Mixed on 15 August: Ash 20 g, Six 30 g; 8 g of 50 g left" in line


def test_phone_and_mail_stand_only_where_the_client_may_be_contacted():
    assert 'href="tel:+316000"' in rulers.client_line(CLIENT, SETTINGS, TODAY)
    closed = rulers.client_line(CLIENT | {"may_contact": False}, SETTINGS, TODAY)
    assert "316000" not in closed and "example.org" not in closed


def test_text_from_data_is_escaped_in_every_list():
    visits = measure("visits", unit=HOSTILE, value=Decimal(3))
    finding = {"message": HOSTILE, "what_to_do": HOSTILE, "count": 2, "files": 1}
    drawn = (
        rulers.client_item(
            CLIENT
            | dict.fromkeys(("client", "stylist", "usual_services", "last_mixed", "next_services"), HOSTILE)
            | {
                "email": f'"{HOSTILE}',
                "next_visit_on": TODAY,
                "answer": "not_now",
                "asked_on": TODAY,
                "asked_by": HOSTILE,
            },
            SETTINGS,
            TODAY,
        )
        + bars.drawn([bars.Bar(HOSTILE, HOSTILE, 1, HOSTILE)])
        + lists.said_list([HOSTILE])
        + lists.sites_list({HOSTILE: [visits]}, SETTINGS)
        + bridge.drawn([sentences.Step(HOSTILE, Decimal(1), HOSTILE)], SETTINGS)
        + layout.pairs((HOSTILE,) * 3, [(HOSTILE,) * 3])
        + minute_bands.drawn([SPAN | {"service": HOSTILE}], SETTINGS)
        + all_figures.drawn(
            pl.DataFrame([visits | {"figure": HOSTILE}], schema=result("month").schema), SETTINGS, "2026-10"
        )
        + lists.cause_list([sentences.Step(HOSTILE, Decimal(1), HOSTILE)], SETTINGS)
        + lists.finding_list([finding], SETTINGS)
    )
    assert "<img" not in drawn
    assert 'mailto:"' not in drawn


def test_bars_start_at_zero_and_share_one_scale():
    drawn = bars.drawn([bars.Bar("a", "2", 2), bars.Bar("b", "4", 4, wants=1)], whole=8)
    assert "left:0.00%;width:25.00%" in drawn
    assert "left:0.00%;width:50.00%" in drawn
    assert "left:37.50%;width:12.50%" in drawn  # the end that wants doing


def measure(figure: str, **given: Any) -> dict[str, Any]:
    """A row of the figure `month`."""
    row = dict.fromkeys(result("month").columns) | {"month": "2026-10", "figure": figure, "part_month": False}
    return row | given


def test_a_small_area_stands_on_nothing_and_leaves_a_gap_where_nothing_is_known():
    """0, 5, none and 10 of 10; where one lies below nothing, the area hangs from the line of nothing."""
    drawn = all_figures.small_area([0, 5, None, 10])
    assert "polygon(0% 100.0%, 0.0% 100.0%, 33.3% 50.0%, 66.7% 100.0%, 100.0% 0.0%, 100% 100.0%)" in drawn
    below = all_figures.small_area([-10, 10])
    assert "polygon(0% 50.0%, 0.0% 100.0%, 100.0% 0.0%, 100% 50.0%)" in below
    assert not all_figures.small_area([None, 3]) and not all_figures.small_area([])


def test_the_steps_of_a_bridge_go_left_and_right_of_the_middle():
    steps = [sentences.Step("Prices", Decimal(100)), sentences.Step("Mix", Decimal(-50))]
    drawn = bridge.drawn(steps, SETTINGS)
    assert 'class="more" style="left:50.00%;width:50.00%"' in drawn
    assert 'class="less" style="left:25.00%;width:25.00%"' in drawn
    assert "+€100" in drawn and "−€50" in drawn
    assert "width:0.00%" in bridge.drawn([sentences.Step("Prices", Decimal(0))], SETTINGS)


def test_lines_cross_every_bar_at_their_value():
    drawn = bars.drawn([bars.Bar("a", "2", 2), bars.Bar("b", "4", 4)], lines=(3, None))
    assert drawn.count('<b style="left:75.00%"></b>') == 2
    assert '<b style="left:100.00%"></b>' in bars.drawn([bars.Bar("a", "2", 2)], lines=(8,))


@pytest.mark.parametrize(("price", "currency", "step"), [(66.5, "EUR", 0.5), (6000, "JPY", 50), (8, "KWD", 0.05)])
def test_prices_move_in_steps_of_their_size(price: float, currency: str, step: float):
    assert price_trial.price_step(price, parse_settings(f'[salon]\nname = "S"\ncurrency = "{currency}"')) == step


def week_hour(weekday: str, hour: int, share: float | None = None, **more: Any) -> dict[str, Any]:
    return {
        "weekday": weekday,
        "hour": hour,
        "open_hours": 40.0,
        "taken_share": share,
        "net_per_open_hour": None,
    } | more


WEEK = [
    week_hour("tue", 9, 0.31, net_per_open_hour=12.4),
    week_hour("tue", 10, 0.99, net_per_open_hour=61.6),
    week_hour("sat", 11, 1.0, net_per_open_hour=20.0),
    week_hour("sun", 3, 1.0, open_hours=0.0),
]


def test_the_week_has_the_days_and_hours_that_are_open():
    drawn = week_hours.drawn(WEEK, week_hours.TAKEN, SETTINGS)
    assert re.findall(r'scope="col">(.*?)<', drawn) == ["Tue", "Sat"]
    assert re.findall(r'scope="row">(.*?)<', drawn) == ["9:00", "10:00", "11:00"]
    cells = re.findall(r'<td class="(.*?)">(.*?)</td>', drawn)
    assert cells == [("shade1", "31%"), ("closed", ""), ("shade4", "99%"), ("closed", ""), ("closed", ""),
                     ("shade4", "100%")]  # fmt: skip


def test_the_week_in_money_has_shades_up_to_the_dearest_hour():
    cells = re.findall(r'<td class="(shade.)">(.*?)</td>', week_hours.drawn(WEEK, week_hours.BROUGHT, SETTINGS))
    assert cells == [("shade1", "€12"), ("shade4", "€62"), ("shade1", "€20")]
    assert week_hours.drawn([], week_hours.TAKEN, SETTINGS) == '<table class="week"><tr><th></th></tr></table>'


@pytest.mark.parametrize(("value", "shade"), [(-1, 0), (0, 0), (0.19, 0), (0.2, 1), (0.59, 2), (0.8, 4), (2, 4)])
def test_shades_are_equal_steps(value: float, shade: int):
    assert week_hours.shade(value, 1.0) == shade


@pytest.mark.parametrize("dark", [True, False])
def test_numbers_stand_out_from_their_shades_which_go_one_way(dark: bool):
    steps = palette.shades(dark)
    assert len(steps) == len(palette.SHADES)
    assert all(contrast(text, paper) >= 4.5 for paper, text in steps)
    lightness = [luminance(paper) for paper, _ in steps]
    assert lightness == sorted(lightness, reverse=not dark)


SPAN = {
    "service": "Cut",
    "lines": 12,
    "single_lines": 9,
    "basis": "single",
    "menu_minutes": 30.0,
    "low_minutes": 25.75,
    "median_minutes": 51.5,
    "high_minutes": 100.0,
    "over_menu_share": 0.7,
}


def test_minutes_stand_on_one_scale_with_the_menus_mark():
    """The longest, 100, ends at 1 ÷ 1.03 of the width, so that 51.5 is the middle."""
    drawn = minute_bands.drawn([SPAN], SETTINGS)
    assert '<u class="dot" style="left:50.00%">' in drawn and '<b class="menu" style="left:29.13%">' in drawn
    assert 'class="usual" style="left:25.00%;width:72.09%"' in drawn
    assert "52 minutes, menu 30" in drawn and "eight of ten 26–100 minutes · 70% over the menu · 9 times" in drawn
    bare = minute_bands.drawn([SPAN | {"menu_minutes": None, "over_menu_share": None, "basis": "shared"}], SETTINGS)
    assert 'menu"' not in bare and "the menu gives no minutes · 12 times, shared" in bare
