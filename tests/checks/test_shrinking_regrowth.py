"""Regrowth that became less with no colour between is a finding."""

import pytest
from frames import Row, bookings, known, services, settings, visit

from analytics.checks.oddities import oddities
from analytics.definitions.tables import TABLES

MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"}, {"service_id": "CUT", "kind": "cut"})


def found(*visits: list[Row]) -> list[tuple[str, str, str]]:
    given = known(bookings=bookings(*visits), services=MENU)
    hits = oddities({name: given[name] for name in TABLES}, settings())
    of_regrowth = hits.filter(hits["column"] == "regrowth_mm")
    return of_regrowth.select("code", "value", "expected").rows()


def cut(day: str, regrowth_mm: float) -> list[Row]:
    return visit(day, f"{day} 10:00", 45, ("CUT", "40"), regrowth_mm=regrowth_mm)


START = visit("R1", "2026-01-05 10:00", 90, ("ROOTS", "60"))


def test_less_than_before_is_found() -> None:
    assert found(START, cut("2026-02-02", 10), cut("2026-02-16", 4)) == [("shrinking_regrowth", "4.0", "10.0")]


@pytest.mark.parametrize("later", [6.0, 9.0, 14.0])
def test_within_the_error_of_measuring_it_is_not(later: float) -> None:
    assert found(START, cut("2026-02-02", 10), cut("2026-02-16", later)) == []


def test_colour_between_starts_again() -> None:
    again = visit("R2", "2026-02-03 10:00", 90, ("ROOTS", "60"))
    assert found(START, cut("2026-02-02", 10), again, cut("2026-02-16", 4)) == []
