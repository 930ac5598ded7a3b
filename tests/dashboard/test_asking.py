"""A tap on the stylist's list is one mark, however often the page runs it."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from analytics.storage.asked import NO_ANSWER, NOT_NOW, TAKEN_BACK, read_marks
from dashboard.data import Reading
from dashboard.parts import asking

TODAY = date(2026, 11, 1)


def tap(monkeypatch: pytest.MonkeyPatch, folder: Path, answer: str | None, today: date = TODAY) -> None:
    monkeypatch.setattr(asking.st, "session_state", {"key": answer})
    asking._mark(Reading(folder, today), "", "C1", "Mila", "key")


def test_a_tap_that_runs_twice_is_one_mark(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    for answer in (None, NO_ANSWER, NO_ANSWER, NOT_NOW, None, None):
        tap(monkeypatch, tmp_path, answer)
    assert [mark.answer for mark in read_marks(tmp_path).marks] == [NO_ANSWER, NOT_NOW, TAKEN_BACK]


def test_the_same_answer_on_another_day_is_another_mark(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    for day in (TODAY, TODAY + timedelta(days=1)):
        tap(monkeypatch, tmp_path, NO_ANSWER, day)
    assert [mark.day for mark in read_marks(tmp_path).marks] == [TODAY, TODAY + timedelta(days=1)]
