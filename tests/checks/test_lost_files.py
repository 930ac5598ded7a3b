"""One export per stylist or chair: a time that lacks one is found; leave, and exports that hold all, are not."""

from datetime import date, timedelta
from typing import Any

import polars as pl
import pytest
from frames import bookings, settings, visit

from analytics.checks.cross_checks.lost_files import WHOLE, times_between
from analytics.definitions.tables import TABLES

DAYS = [day for step in range(210) if (day := date(2026, 1, 1) + timedelta(days=step)).weekday() < 5]


def exported(*away: date, to: str = "Joris", file: str = "{who} {month}.csv", by: str = "stylist") -> pl.DataFrame:
    """Two visits a day, Mila's and Joris', seven months long; Joris has none on the days given."""
    visits, files = [], []
    for who in ("Mila", "Joris"):
        for day in DAYS:
            if not (who == to and day in away):
                rest: dict[str, Any] = {"stylist": "Team", "chair": who} if by == "chair" else {"stylist": who}
                visits.append(visit(f"{who}{day}", f"{day} 10:00", 60, ("CUT", "40"), **rest))
                week = day - timedelta(days=day.weekday())
                files.append(file.format(who=who, month=f"{day:%Y-%m}", week=week))
    return bookings(*visits).with_columns(file=pl.Series(files))


def lost(frame: pl.DataFrame) -> list[tuple[str, str, str, str]]:
    tables = {name: table.empty() for name, table in TABLES.items()} | {"bookings": frame}
    rows = times_between(tables, settings()).filter(pl.col("exports") > WHOLE)
    return [
        (row["who"], str(row["last_day"]), str(row["first_day"]), row["file"]) for row in rows.iter_rows(named=True)
    ]


MARCH = [day for day in DAYS if day.month == 3]


@pytest.mark.parametrize("by", ["stylist", "chair"])
def test_a_month_that_none_of_her_exports_holds_is_found(by: str) -> None:
    assert lost(exported(*MARCH, by=by)) == [("Joris", "2026-02-27", "2026-04-01", "Joris 2026-02.csv")]


def test_exports_that_overlap_by_a_day_are_found_too() -> None:
    assert (
        len(
            lost(
                exported(*MARCH[1:]).with_columns(file=pl.col("file").replace("Joris 2026-03.csv", "Joris 2026-02.csv"))
            )
        )
        == 1
    )


def test_a_fortnight_and_three_weeks_over_the_end_of_a_month_are_leave() -> None:
    assert lost(exported(*MARCH[3:13])) == []
    assert lost(exported(*[day for day in DAYS if date(2026, 3, 20) <= day < date(2026, 4, 10)])) == []


def test_exports_that_hold_everybody_say_nothing_of_one_stylist() -> None:
    assert lost(exported(*MARCH, file="all {month}.csv")) == []
    assert lost(exported(*MARCH, file="all.csv")) == []


def test_exports_by_the_week_are_as_long_as_leave() -> None:
    assert lost(exported(*DAYS[20:40], file="{who} {week}.csv")) == []


def test_a_month_in_which_nobody_worked_is_no_lost_file_of_one() -> None:
    both = exported(*MARCH)
    assert lost(both.filter(pl.col("starts_at").dt.month() != 3)) == []


def test_one_stylist_and_an_empty_salon_say_nothing() -> None:
    assert lost(exported(*DAYS)) == lost(exported().clear()) == []
