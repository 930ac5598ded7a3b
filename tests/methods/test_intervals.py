"""Time on a chair: joined where it overlaps, cut to spans."""

from datetime import datetime, timedelta

import polars as pl
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.methods.intervals import hours, total_hours, union, within

MIDNIGHT = datetime(2026, 3, 3)
Spans = list[tuple[int, int]]


def frame(spans: Spans, names: tuple[str, str] = ("starts", "ends"), chair: str = "Window") -> pl.DataFrame:
    """Hours after midnight."""
    ends = [[MIDNIGHT + timedelta(hours=span[side]) for span in spans] for side in (0, 1)]
    times = {name: pl.Series(values, dtype=pl.Datetime("us")) for name, values in zip(names, ends, strict=True)}
    return pl.DataFrame({"chair": [chair] * len(spans)} | times, schema_overrides={"chair": pl.String()})


def spans(answer: pl.DataFrame) -> Spans:
    return [
        tuple(int((at - MIDNIGHT) / timedelta(hours=1)) for at in row)
        for row in answer.sort("starts").select("starts", "ends").iter_rows()
    ]


def joined(*given: tuple[int, int]) -> Spans:
    return spans(union(frame(list(given)), ["chair"]))


def test_what_overlaps_or_touches_is_one() -> None:
    assert joined((9, 11), (10, 12)) == [(9, 12)]
    assert joined((9, 10), (10, 12)) == [(9, 12)]
    assert joined((9, 10), (11, 12)) == [(9, 10), (11, 12)]


def test_a_long_interval_holds_several_short_ones() -> None:
    assert joined((9, 18), (10, 11), (12, 13), (17, 19)) == [(9, 19)]


def test_intervals_without_length_are_dropped() -> None:
    assert joined((9, 9), (12, 10)) == []


def test_chairs_are_joined_apart() -> None:
    both = pl.concat([frame([(9, 11)]), frame([(10, 12)], chair="Mirror")])
    assert spans(union(both, ["chair"])) == [(9, 11), (10, 12)]


def test_what_lies_within_spans() -> None:
    opening = frame([(9, 12), (13, 18)], ("opens", "closes")).drop("chair")
    assert spans(within(frame([(8, 14), (12, 13), (17, 20)]), opening)) == [(9, 12), (13, 14), (17, 18)]


def test_no_intervals_and_no_spans() -> None:
    none = frame([])
    assert union(none, ["chair"]).is_empty()
    assert within(frame([(9, 10)]), frame([], ("opens", "closes")).drop("chair")).is_empty()
    assert within(none, frame([(9, 10)], ("opens", "closes")).drop("chair")).is_empty()


@effort(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 60), st.integers(0, 60)), max_size=8))
def test_the_union_is_the_hours_that_any_interval_holds(given: Spans) -> None:
    held = {hour for start, end in given for hour in range(start, end)}
    answer = union(frame(given), ["chair"])
    assert answer.select(hours(pl.col("starts"), pl.col("ends")).sum()).item() == len(held)
    assert {hour for start, end in spans(answer) for hour in range(start, end)} == held


def test_hours_add_up_to_the_same_bits_in_whatever_order() -> None:
    """0.1 + 0.2 + 0.3 is 0.6 or 0.6000000000000001, as they come."""
    parts = pl.DataFrame({"length": [0.1, 0.2, 0.3, None]})
    sums = {
        parts.sample(fraction=1, shuffle=True, seed=seed).select(total_hours(pl.col("length"))).item()
        for seed in range(20)
    }
    assert sums == {0.6}
