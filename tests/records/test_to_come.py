"""How busy the coming weeks will be against the last."""

from datetime import date, datetime, timedelta

import pytest
from frames import bookings, services, settings, visit

from analytics.records.clients.to_come import busier

MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"})
TODAY = date(2026, 4, 1)
EVERY_DAY = settings(hours=dict.fromkeys(("mon", "tue", "wed", "thu", "fri", "sat", "sun"), "09:00-18:00"))


def seen(first: date = date(2025, 4, 1), shut: tuple[date, date] = (TODAY, TODAY), clients: int = 56) -> list:
    """Each client every four weeks, two of them a day; none while the salon is shut."""
    made = []
    for client in range(clients):
        at = datetime(first.year, first.month, first.day, 9 + client % 2) + timedelta(days=client // 2)
        while at.date() < TODAY:
            if not shut[0] <= at.date() < shut[1]:
                made.append(visit(f"V{client} {at:%j%y}", str(at), 60, ("ROOTS", "1"), client_id=f"C{client:02}"))
            at += timedelta(weeks=4)
    return made


def factor(visits: list, as_of: date = TODAY) -> float | None:
    return busier(bookings(*visits), MENU, EVERY_DAY, as_of, back=8, weeks=5)


def test_steady_clients_keep_coming() -> None:
    assert factor(seen()) == pytest.approx(1, abs=0.15)


def test_weeks_in_which_the_salon_was_shut_do_not_make_the_coming_ones_quiet() -> None:
    """Three of the last eight weeks were shut: the five others tell 8 ÷ 5 of it."""
    assert factor(seen(shut=(date(2026, 2, 16), date(2026, 3, 9)))) == pytest.approx(1.6, abs=0.3)


def test_too_young_too_old_and_too_few_say_nothing() -> None:
    assert factor(seen(first=date(2025, 12, 1))) is None
    assert factor(seen(), as_of=date(2026, 6, 1)) is None
    assert factor(seen(clients=8)) is None


def test_visits_are_counted_whether_or_not_clients_are_told_apart() -> None:
    alike = [[line | {"client_id": "Walk-in"} for line in lines] for lines in seen()]
    assert factor(alike) == factor(seen())
