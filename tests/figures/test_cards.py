"""What a stylist wants to have in her hand before a root visit."""

from datetime import date, datetime
from decimal import Decimal

import polars as pl
import pytest
from frames import (
    Row,
    agrees,
    bookings,
    clients,
    only,
    product_log,
    products,
    services,
    settings,
    small_salon,
    visit,
    work_out,
)

MENU = services(
    {"service_id": "ROOTS", "kind": "root_touch_up", "hands_on_min": 45, "processing_min": 35},
    {"service_id": "CUT", "kind": "cut", "hands_on_min": 45},
    {"service_id": "CARE", "kind": "treatment", "hands_on_min": 15},
)
PRICES = products({"product_id": "DYE", "product": "Ash"}, {"product_id": "DEV", "product": "Six", "kind": "developer"})


def came(day: str, *lines: str, minutes: int = 90, **rest: object) -> list[Row]:
    return visit(f"V{day}", f"{day} 10:00", minutes, *[(line, "60") for line in lines], **rest)


def cards(*visits: list[Row], as_of: str = "2026-04-01", **given: object) -> pl.DataFrame:
    return work_out("cards", bookings=bookings(*visits), services=MENU, products=PRICES, as_of=as_of, **given)


def mixed(day: str, product_id: str, grams: str, left: str | None = None, **rest: object) -> Row:
    return {
        "logged_at": f"{day} 10:05",
        "booking_id": f"V{day}",
        "product_id": product_id,
        "mixed_g": grams,
        "left_g": left,
        **rest,
    }


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("cards", as_of="2026-04-01", **small_salon()), "cards")


def test_usual_is_what_half_of_the_last_five_root_visits_had() -> None:
    old = [came(f"2025-0{month}-03", "ROOTS", "CARE", minutes=200) for month in range(1, 6)]
    new = [came(f"2026-01-{10 + n}", "ROOTS", *(["CUT"] if n < 3 else []), minutes=80 + 10 * n) for n in range(5)]
    row = only(cards(*old, *new))
    assert (row["root_visits"], row["usual_services"], row["usual_chair_minutes"]) == (10, "Roots, Cut", 100)


def test_visits_without_the_roots_are_not_usual() -> None:
    assert only(cards(came("2026-01-05", "ROOTS"), came("2026-02-05", "CUT")))["usual_services"] == "Roots"


def test_the_last_bowl_is_the_last_visit_that_the_log_covers() -> None:
    log = product_log(
        mixed("2026-01-05", "DYE", "20"),
        mixed("2026-02-05", "DEV", "45.5", "5"),
        mixed("2026-02-05", "DYE", "30", "3"),
        mixed("2026-02-05", "DYE", "10", "1"),
    )
    row = only(
        cards(came("2026-01-05", "ROOTS"), came("2026-02-05", "ROOTS"), came("2026-03-05", "ROOTS"), product_log=log)
    )
    assert (row["last_mixed_on"], row["last_mixed"]) == (date(2026, 2, 5), "Ash 40 g, Six 45.5 g")
    assert (row["last_mixed_g"], row["last_left_g"]) == (Decimal("85.5"), Decimal(9))


def test_what_was_not_weighed_is_not_nothing() -> None:
    log = product_log(mixed("2026-02-05", "DEV", "45", "5"), mixed("2026-02-05", "DYE", "30"))
    assert only(cards(came("2026-02-05", "ROOTS"), product_log=log))["last_left_g"] is None


def test_a_bowl_for_another_line_is_not_the_root_bowl() -> None:
    log = product_log(mixed("2026-02-05", "DYE", "30", service_id="CARE"))
    assert only(cards(came("2026-02-05", "ROOTS", "CARE"), product_log=log))["last_mixed"] is None


def test_the_next_visit_and_when_its_skin_test_is_due() -> None:
    ahead = came("2026-04-03", "CUT", status="booked"), came("2026-04-20", "ROOTS", "CUT", status="booked")
    row = only(cards(came("2026-03-05", "ROOTS"), *ahead, salon=settings(roots={"patch_test_hours": 72})))
    assert (row["next_visit_on"], row["next_services"]) == (date(2026, 4, 3), "Cut")
    assert row["skin_test_by"] == datetime(2026, 4, 17, 10, 0)


@pytest.mark.parametrize(("day", "status"), [("2026-03-20", "booked"), ("2026-04-20", "cancelled")])
def test_a_past_or_cancelled_booking_is_no_next_visit(day: str, status: str) -> None:
    row = only(cards(came("2026-03-05", "ROOTS"), came(day, "ROOTS", status=status)))
    assert (row["next_visit_on"], row["skin_test_by"]) == (None, None)


def test_the_last_skin_test_is_the_one_of_the_clients_table() -> None:
    listed = clients({"client_id": "Ada", "patch_tested_on": "2026-03-01"})
    assert only(cards(came("2026-03-05", "ROOTS"), clients=listed))["patch_tested_on"] == date(2026, 3, 1)


def test_clients_of_two_salons_with_one_number_are_two() -> None:
    frame = cards(came("2026-03-05", "ROOTS", site="north"), came("2026-03-06", "ROOTS", site="south"))
    assert frame["site"].to_list() == ["north", "south"]
