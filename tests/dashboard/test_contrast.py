"""Text stands out from its paper; bands, curves and calibration hold what they say."""

from datetime import date

import polars as pl
import pytest
from drawn import HOSTILE, SETTINGS, TODAY, contrast

from analytics.records.clients.week_standing import with_standing
from dashboard import charts
from dashboard.parts import (
    bars,
    palette,
)


@pytest.mark.parametrize("ink", [palette.LIGHT, palette.DARK])
def test_text_stands_out_from_its_paper(ink: palette.Ink):
    for paper in (ink.paper, ink.panel):
        for text in (ink.text, ink.quiet, ink.accent_text, ink.primary):
            assert contrast(text, paper) >= 4.5, (text, paper)


def test_names_stand_out_from_their_blocks():
    for kind, colour in palette.KINDS.items():
        assert contrast(palette.ON_KIND.get(kind, palette.ON_BLOCK), colour) >= 4.5, kind


def test_the_weeks_ahead_are_bands_and_dots_under_what_is_open():
    row = {"clients_expected": 9.0, "chair_hours_low": 30.0, "chair_hours_high": 50.0, "chair_hours_booked": 12.0}
    row |= {"chair_hours_wanted_low": 30.0, "chair_hours_year_ago": None}
    frame = with_standing(
        pl.DataFrame(
            [
                row | {"week_start": date(2026, 11, 2), "chair_hours_expected": 40.0, "chair_hours_open": 60.0},
                row
                | {"week_start": date(2026, 11, 9), "chair_hours_expected": 40.0, "chair_hours_open": 35.0}
                | {"chair_hours_wanted_low": 40.0},
            ]
        )
    )
    picture = charts.weeks_ahead(frame, SETTINGS, palette.LIGHT)
    booked, band, dot = picture.data
    assert list(booked.y) == [12, 12] and (list(band.base), list(band.y)) == ([30, 30], [20, 20])
    assert list(dot.marker.color) == [palette.LIGHT.dot, palette.LIGHT.accent]  # more than is open wants doing
    assert [shape.y0 for shape in picture.layout.shapes] == [60, 35]
    drawn = bars.drawn(bars.week_bars(frame.to_dicts(), SETTINGS, TODAY), bars.longest_week(frame.to_dicts()))
    assert "left:0.00%;width:66.67%" in drawn and "left:58.33%;width:8.33%" in drawn  # 40 of 60 h; 5 h too many


def test_the_curve_of_who_has_returned_has_its_band_and_number_at_risk():
    rows = [
        {"split": split, "name": split, "week": week, "returned": week / 10, "returned_low": week / 20,
         "returned_high": week / 5, "at_risk": 9 - week, "clients": 9, "median_days": None}
        for split in ("everybody", "kind") for week in (0, 4)
    ]  # fmt: skip
    picture = charts.return_curves(pl.DataFrame(rows), "kind", "kind", HOSTILE, palette.LIGHT)
    lines = [trace for trace in picture.data if trace.line.width == 2.5]
    assert [list(trace.y) for trace in lines] == [[0, 0.4], [0, 0.4]]
    assert list(picture.layout.xaxis.ticktext) == ["0<br>9", "4<br>5"]
    assert not any("<img" in note.text for note in picture.layout.annotations)


def test_calibration_is_held_against_what_was_meant():
    groups = pl.DataFrame({"predicted": [10.0, 40.0], "seen": [0.7, 0.8], "n": [30, 30]})
    chances = pl.DataFrame({"predicted": [0.1, 0.9], "seen": [0.2, 0.9], "n": [30, 30]})
    meant, same, widths, came = charts.calibration(groups, chances, palette.LIGHT).data
    assert list(meant.y) == [0.8, 0.8] and list(same.x) == list(same.y) == [0, 1]
    assert (list(widths.x), list(came.y)) == ([10, 40], [0.2, 0.9])
