"""In how many of her visits each stylist sells something, against the salon on like visits."""

import polars as pl
import pytest
from frames import agrees, bookings, days, only, sales, services, small_salon, visit, work_out

MENU = services(
    {"service_id": "CUT", "kind": "cut", "hands_on_min": 30},
    {"service_id": "ROOTS", "kind": "root_touch_up", "hands_on_min": 45},
)


def seen(number: int, service: str, stylist: str, day: int = 3, **rest: str) -> list[dict]:
    return visit(f"V{number}", f"2026-03-{day:02} 09:00", 30, (service, "40"), stylist=stylist, **rest)


def by_stylist(visits: list[list[dict]], *sold_in: int, **given: object) -> pl.DataFrame:
    rows = [
        {"sold_at": "2026-03-03", "product_id": "SHAM", "price": "12.10", "booking_id": f"V{place}"}
        for place in sold_in
    ]
    return work_out("retail_by_stylist", bookings=bookings(*visits), services=MENU, sales=sales(*rows), **given)


def test_by_hand_against_like_visits() -> None:
    """Of 4 cuts 1 sold (Mila's), of 4 roots 3 (2 of Mila's 3, 1 of Noor's 1).

    Mila: 1 cut and 3 roots, 3 sales of 4; like visits sell 1 × ¼ + 3 × ¾ = 2.5 of 4. Noor: 3 cuts and a root, 1 of 4;
    like visits 3 × ¼ + ¾ = 1.5 of 4.
    """
    visits = [seen(0, "CUT", "Mila"), *(seen(place, "ROOTS", "Mila") for place in (1, 2, 3))]
    visits += [seen(4, "ROOTS", "Noor"), *(seen(place, "CUT", "Noor") for place in (5, 6, 7))]
    frame = by_stylist(visits, 0, 1, 2, 4)
    told = ["stylist", "visits", "visits_with_sale", "share", "like_visits_with_sale", "like_share", "units", "net"]
    assert frame.select(told).rows() == [
        ("Mila", 4, 3, 0.75, 2.5, 0.625, 3, 30),
        ("Noor", 4, 1, 0.25, 1.5, 0.375, 1, 10),
    ]


def test_what_the_salon_sells_is_what_like_visits_sell_altogether() -> None:
    visits = [seen(place, ("CUT", "ROOTS")[place % 2], ("Mila", "Noor", "Odile")[place % 3]) for place in range(12)]
    frame = by_stylist(visits, 1, 2, 3, 5, 8)
    assert frame["like_visits_with_sale"].sum() == pytest.approx(frame["visits_with_sale"].sum())


def test_few_visits_have_a_wide_range() -> None:
    row = only(by_stylist([seen(0, "CUT", "Mila")], 0))
    assert (row["share"], row["share_high"]) == (1, 1)
    assert row["share_low"] == pytest.approx(0.2065, abs=1e-4)


def test_the_stylist_of_the_main_line_has_the_visit() -> None:
    both = [*visit("V0", "2026-03-03 09:00", 90, ("CUT", "40"), ("ROOTS", "60"))]
    both[0]["stylist"], both[1]["stylist"] = "Noor", "Mila"
    assert only(by_stylist([both], 0))["stylist"] == "Mila"


def test_where_no_sale_names_a_visit_or_client_nothing_is_known() -> None:
    row = only(by_stylist([seen(0, "CUT", "Mila")]))
    assert (row["visits"], row["visits_with_sale"], row["share"], row["like_share"]) == (1, None, None, None)


def test_a_month_of_its_own_and_a_cut_period() -> None:
    visits = [seen(0, "CUT", "Mila", 3), seen(1, "CUT", "Mila", 20)]
    assert only(by_stylist(visits, 0, period=days("2026-03-01", "2026-03-10")))["visits"] == 1


def test_refunds_and_missed_visits_are_no_visits() -> None:
    visits = [seen(0, "CUT", "Mila"), seen(1, "CUT", "Noor", status="no_show")]
    visits.append(visit("V2", "2026-03-03 11:00", 0, ("CUT", "-40"), stylist="Odile"))
    assert by_stylist(visits, 0)["stylist"].to_list() == ["Mila"]


def test_equals_the_answer_worked_by_hand() -> None:
    frame = work_out("retail_by_stylist", period=days("2026-02-01", "2026-04-01"), **small_salon())
    agrees(frame, "retail_by_stylist")
