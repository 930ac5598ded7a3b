"""The menu or price list row that is valid on a day."""

from datetime import date

import polars as pl
import pytest
from frames import services

from analytics.records.chairs.validity import valid_that_day

MENU = services(
    {"service_id": "CUT", "service": "Cut in spring", "valid_from": "2026-03-01"},
    {"service_id": "CUT", "service": "Cut in summer", "valid_from": "2026-06-01"},
    {"service_id": "WASH", "service": "Wash"},
    {"service_id": "WASH", "service": "Wash, new", "valid_from": "2026-06-01"},
)


def on(service_id: str, day: str, listed: pl.DataFrame = MENU) -> tuple[str | None, bool]:
    rows = pl.DataFrame({"service_id": [service_id], "day": [date.fromisoformat(day)]})
    found = valid_that_day(rows, listed.select("service_id", "service", "valid_from"), "service_id", pl.col("day"))
    return found.select("service", "before_first").row(0)


@pytest.mark.parametrize(
    ("day", "name"),
    [("2026-03-01", "Cut in spring"), ("2026-05-31", "Cut in spring"), ("2026-06-01", "Cut in summer")],
)
def test_a_row_is_valid_from_its_day_until_the_next(day: str, name: str) -> None:
    assert on("CUT", day) == (name, False)


def test_a_day_before_the_first_row_takes_it_and_says_so() -> None:
    assert on("CUT", "2026-02-28") == ("Cut in spring", True)


def test_a_row_without_a_day_is_always_valid() -> None:
    assert on("WASH", "1990-01-01") == ("Wash", False)
    assert on("WASH", "2026-06-01") == ("Wash, new", False)


def test_what_is_not_listed_stays_empty() -> None:
    assert on("PERM", "2026-03-01") == (None, False)


def test_rows_keep_their_order_and_number() -> None:
    rows = pl.DataFrame({"service_id": ["WASH", "CUT", "PERM", "CUT"], "day": [date(2026, 7, n) for n in (4, 1, 3, 2)]})
    found = valid_that_day(rows, MENU.select("service_id", "service", "valid_from"), "service_id", pl.col("day"))
    assert found["day"].to_list() == rows["day"].to_list()
    assert found["service"].to_list() == ["Wash, new", "Cut in summer", None, "Cut in summer"]
