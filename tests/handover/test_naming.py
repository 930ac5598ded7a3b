"""Periods by name: months, quarters, years, and days."""

from datetime import date

import pytest
from frames import days, settings

from analytics.handover.accountant.period_names import named_period, period_name, period_words, periods_of
from analytics.stops import WorkStopped


@pytest.mark.parametrize(
    ("name", "first", "after", "words"),
    [
        ("2026", "2026-01-01", "2027-01-01", "2026"),
        ("2026-Q3", "2026-07-01", "2026-10-01", "July 2026 to September 2026"),
        ("2026-Q4", "2026-10-01", "2027-01-01", "October 2026 to December 2026"),
        ("2028-02", "2028-02-01", "2028-03-01", "February 2028"),
        ("2026-07-03_to_2026-07-05", "2026-07-03", "2026-07-06", "3 July 2026 to 5 July 2026"),
        ("2026-02-01_to_2026-04-30", "2026-02-01", "2026-05-01", "1 February 2026 to 30 April 2026"),
    ],
)
def test_a_name_and_its_days(name: str, first: str, after: str, words: str) -> None:
    period = days(first, after)
    assert period_name(period) == name
    assert period_words(period, settings()) == words
    if "_to_" not in name:
        assert named_period(name) == named_period(name.lower()) == period


@pytest.mark.parametrize("text", ["2026-Q5", "2026-13", "26", "2026-Q", "Q3-2026", "2026-03-01", "", "3026"])
def test_what_is_no_period(text: str) -> None:
    with pytest.raises(WorkStopped, match="2026-Q3, 2026-09 or 2026"):
        named_period(text)


def test_periods_of_a_book_newest_first() -> None:
    found = periods_of(days("2025-11-01", "2026-03-01"))
    assert found["Month"] == ["2026-02", "2026-01", "2025-12", "2025-11"]
    assert (found["Quarter"], found["Year"]) == (["2026-Q1", "2025-Q4"], ["2026", "2025"])
    assert named_period(found["Quarter"][0]).start == date(2026, 1, 1)
