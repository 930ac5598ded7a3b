"""How long each service takes, against the minutes of the menu."""

import pytest
from frames import Row, agrees, bookings, days, only, services, small_salon, visit, work_out

MENU = services(
    {"service_id": "CUT", "kind": "cut", "hands_on_min": 30},
    {"service_id": "ROOTS", "kind": "root_touch_up", "hands_on_min": 40, "processing_min": 20},
    {"service_id": "TALK", "hands_on_min": 0},
)


def of(service: str, *visits: list[Row], **more: object) -> Row:
    given = {"bookings": bookings(*visits), "services": MENU} | more
    return only(work_out("durations", **given), service_id=service)


def cuts(*minutes: int) -> list[list[Row]]:
    return [visit(f"V{n}", f"2026-03-{1 + n:02} 09:00", length, ("CUT", "40")) for n, length in enumerate(minutes)]


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("durations", period=days("2026-02-01", "2026-04-01"), **small_salon()), "durations")


def test_with_eight_visits_of_its_own_a_service_is_judged_by_those() -> None:
    """20, 25, … 60 alone, and one of 300 minutes with roots, which says nothing about the cut."""
    both = visit("B", "2026-03-20 09:00", 300, ("CUT", "40"), ("ROOTS", "60"))
    row = of("CUT", *cuts(*range(20, 65, 5)), both)
    assert (row["basis"], row["lines"], row["single_lines"]) == ("single", 10, 9)
    assert row["median_minutes"] == pytest.approx(40)
    assert (row["low_minutes"], row["high_minutes"]) == (pytest.approx(24), pytest.approx(56))
    assert (row["median_over_menu"], row["over_menu_share"]) == (pytest.approx(10), pytest.approx(6 / 9))


def test_with_fewer_all_lines_count_their_time_shared_by_the_menu() -> None:
    """180 minutes for a cut (30) and roots (60): 60 and 120."""
    both = visit("B", "2026-03-20 09:00", 180, ("CUT", "40"), ("ROOTS", "60"))
    assert (of("CUT", both)["basis"], of("CUT", both)["median_minutes"]) == ("shared", pytest.approx(60))
    assert of("ROOTS", both)["median_over_menu"] == pytest.approx(60)


def test_just_the_menus_time_is_not_over_it() -> None:
    assert of("CUT", *cuts(30, 30))["over_menu_share"] == 0


def test_where_the_menu_gives_no_minutes_there_is_nothing_to_hold_against() -> None:
    row = of("TALK", visit("V1", "2026-03-03 09:00", 15, ("TALK", "0")))
    assert (row["median_minutes"], row["menu_minutes"], row["median_over_menu"], row["over_menu_share"]) == (
        15,
        None,
        None,
        None,
    )


def test_each_line_is_held_against_the_menu_of_its_day() -> None:
    menu = services(
        {"service_id": "CUT", "hands_on_min": 30}, {"service_id": "CUT", "hands_on_min": 60, "valid_from": "2026-03-02"}
    )
    row = of("CUT", *cuts(45, 45), services=menu)
    assert (row["menu_minutes"], row["over_menu_share"], row["median_over_menu"]) == (60, 0.5, 0)


def test_refunds_and_lines_that_took_no_time_are_left_out() -> None:
    refund = visit("R", "2026-03-09 09:00", 20, ("CUT", "-40"))
    assert of("CUT", *cuts(30, 0), refund)["lines"] == 1


@pytest.mark.parametrize(
    ("minutes", "off"), [([36] * 10, True), ([24] * 10, True), ([34] * 10, False), ([36] * 9, None)]
)
def test_ten_lines_tell_whether_the_menu_wants_other_minutes(minutes: list[int], off: bool | None) -> None:
    """Against 30 on the menu: 5 minutes off or more, either way."""
    assert of("CUT", *cuts(*minutes))["menu_off"] is off


def test_without_minutes_on_the_menu_none_are_off() -> None:
    talks = [visit(f"V{n}", f"2026-03-{1 + n:02} 09:00", 15, ("TALK", "0")) for n in range(12)]
    assert of("TALK", *talks)["menu_off"] is None
