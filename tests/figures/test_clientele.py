"""Whom the change in net revenue came from."""

import polars as pl
from frames import agrees, bookings, days, sales, services, small_salon, visit, work_out

MENU = services({"service_id": "CUT", "kind": "cut", "tax_rate": "0"})
TWO_MONTHS = days("2026-02-01", "2026-04-01")


def groups(*visits: list, **more: object) -> dict[str, tuple]:
    """March against February: group -> clients, clients_before, change."""
    given = {"cover": TWO_MONTHS} | more
    frame = work_out("clientele", bookings=bookings(*visits), services=MENU, **given).filter(compared_with="previous")
    return {row[0]: row[1:] for row in frame.select("group", "clients", "clients_before", "change").iter_rows()}


def cut(day: str, client: str, price: str = "50", **rest: object) -> list:
    return visit(f"{client} {day}", f"{day} 09:00", 60, ("CUT", price), client_id=client, **rest)


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("clientele", cover=TWO_MONTHS, **small_salon()), "clientele")


def test_new_returning_and_lost() -> None:
    visits = (
        cut("2026-02-03", "Ada"), cut("2026-03-03", "Ada", "60"),
        cut("2026-02-03", "Bo"),
        cut("2026-03-03", "Cleo"),
    )  # fmt: skip
    assert groups(*visits) == {"new": (1, 0, 50), "returning": (1, 1, 10), "lost": (0, 1, -50)}


def test_a_client_who_came_earlier_but_not_in_the_month_before_is_returning() -> None:
    cover = days("2026-01-01", "2026-04-01")
    assert groups(cut("2026-01-03", "Ada"), cut("2026-03-03", "Ada"), cover=cover) == {"returning": (1, 0, 50)}


def test_a_visit_that_did_not_happen_makes_no_client() -> None:
    assert groups(cut("2026-02-03", "Ada", status="no_show"), cut("2026-03-03", "Ada")) == {"new": (1, 0, 50)}


def test_retail_belongs_to_its_client_or_to_the_client_of_its_visit_or_to_nobody() -> None:
    item = {"product_id": "SHAM", "price": "10", "tax_rate": "0", "sold_at": "2026-03-03"}
    shop = sales(item, item | {"client_id": "Ada"}, item | {"booking_id": "Ada 2026-03-03"})
    answer = groups(cut("2026-02-03", "Ada"), cut("2026-03-03", "Ada"), sales=shop)
    assert answer == {"returning": (1, 1, 20), "nobody": (0, 0, 10)}


def test_a_part_month_stands_against_the_same_days() -> None:
    visits = cut("2026-02-10", "Ada"), cut("2026-02-11", "Bo"), cut("2026-03-10", "Ada")
    assert groups(*visits, as_of="2026-03-10") == {"returning": (1, 1, 0)}


def test_clients_of_one_number_in_two_salons_are_two() -> None:
    visits = cut("2026-02-03", "Ada", site="North"), cut("2026-03-03", "Ada", site="South")
    assert groups(*visits) == {"new": (1, 0, 50), "lost": (0, 1, -50)}


def test_new_clients_are_those_of_the_month_figure() -> None:
    small = small_salon()
    month = work_out("month", cover=TWO_MONTHS, **small).filter(pl.col("figure") == "new_clients")["value"].item()
    assert work_out("clientele", cover=TWO_MONTHS, **small).filter(group="new")["clients"].item() == month
