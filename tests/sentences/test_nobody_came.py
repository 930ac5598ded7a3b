"""That nobody came for four weeks is said beside the dates of clients, and not where the days are listed as closed."""

from datetime import date, timedelta

import pytest
from figures.root_clients import coloured, roots
from frames import settings

from analytics.sentences.roots import nobody_came

LAST = date(2026, 3, 2)
DAYS = [LAST - timedelta(days=number) for number in range(200)]
SEEN = [
    coloured(f"V{number}", f"{day}", client_id=f"C{number % 40}")
    for number, day in enumerate(day for day in DAYS if day.weekday() != 6)
]
SHUT = {"closed": [f"{LAST + timedelta(days=number)}" for number in range(1, 40)]}
OPEN = dict.fromkeys(("mon", "tue", "wed", "thu", "fri", "sat"), "09:00-18:00")


def said(as_of: date, closed: bool) -> list[str]:
    salon = settings(hours=OPEN | (SHUT if closed else {}))
    rows = roots(*SEEN, as_of=f"{as_of}", salon=salon)
    assert len(rows) == 40
    return nobody_came(rows, salon)


@pytest.mark.parametrize(("days", "closed", "sentences"), [(24, False, 0), (35, False, 1), (35, True, 0)])
def test_is_said_after_four_weeks_in_which_the_salon_was_open(days: int, closed: bool, sentences: int) -> None:
    found = said(LAST + timedelta(days=days), closed)
    assert len(found) == sentences
    for sentence in found:
        assert "since 2 March 2026" in sentence
        assert "closed in salon.toml" in sentence
