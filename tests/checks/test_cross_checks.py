"""The checks across tables as a whole: on the demo, in a load, where one of them fails."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Any

import polars as pl
import pytest
from cross_checked import ROOTS_AND_CUT, bowl, priced, tables, two_lines, warned
from demo import loaded_demo
from frames import bookings, product_log, visit
from hypothesis import given
from hypothesis import settings as run_with
from hypothesis import strategies as st
from salons import BOOKINGS, write_salon

from analytics.checks import expectations
from analytics.definitions import findings
from analytics.definitions.columns import Column
from analytics.definitions.tables import TABLES
from analytics.intake.load import load
from analytics.settings import Settings, read_settings
from analytics.storage.book import read_book


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[dict[str, pl.DataFrame], Settings]]:
    folder = loaded_demo(tmp_path_factory)
    yield read_book(folder).tables, read_settings(folder)


def test_the_demo_shows_what_was_planted_and_no_more(demo: tuple[dict[str, pl.DataFrame], Settings]) -> None:
    """Two visits nobody paid for, one paid twice, three clients who stand twice."""
    said = findings.summarise(expectations.check_crossings(*demo))
    count = said.group_by("code").agg(pl.col("count").sum()).sort("code").rows()
    assert count == [("client_twice", 3), ("paid_differs", 1), ("visit_unpaid", 2)]


def test_no_sentence_holds_a_client(demo: tuple[dict[str, pl.DataFrame], Settings]) -> None:
    said = " ".join(findings.summarise(expectations.check_crossings(*demo))["message"])
    people = demo[0]["clients"].select("client", "client_id", "phone", "email")
    assert not any(str(cell) in said for row in people.iter_rows() for cell in row if cell)


def test_a_load_keeps_the_warnings_and_uses_the_rows(tmp_path: Path) -> None:
    rows = "".join(
        f"B1,{line},C{line},Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00\n" for line in (1, 2)
    )
    folder = write_salon(tmp_path, {"bookings.csv": BOOKINGS + rows})
    settings = read_settings(folder)

    def check(loaded: dict[str, pl.DataFrame]) -> pl.DataFrame:
        return expectations.check_crossings(loaded, settings)

    report = load(folder, settings, check, lambda *_: None)
    assert report.findings["code"].to_list() == ["lines_disagree"]
    assert report.files.filter(file="bookings.csv").select("rows_used", "set_aside").row(0) == (2, 0)


def test_empty_tables_and_one_visit_pass() -> None:
    assert warned() == []
    assert warned(bookings=bookings(visit("V1", "2026-03-02 09:00", 90, ("CUT", "40")))) == []


def broken(monkeypatch: pytest.MonkeyPatch, code: str, **changes: Any) -> None:
    """The check of this code with something else in it."""
    changed = tuple(replace(each, **changes) if each.code == code else each for each in expectations.CROSS_CHECKS)
    monkeypatch.setattr(expectations, "CROSS_CHECKS", changed)


def test_rows_that_cannot_be_made_are_said_and_the_other_checks_go_on(monkeypatch: pytest.MonkeyPatch) -> None:
    def crash(*_: object) -> pl.DataFrame:
        raise ValueError("secret cell")

    broken(monkeypatch, "stylist_stops", rows=crash)
    rows = warned(bookings=two_lines({"client_id": "Bea"}))
    assert [row["code"] for row in rows] == ["check_failed", "lines_disagree"]
    assert rows[0]["message"] == "The check stylist_stops (ValueError) of bookings could not be carried out."


def test_both_checks_of_rows_that_cannot_be_made_are_said(monkeypatch: pytest.MonkeyPatch) -> None:
    lacking = bookings(visit("V1", "2026-03-02 09:00", 90, ("CUT", "40"))).drop("client_id")
    failed = warned("check_failed", bookings=lacking)
    assert {row["column"] for row in failed} == {"client_id", "starts_at"}
    assert all("lines_disagree (ColumnNotFoundError)" in row["message"] for row in failed)


def test_an_expectation_that_crashes_is_said_by_its_name(monkeypatch: pytest.MonkeyPatch) -> None:
    """Text cannot lie between numbers; Great Expectations fails on it."""
    broken(monkeypatch, "price_far_off", judged=Column("file", "number", "not a number", low=0, high=1))
    [said] = warned(bookings=priced("60"))
    assert said["code"] == "check_failed"
    assert "price_far_off (expect_column_values_to_be_between)" in said["message"]


def test_great_expectations_that_fails_as_a_whole_is_said_for_every_check(
    demo: tuple[dict[str, pl.DataFrame], Settings], monkeypatch: pytest.MonkeyPatch
) -> None:
    def crash(*_: object) -> list[Any]:
        raise RuntimeError

    monkeypatch.setattr(expectations.Expectations, "results", crash)
    failed = expectations.check_crossings(*demo)["code"].to_list()
    assert failed == ["check_failed"] * sum(check.rows(*demo).height > 0 for check in expectations.CROSS_CHECKS)
    assert len(failed) > 10
    hits = expectations.check_tables({name: frame.clear(1) for name, frame in tables().items()})
    assert (set(hits["code"]), hits.height) == ({"check_failed"}, len(TABLES))


@pytest.mark.parametrize("error", [MemoryError, KeyboardInterrupt])
def test_a_full_memory_and_an_interruption_stop_the_load(
    monkeypatch: pytest.MonkeyPatch, error: type[BaseException]
) -> None:
    def crash(*_: object) -> pl.DataFrame:
        raise error

    broken(monkeypatch, "price_far_off", rows=crash)
    with pytest.raises(error):
        warned()


def test_every_row_of_one_wrong_value_is_counted_at_its_place() -> None:
    wrong = product_log(*(bowl(mixed_g=grams, left_g="5") for grams in ("30", "2000.001", "30", "2000.001", "2000")))
    hits = expectations.check_tables(tables(product_log=wrong))
    assert hits.select("code", "row", "column", "value").rows() == [
        ("out_of_range", 3, "mixed_g", "2000.001"),
        ("out_of_range", 5, "mixed_g", "2000.001"),
    ]


@run_with(deadline=None)
@given(st.lists(st.tuples(st.integers(0, 60), st.none() | st.integers(0, 60)), max_size=30))
def test_more_left_than_mixed_is_found_wherever_it_stands(grams: list[tuple[int, int | None]]) -> None:
    """The same rows as plain Python finds; what was not weighed is none of them."""
    log = product_log(*(bowl(mixed_g=str(mixed), left_g=None if left is None else str(left)) for mixed, left in grams))
    wrong = [place + 2 for place, (mixed, left) in enumerate(grams) if left is not None and left > mixed]
    judged = expectations._judged(TABLES["product_log"])["mixed_g less left_g"]
    assert log.filter(judged.made < 0)["row"].to_list() == wrong


@pytest.mark.parametrize(
    ("column", "value"), [("status", "perhaps"), ("booking_id", None), ("ends_at", datetime(2026, 3, 1))]
)
def test_what_loading_must_not_let_through_is_found(column: str, value: object) -> None:
    """An unknown word and an empty key are faults of loading itself; an end before its start is named."""
    frame = bookings(visit("V1", "2026-03-02 09:00", 90, *ROOTS_AND_CUT))
    changed = pl.when(pl.col("line") == 2).then(pl.lit(value, frame.schema[column])).otherwise(pl.col(column))
    [(code, said)] = (
        expectations.check_tables(tables(bookings=frame.with_columns(changed.alias(column))))
        .select("code", "column")
        .rows()
    )
    assert (code, said) == (("out_of_range", "starts_at") if column == "ends_at" else ("check_failed", column))


def test_a_key_that_stands_twice_is_found() -> None:
    frame = bookings(
        visit("V1", "2026-03-02 09:00", 90, ("CUT", "40")), visit("V2", "2026-03-02 09:00", 90, ("CUT", "40"))
    )
    assert expectations.check_tables(tables(bookings=frame)).is_empty()
    twice = expectations.check_tables(tables(bookings=pl.concat([frame, frame.head(1)])))
    assert twice["code"].to_list() == ["check_failed"]
