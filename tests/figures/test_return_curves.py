"""How the share of clients who have returned grows, week by week."""

from datetime import date, timedelta

import polars as pl
from frames import Row, agrees, bookings, only, services, small_salon, visit, work_out

MENU = services({"service_id": "CUT", "kind": "cut"}, {"service_id": "ROOTS", "kind": "root_touch_up"})
FIRST = date(2026, 1, 5)


def client(name: str, *gaps: int, service: str = "CUT", stylist: str = "Mila") -> list[Row]:
    days = [FIRST + timedelta(days=sum(gaps[:n])) for n in range(len(gaps) + 1)]
    return [
        row
        for day in days
        for row in visit(f"{name}{day}", f"{day} 10:00", 60, (service, "60"), client_id=name, stylist=stylist)
    ]


def curves(*visits: list[Row], as_of: str = "2026-12-31") -> pl.DataFrame:
    return work_out("return_curves", bookings=bookings(*visits), services=MENU, as_of=as_of)


def test_equals_the_answer_worked_by_hand() -> None:
    frame = work_out("return_curves", as_of="2026-04-20", **small_salon())
    agrees(frame.filter(split="everybody"), "return_curves")


def test_each_split_holds_every_client_once() -> None:
    frame = curves(client("A", 30), client("B", 50, service="ROOTS"), client("C", stylist="Noor"))
    start = frame.filter(week=0)
    assert dict(start.group_by("split").agg(pl.col("clients").sum()).iter_rows()) == dict.fromkeys(
        ("everybody", "kind", "stylist", "cohort"), 3
    )
    assert start.filter(split="stylist")["name"].to_list() == ["Mila", "Noor"]


def test_the_number_at_risk_and_the_median() -> None:
    frame = curves(client("A", 30), client("B", 50), client("C"))
    seen = {row["week"]: (row["returned"], row["at_risk"]) for row in frame.filter(split="everybody").to_dicts()}
    assert [seen[week][1] for week in (0, 4, 5, 7, 8)] == [3, 3, 2, 2, 1]
    assert [round(seen[week][0], 4) for week in (4, 5, 8, 26)] == [0, 0.3333, 0.6667, 0.6667]
    assert only(frame, split="everybody", week=0)["median_days"] == 50


def test_weeks_that_nobody_was_followed_for_are_left_out() -> None:
    assert curves(client("A"), as_of="2026-01-20")["week"].max() == 2  # 15 days


def test_who_was_first_seen_in_the_first_half_year_of_a_long_book_is_no_new_client() -> None:
    regular, new = client("Old", *[35] * 11), visit("N", "2026-07-06 10:00", 60, ("CUT", "60"), client_id="New")
    long_book = curves(regular, new, as_of="2027-01-06").filter(week=0)
    assert dict(long_book.select("name", "clients").iter_rows()) == {
        "everybody": 1, "cut": 1, "Mila": 1, "2026-Q1": 1, "2026-Q3": 1,
    }  # fmt: skip
    assert only(curves(regular, new, as_of="2027-01-05"), name="everybody", week=0)["clients"] == 2


def test_a_group_beside_everybody() -> None:
    """Of Mila's 12 clients 10 are back after 30 days and of Noor's 2: everybody's share is a half. Mila's band begins
    at 1 − exp(−exp(ln 1.7918 − 1.96 × √(10 ÷ 24) ÷ 1.7918)) = 58.7 %, and lies above it."""
    mila = [client(f"M{place}", *[30] * (place < 10)) for place in range(12)]
    noor = [client(f"N{place}", *[30] * (place < 2), stylist="Noor") for place in range(12)]
    frame = curves(*mila, *noor).filter(week=8)
    assert set(frame["everybody_returned"]) == {0.5}
    told = {row["name"]: row["differs"] for row in frame.filter(split="stylist").to_dicts()}
    assert told["Mila"] is True
    assert only(frame, split="everybody")["differs"] is None
    assert only(frame, split="kind", name="cut")["differs"] is False


def test_few_clients_and_groups_without_a_band_are_not_compared() -> None:
    frame = curves(client("A", 30), client("B"), *[client(f"N{place}", 30, stylist="Noor") for place in range(6)])
    assert frame.filter(split="stylist", week=8)["differs"].to_list() == [None, None]
