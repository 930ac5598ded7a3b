"""Bowls as they were mixed."""

import pytest
from frames import agrees, days, only, product_log, products, rows_of, services, small_salon, work_out

from analytics.definitions.results import Work

SHELF = products(
    {"product_id": "DYE"},
    {"product_id": "POWDER", "kind": "lightener"},
    {"product_id": "DEV6", "kind": "developer", "strength_percent": "6"},
    {"product_id": "DEV12", "kind": "developer", "strength_percent": "12"},
    {"product_id": "BOND", "kind": "additive"},
)
MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"})


def pour(product_id: str, mixed_g: str, clock: str = "10:00", booking_id: str | None = "V1", **rest: str) -> dict:
    row = {"logged_at": f"2026-03-03 {clock}", "booking_id": booking_id, "service_id": "ROOTS", "stylist": "Mila"}
    return row | {"product_id": product_id, "mixed_g": mixed_g} | rest


def mixes(*rows: dict, work: Work = work_out):
    return work("mixes", product_log=product_log(*rows), products=SHELF, services=MENU)


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("mixes", period=days("2026-02-01", "2026-04-01"), **small_salon()), "mixes")


def test_strength_is_by_parts_of_all_that_is_in_the_bowl() -> None:
    """(30 × 6 + 10 × 12) ÷ (20 + 30 + 10 + 4) = 4.6875; the developer that was used is named by its stronger part."""
    row = only(mixes(pour("POWDER", "20"), pour("DEV6", "30"), pour("DEV12", "10"), pour("BOND", "4")))
    assert (row["kind"], row["main_g"], row["developer_g"], row["ready_g"], row["ratio"]) == (
        "lightener",
        20,
        40,
        64,
        2,
    )
    assert row["strength_percent"] == pytest.approx(4.6875)


def test_the_strength_of_an_unknown_developer_is_not_known() -> None:
    shelf = products({"product_id": "DYE"}, {"product_id": "DEV", "kind": "developer"})
    row = only(work_out("mixes", product_log=product_log(pour("DYE", "20"), pour("DEV", "30")), products=shelf))
    assert (row["ratio"], row["strength_percent"], row["strength_most_percent"]) == (1.5, None, None)


@pytest.mark.parametrize(
    ("second", "bowls"),
    [
        (pour("DYE", "10", "10:30"), 2),  # later
        (pour("DYE", "10", stylist="Noor"), 2),  # by somebody else
        (pour("DYE", "10", booking_id="V2"), 2),  # for somebody else
        (pour("DYE", "10"), 1),  # more of the same, with the one developer of the bowl
        (pour("POWDER", "10"), 1),  # together
    ],
)
def test_a_bowl_is_what_was_logged_together(second: dict, bowls: int) -> None:
    frame = mixes(pour("DYE", "20"), pour("DEV6", "30"), second, work=rows_of)
    assert frame.height == bowls
    assert sum(frame["main_g"]) == 30


def test_colour_and_developer_twice_at_one_moment_are_two_bowls() -> None:
    frame = mixes(*[pour("DYE", "20"), pour("DEV6", "30")] * 2, work=rows_of)
    assert frame.select("main_g", "developer_g").rows() == [(20, 30), (20, 30)]


def test_developer_in_two_lines_is_one_bowl() -> None:
    frame = mixes(pour("DYE", "20"), pour("DEV6", "20"), pour("DEV6", "10"), work=rows_of)
    assert frame.select("main_g", "developer_g").rows() == [(20, 30)]


def test_developer_alone_is_no_bowl() -> None:
    assert mixes(pour("DEV6", "30")).is_empty()


def test_grams_of_a_visit_count_its_second_bowl() -> None:
    row = only(mixes(pour("DYE", "40"), pour("DYE", "20", "10:30"), pour("DYE", "30", booking_id="V2")))
    assert (row["bowls"], row["second_bowls"], row["ready_per_visit_g"]) == (3, 1, 45)


def test_bowls_without_a_visit_are_nobodys_second_bowl() -> None:
    row = only(mixes(pour("DYE", "40", booking_id=None), pour("DYE", "20", "10:30", booking_id=None)))
    assert (row["bowls"], row["second_bowls"]) == (2, 0)
