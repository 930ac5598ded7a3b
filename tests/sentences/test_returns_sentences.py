"""Who comes back, in words: each answer written by hand."""

from typing import Any

import polars as pl

from analytics.catalogue import result
from analytics.sentences import returns as said
from analytics.settings import parse_settings

SALON = parse_settings('[salon]\nname = "S"')


def curves(*rows: dict[str, Any]) -> pl.DataFrame:
    schema = result("return_curves").schema
    return pl.DataFrame([{name: row.get(name) for name in schema} for row in rows], schema=schema)


def group(split: str, name: str, week: int, share: float | None = 0.0, **more: Any) -> dict[str, Any]:
    band = {} if not share else {"returned_low": share - 0.05, "returned_high": share + 0.05}
    return {"split": split, "name": name, "week": week, "returned": share, "clients": 40, "at_risk": 9, **band, **more}


EVERYBODY = [group("everybody", "everybody", week, share, median_days=63) for week, share in ((0, 0.0), (8, 0.45))]


def test_the_share_its_band_the_median_and_whether_the_last_quarter_is_as_usual() -> None:
    calm = curves(*EVERYBODY, group("cohort", "2026-Q2", 8, 0.9), group("cohort", "2026-Q3", 8, 0.48, differs=False))
    assert said.returns_sentence(calm, SALON) == (
        "45% of new clients are back within 8 weeks (40%–50%); half have returned after 63 days. "
        "Of those of the third quarter of 2026 it is 48% (43%–53%): as usual."
    )
    low = group("cohort", "2026-Q3", 8, 0.3, differs=True)
    unusual = curves(*EVERYBODY, low, group("cohort", "2026-Q4", 8, 0.5))
    assert said.returns_sentence(unusual, SALON).endswith("the third quarter of 2026 it is 30% (25%–35%): unusual.")


def test_a_book_without_new_clients_says_why_and_does_not_say_that_nobody_came() -> None:
    """Where everybody was first seen in its first half year, only quarters have a curve."""
    assert said.returns_sentence(curves(group("cohort", "2025-Q2", 0), group("cohort", "2025-Q2", 8, 0.5)), SALON) == (
        "Whether new clients come back cannot be said yet: all were first seen in the first half year on record, and "
        "most of those had come before it begins. By quarter they stand below."
    )


def test_too_early_and_nobody_are_said() -> None:
    assert said.returns_sentence(curves(EVERYBODY[0]), SALON) == (
        "Nobody of the 40 new clients was followed for 8 weeks yet, so it is too early to say how many come back."
    )
    assert said.returns_sentence(curves(), SALON) == (
        "No visit that happened is on record yet, so nobody can have come back."
    )


def test_a_median_that_was_not_reached_is_said_so() -> None:
    assert said.median_words(None, SALON) == "not reached yet"
    assert said.median_words(1, SALON) == "1 day"
    open_end = curves(*[row | {"median_days": None} for row in EVERYBODY])
    assert "half of them have not returned yet." in said.returns_sentence(open_end, SALON)


def test_a_group_says_what_it_rests_on() -> None:
    frame = curves(
        *[group("kind", "root_touch_up", week, share, median_days=35) for week, share in ((0, 0.0), (8, 0.7))]
    )
    assert said.group_sentence(frame, "kind", "root_touch_up", SALON) == (
        "Root touch-up, 40 clients: 70% back within 8 weeks (65%–75%); half have returned after 35 days; "
        "9 are still waited for at 8 weeks."
    )
    assert said.group_sentence(curves(group("stylist", "Mila", 0)), "stylist", "Mila", SALON) == (
        "Mila, 40 clients: nobody was followed for 8 weeks yet."
    )
    assert said.group_sentence(frame, "kind", "cut", SALON) == ""
