"""Rows worked out once for the same tables, and forgotten with them."""

import gc
import weakref

import polars as pl
from frames import bookings, days, services, settings, visit, work_out

from analytics.records.chairs.lines import completed_lines
from analytics.records.memo import memoised

MENU = services({"service_id": "CUT", "kind": "cut", "tax_rate": "0"})


def test_the_same_frames_are_answered_at_once_and_others_anew() -> None:
    asked = []

    @memoised
    def work(frame: pl.DataFrame, zone: str) -> pl.DataFrame:
        asked.append(zone)
        return frame.with_columns(zone=pl.lit(zone))

    one, other = pl.DataFrame({"a": [1]}), pl.DataFrame({"a": [2]})
    assert work(one, "x") is work(one, "x")
    assert work(other, "x")["a"].to_list() == [2] and work(one, "y")["zone"].to_list() == ["y"]
    assert asked == ["x", "x", "y"]


def test_an_answer_goes_with_what_it_was_made_from() -> None:
    frame = pl.DataFrame({"a": [1]})
    work = memoised(lambda given: given.select("a"))
    answer = weakref.ref(work(frame))
    assert answer() is not None
    del frame
    gc.collect()
    assert answer() is None


def test_other_settings_are_other_lines() -> None:
    book = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "121")))
    menu = services({"service_id": "CUT", "kind": "cut", "tax_rate": "21"})
    included, added = settings(), settings(tax={"prices": "added"})
    assert completed_lines(book, menu, included)["net"].to_list() == [100]
    assert completed_lines(book, menu, added)["net"].to_list() == [121]


def test_figures_of_other_frames_at_the_same_place_in_memory_are_their_own() -> None:
    """Python gives the place of a frame that is gone to the next one; many in a row would meet an old answer."""
    for price in range(60):
        book = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", str(price))))
        tax = work_out("tax", bookings=book, services=MENU, period=days("2026-03-01", "2026-04-01"))
        assert tax["gross"].to_list() == [price]
        del book, tax
