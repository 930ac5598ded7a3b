"""Stylists beside their colleagues, on like work only."""

import pytest
from frames import Row, agrees, bookings, days, services, small_salon, visit, work_out

MENU = services(*[{"service_id": name, "tax_rate": "0"} for name in ("CUT", "FOILS", "HAIR UP")])


def of(*visits: list[Row]) -> dict[str, Row]:
    frame = work_out("stylists", bookings=bookings(*visits), services=MENU)
    return {row["stylist"]: row for row in frame.iter_rows(named=True)}


def many(count: int, stylist: str, service: str, minutes: int, price: str) -> list[list[Row]]:
    return [
        visit(f"{stylist} {service} {n}", f"2026-03-{1 + n % 28:02} 09:00", minutes, (service, price), stylist=stylist)
        for n in range(count)
    ]


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("stylists", period=days("2026-02-01", "2026-04-01"), **small_salon()), "stylists")


def test_colleagues_are_taken_on_the_same_services_as_often_as_she_did_them() -> None:
    """Mila: 20 cuts of 30 min at 30 and 10 foils of 120 min at 150. Noor cuts in 45 min at 30 (40 of them) and takes
    90 min for foils at 120 (10). Mila's mix would take Noor (20 × 45 + 10 × 90) ÷ 30 = 60 min a line and bring
    (20 × 30 + 10 × 120) ÷ 30 h = 60; it took Mila (20 × 30 + 10 × 120) ÷ 30 = 60 min and brought 2,100 ÷ 30 h = 70."""
    answer = of(
        *many(20, "Mila", "CUT", 30, "30"),
        *many(10, "Mila", "FOILS", 120, "150"),
        *many(5, "Mila", "HAIR UP", 60, "500"),
        *many(40, "Noor", "CUT", 45, "30"),
        *many(10, "Noor", "FOILS", 90, "120"),
    )
    mila = answer["Mila"]
    assert (mila["like_services"], mila["like_lines"], mila["others_lines"], mila["compared"]) == (2, 30, 50, True)
    assert mila["minutes_per_line"] == pytest.approx(60)
    assert mila["colleagues_minutes_per_line"] == pytest.approx(60)
    assert mila["like_net_per_chair_hour"] == pytest.approx(70)
    assert mila["colleagues_net_per_chair_hour"] == pytest.approx(60)
    assert mila["lines"] == 35


@pytest.mark.parametrize(("hers", "theirs", "compared"), [(20, 20, True), (19, 40, False), (40, 19, False)])
def test_fewer_than_20_lines_on_either_side_are_not_compared(hers: int, theirs: int, compared: bool) -> None:
    answer = of(*many(hers, "Mila", "CUT", 30, "30"), *many(theirs, "Noor", "CUT", 30, "30"))["Mila"]
    assert answer["compared"] is compared
    assert (answer["colleagues_minutes_per_line"] is not None) is compared


def test_a_stylist_alone_in_her_work_is_compared_with_nobody() -> None:
    answer = of(*many(30, "Mila", "CUT", 30, "30"), *many(30, "Noor", "FOILS", 90, "120"))
    assert [(row["like_lines"], row["compared"]) for row in answer.values()] == [(0, False), (0, False)]


def test_stylists_stand_in_order_of_name() -> None:
    assert list(of(*many(1, "Noor", "CUT", 30, "9"), *many(1, "Mila", "CUT", 30, "1"))) == ["Mila", "Noor"]
