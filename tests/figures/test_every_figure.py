"""What holds for every figure: adding a file to analytics/figures is all there is to adding a figure."""

import inspect
import random
from functools import cache
from pathlib import Path
from typing import Any

import polars as pl
import pytest
from frames import (
    answered,
    bookings,
    days,
    known,
    payments,
    product_log,
    products,
    sales,
    services,
    small_salon,
    table,
    visit,
    work_out,
)
from polars.testing import assert_frame_equal

from analytics.catalogue import explain, figure, figure_names, result
from analytics.definitions.results import COUNT, NUMBER
from analytics.definitions.tables import MOVEMENTS, TABLES
from analytics.periods import Period
from analytics.records.together import brought_together
from analytics.settings import parse_settings

EVERY = figure_names()
STATUSES = ("completed", "completed", "completed", "booked", "no_show", "cancelled")
BOTH_MONTHS = days("2026-02-01", "2026-04-01")


def mixed_up(tables: dict[str, pl.DataFrame], seed: int) -> dict[str, pl.DataFrame]:
    """The tables with their rows in another order."""
    return {name: rows.sample(fraction=1, shuffle=True, seed=seed) for name, rows in tables.items()}


def busy_salon(seed: int) -> dict[str, pl.DataFrame]:
    """Few clients, chairs, days and hours, so that much stands at the same moment and in the same place."""
    draw = random.Random(seed)

    def moment() -> str:
        return f"2026-{draw.choice(['02', '03'])}-{draw.choice(['03', '04', '17'])} {draw.choice(['09:00', '10:00'])}"

    visits = [
        visit(
            f"V{number}",
            moment(),
            draw.choice([30, 60, 90]),
            *[(draw.choice(["ROOTS", "FOILS", "CUT"]), draw.choice(["10.01", "0.99", "-3.33"])) for _ in range(2)],
            client_id=draw.choice(["Ada", "Bo"]),
            stylist=draw.choice(["Mila", "Noor"]),
            chair=draw.choice(["Window", "Mirror"]),
            status=draw.choice(STATUSES),
            regrowth_mm=draw.choice([None, 4.0, 9.0]),
        )
        for number in range(40)
    ]
    day = {"product_id": "DYE", "booking_id": "V1"}
    return {
        "bookings": bookings(*visits),
        "services": services(
            {"service_id": "ROOTS", "kind": "root_touch_up"},
            {"service_id": "FOILS", "kind": "lightening", "tax_rate": "9"},
            {"service_id": "FOILS", "kind": "full_colour", "resets_roots": True, "valid_from": "2026-03-04"},
            {"service_id": "CUT", "kind": "cut", "hands_on_min": 0},
        ),
        "product_log": product_log(
            *[day | {"logged_at": moment(), "mixed_g": "7", "left_g": draw.choice([None, "1"])} for _ in range(20)]
        ),
        "products": products(
            {"product_id": "DYE"}, {"product_id": "DYE", "pack_cost": "7", "valid_from": "2026-03-04"}
        ),
        "payments": payments(*[{"paid_at": moment(), "amount": "9.99", "booking_id": "V1"} for _ in range(20)]),
        "sales": sales(*[{"sold_at": moment(), "product_id": "SHAM", "price": "0.33"} for _ in range(20)]),
        "stock_moves": table(
            "stock_moves",
            [
                {
                    "moved_at": moment(),
                    "product_id": "DYE",
                    "movement": draw.choice(MOVEMENTS),
                    "packs": draw.choice([1, 2]),
                }
                for _ in range(20)
            ],
        ),
    }


@cache
def small(seed: int | None = None) -> dict[str, Any]:
    """What a figure may ask for of the small salon; with its rows in another order where there is a seed."""
    salon = small_salon()
    own = {name: rows for name, rows in salon.items() if name in TABLES}
    return known(period=BOTH_MONTHS, cover=BOTH_MONTHS, **salon | (own if seed is None else mixed_up(own, seed)))


@cache
def busy(seed: int, order: int | None = None) -> dict[str, Any]:
    """What a figure may ask for of the busy salon; with its rows in another order where there is one."""
    own = busy_salon(seed)
    return known(period=BOTH_MONTHS, cover=BOTH_MONTHS, **(own if order is None else mixed_up(own, order)))


@pytest.mark.parametrize("name", EVERY)
class TestEveryFigure:
    def test_has_a_function_of_its_name_that_takes_rows_and_named_values(self, name: str) -> None:
        work = figure(name).function
        assert (work.__name__, figure(name).rows.__name__) == (name, f"{name}_rows")
        given = inspect.signature(work).parameters.values()
        rows = {parameter.name for parameter in given if parameter.kind is parameter.POSITIONAL_OR_KEYWORD}
        values = {parameter.name for parameter in given if parameter.kind is parameter.KEYWORD_ONLY}
        assert rows <= set(TABLES) | set(brought_together(small_salon(), small_salon()["salon"]))
        assert values <= {"settings", "period", "cover", "as_of"}

    def test_says_how_it_is_worked_out(self, name: str) -> None:
        words = explain(name).split()
        assert len(words) >= 10
        assert result(name).grain

    def test_says_what_every_column_means(self, name: str) -> None:
        columns = result(name).columns.values()
        assert all(column.meaning for column in columns)
        assert all(bool(column.counted) == (column.kind is COUNT or column.kind is NUMBER) for column in columns)

    @pytest.mark.parametrize("period", [Period.month("2026-03"), days("2026-03-05", "2026-03-05")])
    def test_answers_an_empty_salon_with_its_exact_columns(self, name: str, period: Period) -> None:
        answer = work_out(name, period=period, salon=parse_settings('[salon]\nname = "Test"'))
        assert answer.schema == pl.Schema(result(name).schema)
        assert (
            answer.is_empty() or ("month" in answer.columns and set(answer["month"]) == {"2026-03"}) or name == "ahead"
        )

    def test_has_its_columns_in_order_and_type(self, name: str) -> None:
        assert answered(name, small()).schema == pl.Schema(result(name).schema)

    @pytest.mark.parametrize("seed", [1, 2, 3])
    def test_does_not_depend_on_the_order_of_rows(self, name: str, seed: int) -> None:
        assert answered(name, small(seed)).equals(answered(name, small()))

    @pytest.mark.parametrize("seed", range(4))
    def test_does_not_depend_on_the_order_of_rows_where_much_is_equal(self, name: str, seed: int) -> None:
        assert_frame_equal(answered(name, busy(seed, seed)), answered(name, busy(seed)), abs_tol=1e-9)

    def test_leaves_its_tables_as_they_were(self, name: str) -> None:
        own, untouched = small_salon(), small()
        work_out(name, **own)
        assert all(own[table].equals(untouched[table]) for table in TABLES if table in own)

    def test_has_a_row_per_key_and_not_two(self, name: str) -> None:
        assert set(result(name).key) <= set(result(name).columns)
        for salon in (small(), busy(0), busy(1)):
            answered(name, salon)  # fails where two rows share a key

    def test_has_tests_of_its_own(self, name: str) -> None:
        assert Path(__file__).with_name(f"test_{name}.py").is_file()
