"""Prices, another price, hours of the week and minutes, in words."""

from decimal import Decimal
from typing import Any

import pytest
from said_of import PLAIN, frame, lasting, settings_of

from analytics import sentences, wording
from analytics.records.chairs.price_trial import tried_price
from analytics.settings import parse_settings


def priced(service: str, hour: float | None, **more: Any) -> dict[str, Any]:
    ranked = {"contribution_per_chair_hour": hour, "rank": None if hour is None else int(1000 - hour * 10)}
    return {"service_id": service, "service": service} | ranked | more


def test_prices_are_held_against_the_cost_and_the_target():
    lines = {
        "cost_per_open_hour": 19.0, "cost_per_taken_hour": 29.0, "target_per_chair_hour": 45.0,
        "carries_taken_hour": True, "reaches_target": False,
    }  # fmt: skip
    rows = frame(
        "prices",
        priced("Cut", 61.0, **lines | {"reaches_target": True}),
        priced("Curls", 20.5, **lines | {"carries_taken_hour": False}),
        priced("Toner", 41.0, **lines),
    )
    assert sentences.prices_sentence(rows, PLAIN, "2026-10") == (
        "In the twelve months up to October 2026, 1 of 3 services does not carry its taken hours (€29.00 each, "
        "product paid) and 2 of 3 services do not reach what you aim for (€45.00 a chair hour). "
        "Curls leaves least for its time: €20.50 an hour, product paid."
    )
    assert sentences.lines_say(rows.row(0, named=True), PLAIN) == (
        "The line is the €29.00 that a taken hour must carry, the dashed line the €45.00 you aim for. Counted over "
        "every open hour, an hour costs €19.00; nobody pays for the empty ones at that, so no price is worked out "
        "from it."
    )


def test_prices_without_costs_or_without_time_are_said():
    assert sentences.prices_sentence(frame("prices", priced("Cut", 61.0)), PLAIN, "2026-10") == (
        "In the twelve months up to October 2026, salon.toml names no costs per month, so no service is compared with "
        "them. Cut leaves least for its time: €61.00 an hour, product paid."
    )
    assert sentences.prices_sentence(frame("prices", priced("Mix", None)), PLAIN, "2026-10") == (
        "No service took a chair in the twelve months up to October 2026, so there is nothing to price."
    )
    carried = frame("prices", priced("Cut", 61.0, cost_per_taken_hour=20.0, carries_taken_hour=True))
    assert "the one service carries its taken hours (€20.00" in sentences.prices_sentence(carried, PLAIN, "2026-10")


def test_product_as_logged_and_in_all_are_both_said():
    roots = {"lines": 1298, "product_cost_per_line": 3.92, "product_cost_per_line_in_all": 4.86}
    assert sentences.product_says(frame("prices", priced("Roots", 41.0, logged_share=0.81, **roots)), PLAIN) == (
        "Where bowls were not logged, product is taken to be as where they were: for Roots, of which 81% was logged, "
        "€3.92 a time as logged and €4.86 in all."
    )
    assert sentences.product_says(frame("prices", priced("Cut", 61.0)), PLAIN) == ""


NOW = {
    "service_id": "ROOTS", "service": "Roots", "price": Decimal(60), "minutes_per_line": 80.0, "lines_per_month": 100.0,
    "net_per_line": 50.0, "product_cost_per_line_in_all": 5.0,
}  # fmt: skip


OTHERS = {"service_id": "CUT", "lines_per_month": 300.0, "net_per_line": 50.0}


def tried(price: float = 60, minutes: float = 80, away: float = 0) -> str:
    """100 times a month at 50 net and 5 of product."""
    trial = tried_price(frame("prices", NOW, OTHERS), "ROOTS", price, minutes, away)
    return sentences.trial_sentence(NOW, sentences.TriedPrice(price, minutes, away), trial, PLAIN)


def test_a_price_is_proposed_with_what_it_brings_and_risks():
    """At 72, 60 net and 55 after product: 100 × 10 more a month; 1 − 45 ÷ 55 of them may stay away."""
    trial = tried_price(frame("prices", NOW, OTHERS), "ROOTS", 72, 80, 0)
    assert sentences.proposal_sentence(NOW, trial, 72, PLAIN) == (
        "Roots at €72.00 in place of €60.00: €1,000 more a month if all still come, and no less than now until 18% of "
        "them stay away."
    )
    assert sentences.aim_sentence(0, 39.1, PLAIN).startswith("Every service leaves €39.10 or more of a chair hour")
    assert sentences.aim_sentence(1, 45, PLAIN) == (
        "1 service leaves less than €45.00 of a chair hour; the ones that bring most first:"
    )


def test_another_price_is_told_with_what_it_may_cost():
    """At 72, a fifth more: 60 net and 55 after product; 90 of 100 come: 4,950 against 4,500. 1 − 45/55 is 18.2 %."""
    assert tried(72, 70, 0.1) == (
        "At €72.00 in place of €60.00, in 70 minutes in place of 80, with 10% of its clients gone, a month of Roots "
        "leaves €4,950 net after product in place of €4,500: €450 more. "
        "It brings as much as now until 18% of these clients stay away."
    )


@pytest.mark.parametrize(
    ("asked", "ending"),
    [
        ((60, 80, 0), "leaves €4,500 net after product as it is; move a slider to try something else."),
        ((60, 80, 0.05), "€225 less. The price is as now, so not one client may be lost for it to bring as much."),
        ((48, 80, 0), "€1,000 less. It brings as much as now only with 29% more of these clients."),
        ((6, 80, 0), "€4,500 less. At that price a time leaves nothing after its product."),
        ((60, 70, 0), "in place of €4,500: the same. The price is as now, so not one client may be lost for it to "
         "bring as much."),
    ],
)  # fmt: skip
def test_a_trial_says_where_it_breaks_even(asked: tuple[float, float, float], ending: str):
    """48 leaves 35 after product: 45/35 − 1 is 28.6 % more clients."""
    assert tried(*asked).endswith(ending)


def test_a_trial_stands_beside_what_is_now():
    """Cuts bring 300 × 50 = 15,000 beside the 5,000 of roots."""
    trial = tried_price(frame("prices", NOW, OTHERS), "ROOTS", 72, 70, 0.1)
    assert sentences.trial_numbers(trial, PLAIN) == [
        ("Net", "€5,000.00", "€5,400.00"),
        ("Net after product", "€4,500.00", "€4,950.00"),
        ("Chair hours", "133 h", "105 h"),
        ("Net per chair hour", "€37.50", "€51.43"),
        ("All services, net", "€20,000.00", "€20,400.00"),
    ]


def test_the_fullest_and_the_emptiest_hour_are_named():
    hour = {"open_hours": 40.0, "net_per_open_hour": 44.6}
    rows = frame(
        "hours_of_week",
        hour | {"weekday": "thu", "hour": 18, "taken_share": 0.84},
        hour | {"weekday": "wed", "hour": 9, "taken_share": 0.26, "net_per_open_hour": 14.2},
        hour | {"weekday": "fri", "hour": 7, "taken_share": 1.0, "open_hours": 3.0},
    )
    assert sentences.week_sentence(rows, PLAIN) == (
        "Over the twelve months, the chairs were fullest on Thursday from 18:00 (84% taken, €44.60 an open chair "
        "hour), and emptiest on Wednesday from 9:00 (26% taken, €14.20 an open chair hour)."
    )
    assert sentences.week_sentence(rows.head(1), PLAIN) == ""
    assert sentences.weekday_name("sun", settings_of(locale="nl_NL")) == "zondag"
    assert sentences.weekday_name("sun", PLAIN, short=True) == "Sun"


def test_empty_hours_are_told_with_what_they_cost():
    row = {"month": "2026-10", "split": "salon", "open_hours": 802.0, "empty_hours": 323.0}
    costs = {"empty_cost": Decimal(7039), "cost_per_open_hour": 21.82, "cost_per_taken_hour": 36.5}
    priced = frame("economics", row | costs)
    assert sentences.empty_sentence(priced, PLAIN, "2026-10") == (
        "In October 2026, 323 h of 802 h open stood empty; at €21.82 an open chair hour that is €7,039. With them paid "
        "for, a taken hour had to carry €36.50."
    )
    assert sentences.empty_title(priced, PLAIN, "2026-10") == "What stood empty: 323 h, €7,039"
    assert sentences.empty_title(frame("economics"), PLAIN, "2026-10") == "What stood empty"
    assert sentences.open_says(PLAIN).startswith("Every chair counts as open whenever the salon is.")
    at_work = parse_settings('[salon]\nname = "S"\nopen_chairs = "at_work"')
    assert sentences.open_says(at_work).startswith("On each day no more chairs count as open than stylists")
    assert sentences.empty_sentence(frame("economics", row), PLAIN, "2026-10").endswith("to value them at.")
    assert sentences.empty_sentence(frame("economics"), PLAIN, "2026-10") == ""


def test_services_whose_menu_minutes_are_off_are_named():
    rows = [lasting("Cut", 42, 40), lasting("Curls", 61, 75), lasting("Foils", 118, 110), lasting("Odd", 90, 10, 9)]
    assert sentences.minutes_sentence(frame("durations", *rows), PLAIN, "2026-10") == (
        "In the twelve months up to October 2026, 2 services want other minutes on the menu, by their typical "
        "time: Curls (61 minutes, 75 on the menu) and Foils (118 minutes, 110 on the menu)."
    )
    four = [lasting(name, 60, 40) for name in "ABCD"]
    assert sentences.minutes_sentence(frame("durations", *four), PLAIN, "2026-10").endswith("and 1 more.")
    assert sentences.minutes_sentence(frame("durations", rows[0]), PLAIN, "2026-10") == (
        "In the twelve months up to October 2026, the typical time of every service was within 5 minutes of the menu."
    )
    for none in (frame("durations"), frame("durations", lasting("Cut", 42, None))):
        assert sentences.minutes_sentence(none, PLAIN, "2026-10").startswith("Too little was done")


def test_developing_hours_are_told_with_who_else_sat_there():
    salon = {"salon_processing_hours": 40.0, "salon_second_client_hours": 12.0, "salon_second_client_share": 0.3}
    rows = frame(
        "processing",
        salon | {"month": "2026-10", "stylist": "A", "processing_hours": 30.0},
        salon | {"month": "2026-10", "stylist": "B", "processing_hours": 10.0},
        {"month": "2026-09", "stylist": "B", "salon_processing_hours": 0.0},
    )
    assert sentences.processing_sentence(rows, PLAIN, "2026-10") == (
        "Of 40.0 h in which colour developed in October 2026, 12.0 h (30%) held a second client of the same stylist in "
        "another chair."
    )
    assert sentences.processing_sentence(rows, PLAIN, "2026-09") == "Nothing developed in September 2026."
    assert sentences.processing_sentence(rows, PLAIN, "2026-08") == "Nothing developed in August 2026."


def test_stylists_with_little_like_work_are_not_compared():
    rows = frame("stylists", {"stylist": "A", "compared": True}, {"stylist": "B", "compared": False})
    assert sentences.stylists_sentence(rows).endswith("too few to say anything: B.")
    assert sentences.stylists_sentence(rows.head(1)).endswith("would have taken and brought colleagues.")
    assert sentences.stylists_sentence(rows.tail(1)).endswith("so nobody is compared.")


@pytest.mark.parametrize(("value", "text"), [("119.6", "+€120"), ("-900", "−€900"), ("0.4", "±€0"), (None, "–")])
def test_a_difference_has_its_sign(value: str | None, text: str):
    assert wording.signed(None if value is None else Decimal(value), PLAIN) == text
