"""Clients without a visit for as long as records are kept."""

from datetime import date

import polars as pl
from frames import agrees, bookings, clients, rows_of, sales, settings, small_salon, visit, work_out

AFTER_36 = settings(keeping={"months_without_visit": 36})


def unseen(*visits: object, as_of: str, salon: object = AFTER_36, **given: pl.DataFrame) -> list[tuple[str, date, int]]:
    frame = work_out("long_unseen", bookings=bookings(*visits), as_of=as_of, salon=salon, **given)
    return list(frame.select("client_id", "last_on", "months").iter_rows())


def came(client_id: str, day: str, **rest: object) -> object:
    return visit(f"{client_id} {day}", f"{day} 10:00", 60, ("CUT", "40"), client_id=client_id, **rest)


def test_equals_the_answer_worked_by_hand() -> None:
    small = small_salon() | {"salon": settings(keeping={"months_without_visit": 1})}
    agrees(work_out("long_unseen", as_of="2026-04-20", **small), "long_unseen")


def test_nobody_stands_there_before_it_is_set() -> None:
    assert unseen(came("Ada", "2001-01-02"), as_of="2026-01-01", salon=settings()) == []


def test_the_day_itself_counts_and_the_day_before_does_not() -> None:
    ada = came("Ada", "2023-02-28")
    assert unseen(ada, as_of="2026-02-27") == []
    assert unseen(ada, as_of="2026-02-28") == [("Ada", date(2023, 2, 28), 36)]


def test_a_leap_day_ends_with_its_month() -> None:
    """29 February 2024 and 36 months: 28 February 2027, as there is no 29th."""
    assert unseen(came("Ada", "2024-02-29"), as_of="2027-02-28") == [("Ada", date(2024, 2, 29), 36)]


def test_a_purchase_and_a_visit_to_come_keep_and_a_list_alone_says_nothing() -> None:
    bought = sales({"sold_at": "2025-05-05 10:00", "product_id": "SHAM", "client_id": "Bo"})
    old = [came("Ada", "2020-01-02"), came("Bo", "2020-01-02"), came("Cleo", "2020-01-03")]
    old.append(came("no name 0123abcd", "2020-01-02"))  # erased
    ahead = came("Ada", "2026-06-01", status="booked")
    named = clients({"client_id": "Cleo", "client": "Cleo Marl"}, {"client_id": "Dot"})
    assert unseen(*old, ahead, as_of="2026-03-01", sales=bought, clients=named) == [("Cleo", date(2020, 1, 3), 73)]


def test_its_rows_are_what_counts() -> None:
    rows = rows_of("long_unseen", **small_salon())
    assert rows.filter(client_id="Bo")["day"].to_list() == [date(2026, 3, 3)] * 2
