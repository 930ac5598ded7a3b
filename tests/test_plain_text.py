"""Text from data that must not act."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from analytics.plain_text import csv_line, guarded, visible


@pytest.mark.parametrize(
    "text", ["=1", " =1", "\ufeff=1", "\u200b+1+1", "\u202e@x", "\tx", "\r\n=1", "＝1", "\u200b\u00a0=1"]
)
def test_a_formula_behind_signs_that_nobody_sees_is_guarded(text: str) -> None:
    assert guarded(text) == f"'{text}"


@pytest.mark.parametrize("text", ["-12.50", "+31 6", "a=1", "", "Roots", "Café"])
def test_amounts_and_plain_text_stay(text: str) -> None:
    assert guarded(text) == (f"'{text}" if text == "+31 6" else text)


def test_what_a_terminal_would_act_on_is_shown() -> None:
    """ESC c clears a terminal, OSC 52 writes the clipboard; source: ECMA-48 and xterm's control sequences."""
    assert visible("\x1bc\x1b]52;c;aGk=\x07") == "\\x1bc\\x1b]52;c;aGk=\\x07"


@given(st.lists(st.text(), min_size=1))
def test_a_line_reads_back_as_it_was(cells: list[str]) -> None:
    assert next(csv.reader(io.StringIO(csv_line(cells), newline=""), strict=True)) == cells


def test_no_default_separator_splits_a_cell() -> None:
    assert csv_line(["a;=1", "b|@x", "c"]) == '"a;=1","b|@x",c\r\n'
