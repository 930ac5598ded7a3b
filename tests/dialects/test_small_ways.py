"""Small salons' exports as people write them: read right, or asked; the whole forty are in measure_ways.py."""

import polars as pl
import pytest

from dialects.measure_headings import exports, read_with
from dialects.measure_planted import exchanges, pairings, right
from dialects.measure_ways import WAYS, outcome
from dialects.small import small_salon

AT_ONCE = ("day_above", "blanks_below", "side_by_side", "recipe_notes", "two_tables", "by_blanks", "cents_unsaid")
AT_ONCE += ("payments_in_cents", "headless", "in_yen", "log_below_products")
ASKED = ("unnamed_amounts", "booked_beside_start", "price_for_discount", "sections_in_sections")
SEED = 5


@pytest.mark.parametrize("name", AT_ONCE)
def test_is_right_at_once(name: str) -> None:
    way = next(way for way in WAYS if way.name == name)
    assert outcome(way, SEED).kind == "right"


@pytest.mark.parametrize("name", ASKED)
def test_is_asked_in_a_sentence_and_right_after_the_answer(name: str) -> None:
    way = next(way for way in WAYS if way.name == name)
    found = outcome(way, SEED)
    assert found.kind == "answered"
    assert found.says.split(" || ")[0].endswith(".") and "?" in found.says


@pytest.mark.parametrize(
    ("table", "column", "heading"),
    [
        ("product_log", "logged_at", "Tijdstip"),
        ("product_log", "logged_at", "Horodatage"),
        ("bookings", "service_id", "Xyz"),
        ("clients", "phone", "Xyz"),
        ("payments", "method", "Xyz"),
    ],
)
def test_values_say_what_an_unknown_heading_means(table: str, column: str, heading: str) -> None:
    tables = exports(small_salon(SEED, "en"))
    assert read_with(tables, table, column, heading) == (table, column)


def test_no_pairing_that_was_planted_to_mislead_is_used() -> None:
    used = [one for seed in (7, 8) for one in pairings(seed)[0]]
    assert used and pl.Series([right(*one) for one in used]).all()


def test_columns_exchanged_under_true_headings_are_not_used_as_they_stand() -> None:
    assert not [one for one in exchanges(9) if one[-1]]
