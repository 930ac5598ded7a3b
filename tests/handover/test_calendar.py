"""Calendar files, read back by a library of others."""

from datetime import date, timedelta

import icalendar
import pytest
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.handover.calendar import AllDay, calendar, folded

DAY = date(2026, 11, 2)


def made(summary: str = "Roots ready", description: str = "", last: date = DAY) -> bytes:
    return calendar([AllDay("1@salon-figures", DAY, last, summary, description)], DAY, "salon-figures")


def event(content: bytes) -> icalendar.Event:
    (found,) = icalendar.Calendar.from_ical(content).walk("VEVENT")
    return found


def test_an_event_lasts_whole_days_and_its_end_is_the_day_after() -> None:
    found = event(made(last=date(2026, 11, 30)))
    assert (found["DTSTART"].dt, found["DTEND"].dt) == (DAY, date(2026, 12, 1))
    assert b"DTSTART;VALUE=DATE:20261102\r\nDTEND;VALUE=DATE:20261201\r\n" in made(last=date(2026, 11, 30))
    assert str(found["UID"]) == "1@salon-figures"


def test_the_same_day_gives_the_same_bytes() -> None:
    assert made() == made()
    assert b"DTSTAMP:20261102T000000Z" in made()


def test_no_line_is_longer_than_75_octets_and_none_is_cut_within_a_sign() -> None:
    content = made("Zoë — " * 60, "é" * 400)
    assert max(len(line) for line in content.split(b"\r\n")) == 75
    assert all(line.decode() is not None for line in content.split(b"\r\n"))
    assert str(event(content)["SUMMARY"]) == "Zoë — " * 60


def test_a_line_of_75_octets_is_not_folded() -> None:
    assert folded("x" * 75) == "x" * 75
    assert folded("x" * 76) == "x" * 75 + "\r\n x"


@pytest.mark.parametrize("text", ["a; b, c", "back\\slash\\n", "one\ntwo", "END:VEVENT\nBEGIN:VEVENT", "DTEND:x"])
def test_text_stays_text(text: str) -> None:
    found = event(made(text, text))
    assert (str(found["SUMMARY"]), str(found["DESCRIPTION"])) == (text, text)


def test_a_calendar_without_events_is_a_calendar() -> None:
    assert icalendar.Calendar.from_ical(calendar([], DAY, "salon-figures"))["VERSION"] == "2.0"


@effort(max_examples=25, deadline=None)
@given(
    st.text(st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\u2028\u2029"), max_size=120),
    st.integers(0, 90),
)
def test_any_text_and_length_comes_back(text: str, days: int) -> None:
    found = event(made(text, text, DAY + timedelta(days=days)))
    assert (str(found["SUMMARY"]), (found["DTEND"].dt - found["DTSTART"].dt).days) == (text, days + 1)
