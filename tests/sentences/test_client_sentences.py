"""What the stylist's list says of one client, each line written by hand."""

from datetime import date, datetime
from typing import Any

import pytest

from analytics.sentences import client as said
from analytics.settings import parse_settings

SALON = parse_settings('[salon]\nname = "S"')
TODAY = date(2026, 11, 1)
ROW: dict[str, Any] = {
    "kind": "root_touch_up",
    "state": "ready",
    "stylist": "Odile",
    "days_since": 77,
    "ready_from": date(2026, 9, 14),
    "ready_by": date(2026, 11, 6),
    "expected_low_on": date(2026, 11, 3),
    "expected_on": date(2026, 11, 9),
    "expected_high_on": date(2026, 11, 17),
    "booked_on": None,
    "chance_of_return": 0.9,
    "chance_next_week": 0.85,
    "chance_lost": 0.05,
    "passes_soon": False,
    "last_mixed": None,
}


def test_when_she_is_due() -> None:
    assert said.when_she_is_due(ROW, SALON, TODAY) == (
        "Makes sense 14 September – 6 November; may come 3–17 November, likely the 9th"
    )
    past = ROW | {"state": "long_past", "ready_by": date(2026, 10, 1), "expected_on": None}
    assert said.when_she_is_due(past, SALON, TODAY) == "Past 30 mm since 1 October: a longer, dearer booking"
    assert said.when_she_is_due(ROW | {"booked_on": date(2027, 1, 4)}, SALON, TODAY) == "Booked on 4 January 2027"


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({}, "If they wait another week: chance of return from 90% to 85%"),
        (
            {"passes_soon": True, "chance_lost": 0.004},
            "If they wait another week: more growth than one application covers from 6 November, then longer and "
            "dearer",
        ),
        ({"chance_lost": 0.004}, ""),
        ({"chance_lost": None}, ""),
        ({"booked_on": TODAY, "passes_soon": True}, ""),
    ],
)
def test_what_waiting_costs(more: dict[str, Any], words: str) -> None:
    assert said.what_waiting_costs(ROW | more, SALON, TODAY) == words


def test_what_was_mixed_and_what_was_left_of_it() -> None:
    assert said.what_was_mixed(ROW, SALON, TODAY) == "No bowl of theirs is in the log"
    bowl = {
        "last_mixed": "Ash 20 g, Six 30 g",
        "last_mixed_on": date(2025, 8, 15),
        "last_mixed_g": 50,
        "last_left_g": None,
    }
    assert said.what_was_mixed(ROW | bowl, SALON, TODAY) == "Mixed on 15 August 2025: Ash 20 g, Six 30 g"
    assert said.what_was_mixed(ROW | bowl | {"last_left_g": 0}, SALON, TODAY).endswith("; 0 g of 50 g left")


def test_what_is_usual_needs_a_visit() -> None:
    assert (
        said.what_is_usual({"usual_services": "Roots", "usual_chair_minutes": 104.6}, SALON) == "Usually Roots, 105 min"
    )
    assert said.what_is_usual({}, SALON) == ""


def test_the_skin_test() -> None:
    due = {"skin_test_by": datetime(2026, 11, 12, 10, 0), "patch_tested_on": date(2026, 5, 4)}
    assert said.about_the_skin_test(ROW | due, SALON, TODAY) == (
        "Skin test due by 12 November, 10:00; last on record 4 May"
    )
    assert said.about_the_skin_test(ROW, SALON, TODAY) == "Skin test: none on record"
    none_ahead = parse_settings('[salon]\nname = "S"\n[roots]\npatch_test_hours = 0')
    assert said.about_the_skin_test(ROW | due, none_ahead, TODAY) == "Skin test: last on record 4 May"


def test_what_she_said_and_when_she_comes_anyway() -> None:
    mark = {"answer": "no_answer", "asked_on": date(2026, 10, 30), "asked_by": "Mila"}
    assert said.what_she_said(ROW | mark, SALON, TODAY) == "Asked, no answer: 30 October (Mila)"
    assert said.what_she_said(ROW, SALON, TODAY) == ""
    ahead = {"next_visit_on": date(2026, 11, 3), "next_services": "Cut"}
    assert said.next_in_the_book(ROW | ahead, SALON, TODAY) == "In the diary on 3 November for Cut"
