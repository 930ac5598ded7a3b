"""Who came, and what that did to net revenue."""

from decimal import Decimal

import polars as pl
from frames import agrees, bookings, days, rows_of, sales, services, settings, small_salon, visit, work_out

MENU = services({"service_id": "CUT", "kind": "cut", "tax_rate": "0"})
COVER = days("2025-06-01", "2026-04-01")


def cut(day: str, client: str, price: str = "50", **rest: object) -> list:
    return visit(f"{client} {day}", f"{day} 09:00", 60, ("CUT", price), client_id=client, **rest)


def groups(*visits: list, **more: object) -> dict[str, tuple]:
    """March against February, both 24 days from Monday to Saturday but for one: group -> now, then, effect."""
    begin = cut("2025-06-02", "Opening")
    frame = work_out("clientele", bookings=bookings(begin, *visits), services=MENU, **{"cover": COVER} | more)
    of_february = frame.filter(pl.col("number").is_not_null(), compared_with="previous").select(
        "group", "number", "number_before", "effect"
    )
    return {row[0]: row[1:] for row in of_february.iter_rows()}


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("clientele", cover=days("2026-02-01", "2026-04-01"), **small_salon()), "clientele")


def test_everybody_stands_by_when_she_was_due() -> None:
    """Ada every 28 days: due 3 March. Bo every 28 days too, due 17 February: later. Cleo every 90: due in April: early.
    Dana is new. Eve was due on 5 March and did not come. In February Ada, Bo and Eve were due, and Bo did not come."""
    ada = [cut(day, "Ada") for day in ("2025-11-11", "2025-12-09", "2026-01-06", "2026-02-03", "2026-03-03")]
    bo = [cut(day, "Bo") for day in ("2025-11-25", "2025-12-23", "2026-01-20", "2026-03-10")]
    cleo = [cut(day, "Cleo") for day in ("2025-07-15", "2025-10-13", "2026-01-12", "2026-03-12")]
    eve = [cut(day, "Eve") for day in ("2025-11-13", "2025-12-11", "2026-01-08", "2026-02-05")]
    found = groups(*ada, *bo, *cleo, *eve, cut("2026-03-20", "Dana"))
    numbers = {group: (int(now), int(then)) for group, (now, then, _) in found.items() if group != "open_days"}
    assert numbers == {"due": (2, 3), "came": (1, 2), "later": (1, 0), "early": (1, 0), "new": (1, 0)}
    assert sum(effect for *_, effect in found.values()) == (4 - 2) * 50
    assert (found["later"][2], found["early"][2], found["new"][2]) == (50, 50, 50)


def test_of_clients_due_those_who_stay_away_are_told_apart() -> None:
    """Due: four then, who made six visits; four now, of whom one came: five visits fewer than then."""
    every = [cut(day, client) for client in "ABCD" for day in ("2025-12-10", "2026-01-07", "2026-02-04")]
    longer = [cut("2026-02-18", client) for client in "AB"]
    found = groups(*every, *longer, cut("2026-03-04", "C"))
    assert (found["due"][:2], found["came"]) == ((4, 4), (1, 4, Decimal(-250)))
    assert found["due"][2] + found["came"][2] + found["open_days"][2] + found["early"][2] == (1 - 6) * 50


def test_the_first_half_year_of_a_book_says_nothing_of_new_clients() -> None:
    visits = cut("2026-02-03", "Ada"), cut("2026-03-03", "Ada"), cut("2026-03-03", "Bo")
    found = groups(*visits, cover=days("2025-12-01", "2026-04-01"))
    assert set(found) == {"open_days", "everybody"}
    assert sum(effect for *_, effect in found.values()) == 50


def test_more_open_days_are_told_first() -> None:
    """12 days, then 26, with twice as many visits: 4 × (26/12 − 1) visits by days alone, and less than that came."""
    shut = [f"2026-02-{day:02}" for day in range(15, 29)]
    salon = settings(hours=dict.fromkeys(("mon", "tue", "wed", "thu", "fri", "sat"), "09:00-18:00") | {"closed": shut})
    seen = [cut(f"2026-02-{day:02}", f"F{day}") for day in (2, 3, 4, 5)]
    seen += [cut(f"2026-03-{day:02}", f"M{day}") for day in (2, 3, 4, 5, 6, 9, 10, 11)]
    found = groups(*seen, salon=salon, cover=days("2026-01-01", "2026-04-01"))
    assert found["open_days"][1] == 12 and 25 < found["open_days"][0] < 27
    assert 200 < found["open_days"][2] < 260
    assert found["open_days"][2] + found["everybody"][2] == (8 - 4) * 50


def test_visits_that_did_not_happen_and_refunds_are_none() -> None:
    visits = (
        cut("2026-02-03", "Ada"),
        cut("2026-03-03", "Ada"),
        cut("2026-03-04", "Bo", status="no_show"),
        cut("2026-03-05", "Ada", "-20"),
    )
    assert sum(effect for *_, effect in groups(*visits).values()) == 0


def test_clients_of_one_number_in_two_salons_are_two() -> None:
    found = groups(cut("2026-02-03", "Ada", site="North"), cut("2026-03-03", "Ada", site="South"))
    assert found["new"][:2] == (1, 1)


def test_the_rows_are_what_each_client_bought() -> None:
    """An item belongs to its client, else to the client of its visit, else to nobody."""
    item = {"product_id": "SHAM", "price": "10", "tax_rate": "0", "sold_at": "2026-03-03"}
    shop = sales(item, item | {"client_id": "Ada"}, item | {"booking_id": "Ada 2026-03-03"})
    book = bookings(cut("2026-03-03", "Ada"))
    rows = rows_of("clientele", bookings=book, services=MENU, sales=shop)
    assert rows.filter(client_id="Ada")["net"].sum() == 70
    assert rows.filter(pl.col("client_id").is_null())["net"].sum() == 10
