"""Headings that mean no column are said once, where something stands under them and nobody has said that it does not
matter."""

from pathlib import Path

import pytest
from salons import BOOKINGS, MENU, ONE_VISIT, SETTINGS, load_unchecked, write_salon

WITH_NOTES = ONE_VISIT.replace("price\n", "price,Mood,Shoe\n").replace("60.00\n", "60.00,merry,\n")
SAID = "Nothing that stands under 'Mood' in bookings.csv was used, since it means no column we know."


def said(folder: Path, exports: dict[str, str | bytes], settings: str = SETTINGS) -> list[str]:
    found = load_unchecked(write_salon(folder, exports, settings)).findings
    return found.filter(code="heading_not_used")["message"].to_list()


def test_what_stands_under_a_heading_unknown_to_us_is_said_and_an_empty_column_is_not(tmp_path: Path) -> None:
    assert said(tmp_path, {"bookings.csv": WITH_NOTES}) == [SAID]


def test_every_month_has_the_same_headings_and_one_sentence_says_so(tmp_path: Path) -> None:
    april = WITH_NOTES.replace("B1", "B2").replace("2026-03", "2026-04")
    assert said(tmp_path, {"bookings.csv": WITH_NOTES, "bookings_april.csv": april}) == [SAID]


@pytest.mark.parametrize("means", ["", "stylist"])
def test_salon_toml_has_the_last_word(tmp_path: Path, means: str) -> None:
    settings = f'{SETTINGS}\n[columns.bookings]\n"Mood" = "{means}"\n'
    assert said(tmp_path, {"bookings.csv": WITH_NOTES}, settings) == []


def test_the_contracts_own_columns_and_a_file_with_headings_only_say_nothing(tmp_path: Path) -> None:
    assert said(tmp_path, {"menu.csv": MENU, "more.csv": BOOKINGS.replace("price", "price,Mood")}) == []


def test_of_very_many_headings_some_are_named(tmp_path: Path) -> None:
    names = [f"Mood {letter}" for letter in "ABCDEFGHIJKLMNOP"]
    wide = ONE_VISIT.replace("price\n", f"price,{','.join(names)}\n").replace("60.00\n", "60.00" + ",x" * 16 + "\n")
    (sentence,) = said(tmp_path, {"bookings.csv": wide})
    assert "'Mood L' and 4 more" in sentence and "Mood M" not in sentence
