"""A root visit under an hour of chair time deserves a look (common practice, no source)."""

import polars as pl
from frames import Row, bookings, known, services, settings, visit

from analytics.checks.oddities import oddities
from analytics.definitions.tables import TABLES

MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"}, {"service_id": "CUT", "kind": "cut"})


def short(*visits: list[Row]) -> list[tuple[int, str]]:
    given = known(bookings=bookings(*visits), services=MENU)
    found = oddities({name: given[name] for name in TABLES}, settings())
    return found.filter(pl.col("code") == "short_root_visit").select("row", "value").rows()


def roots(minutes: float, *more: str, price: str = "60", **rest: object) -> list[Row]:
    lines = [("ROOTS", price), *[(service, "30") for service in more]]
    return visit(f"V{minutes}", "2026-03-02 10:00", minutes, *lines, **rest)


def test_under_an_hour_is_found_and_an_hour_is_not() -> None:
    assert short(roots(59)) == [(2, "59")]
    assert short(roots(60)) == []


def test_the_whole_visit_counts_on_all_its_chairs() -> None:
    first = roots(40, chair="Window")
    cut = visit("V40", "2026-03-02 10:40", 30, ("CUT", "30"), chair="Mirror")
    assert short(first, [cut[0] | {"line": 2}]) == []


def test_a_cut_a_refund_or_a_cancelled_visit_is_no_root_visit() -> None:
    assert short(visit("V1", "2026-03-02 10:00", 30, ("CUT", "30"))) == []
    assert short(roots(0, price="-60"), roots(20, status="cancelled")) == []
