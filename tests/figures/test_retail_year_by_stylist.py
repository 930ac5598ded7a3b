"""In how many visits each stylist sells something over twelve months."""

import polars as pl
import pytest
from frames import bookings, days, only, sales, services, visit, work_out

MENU = services(
    {"service_id": "CUT", "kind": "cut", "hands_on_min": 30},
    {"service_id": "ROOTS", "kind": "root_touch_up", "hands_on_min": 45},
)
A_YEAR = days("2025-04-01", "2026-04-01")


def seen(number: int, service: str, stylist: str | None, day: str = "2026-03-03", **rest: str) -> list[dict]:
    return visit(f"V{number}", f"{day} 09:00", 30, (service, "40"), stylist=stylist, **rest)


def over_a_year(visits: list[list[dict]], *sold_in: int, **given: object) -> pl.DataFrame:
    rows = [
        {"sold_at": "2026-03-03", "product_id": "SHAM", "price": "12.10", "booking_id": f"V{place}"}
        for place in sold_in
    ]
    tables = {"bookings": bookings(*visits), "services": MENU, "sales": sales(*rows)}
    return work_out("retail_year_by_stylist", **tables, **{"period": A_YEAR} | given)


def test_months_are_added_up_by_hand() -> None:
    """February: one of four cuts sells, Mila's, so a quarter. March: three of four roots, both of Mila's.

    Mila 3 of 4, Noor 1 of 4; on like visits both 2 × ¼ + 2 × ¾ = 2 of 4. Four visits are too few to tell them apart.
    """
    visits = [seen(place, "CUT", ("Mila", "Noor")[place // 2], "2026-02-03") for place in range(4)]
    visits += [seen(place, "ROOTS", ("Mila", "Noor")[place // 6]) for place in range(4, 8)]
    frame = over_a_year(visits, 0, 4, 5, 6)
    told = ["stylist", "visits", "visits_with_sale", "share", "like_visits_with_sale", "like_share", "net", "differs"]
    assert frame.select(told).rows() == [
        ("Mila", 4, 3, 0.75, 2, 0.5, 30, False),
        ("Noor", 4, 1, 0.25, 2, 0.5, 10, False),
    ]


@pytest.mark.parametrize(("mila", "noor", "differs"), [(20, 0, True), (10, 6, False)])
def test_forty_visits_tell_what_chance_would_not_do(mila: int, noor: int, differs: bool) -> None:
    """Of 40 cuts each, 20 and none sell: 25 % on like visits, and Wilson's ranges are 35–65 % and 0–9 %.

    With 10 and 6 it is 20 % on like visits, within 14–40 % and 7–29 %.
    """
    visits = [seen(place, "CUT", ("Mila", "Noor")[place // 40]) for place in range(80)]
    frame = over_a_year(visits, *range(mila), *range(40, 40 + noor))
    assert frame["differs"].to_list() == [differs, differs]
    assert set(over_a_year(visits[:29] + visits[40:69], *range(mila), *range(40, 40 + noor))["differs"]) == {False}


def test_only_the_last_twelve_months_count() -> None:
    visits = [seen(0, "CUT", "Mila", "2025-03-03"), seen(1, "CUT", "Mila")]
    row = only(over_a_year(visits, 0, 1, period=days("2025-03-01", "2026-04-01")))
    assert (row["visits"], row["visits_with_sale"]) == (1, 1)


def test_where_no_sale_names_a_visit_or_there_is_no_stylist_there_is_no_row() -> None:
    assert over_a_year([seen(0, "CUT", "Mila")]).is_empty()
    assert over_a_year([seen(0, "CUT", None)], 0).is_empty()
    assert over_a_year([], period="2026-03").is_empty()


def test_a_refund_is_no_visit() -> None:
    visits = [seen(0, "CUT", "Mila"), visit("V1", "2026-03-03 11:00", 0, ("CUT", "-40"), stylist="Mila")]
    assert only(over_a_year(visits, 0))["visits"] == 1
