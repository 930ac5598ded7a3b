"""Who falls due while the salon is shut, on clients who come every six weeks, give or take two days."""

from datetime import date, timedelta

import numpy as np
import polars as pl
import pytest
from frames import settings

from analytics.records.clients.around_closed import pending, spells
from analytics.records.clients.habits import Habits
from analytics.records.clients.rhythm import habits
from analytics.records.clock import Clock, clock_of
from analytics.records.salon_days import EPOCH
from analytics.settings import Hours

FIRST, GAP = date(2023, 1, 4), 42
SHUT = [(date(year, month, 1), days) for year in (2023, 2024, 2025, 2026) for month, days in ((3, 9), (8, 14))]
CLOSED = [first + timedelta(days=step) for first, days in SHUT for step in range(days)]
OPEN = dict.fromkeys(("mon", "tue", "wed", "thu", "fri", "sat", "sun"), "09:00-18:00")
HOURS: Hours = settings(hours=OPEN | {"closed": [f"{day}" for day in CLOSED]}).hours


def gone(day: date, before: bool) -> date:
    while day in CLOSED:
        day += timedelta(days=-1 if before else 1)
    return day


def visits(before: float, until: date) -> pl.DataFrame:
    """240 clients, every 40 to 44 days each; of those due on a closed day a share comes on the last day before it, the
    others on the first after it."""
    draws, rows = np.random.default_rng(1), []
    for number in range(240):
        day = gone(FIRST + timedelta(days=number % GAP), before=False)
        while day <= until:
            rows.append(("", f"C{number:03}", "root_touch_up", day))
            day = gone(day + timedelta(days=GAP + int(draws.integers(-2, 3))), before=draws.random() < before)
    return pl.DataFrame(rows, schema=["site", "client_id", "kind", "day"], orient="row").sort("client_id", "day")


def told(before: float, as_of: date) -> tuple[Habits, Clock]:
    came = visits(before, as_of)
    clock = clock_of(came.group_by("day").agg(visits=pl.len()).sort("day"), HOURS, as_of)
    return habits(came, as_of, clock, ranges=False), clock


def chances(said: Habits, day: date, due: tuple[date, date]) -> float:
    """Mean chance of a day, among clients whose 42 days are over between two days."""
    last = said.clients["last_on"] + timedelta(days=GAP)
    return float(said.ahead[last.is_between(*due).to_numpy(), (day - said.as_of).days - 1].mean())


MIDST = (date(2026, 3, 3), date(2026, 3, 7))  # of the spell from 1 to 9 March 2026


@pytest.mark.parametrize(("before", "least", "most"), [(0.0, 0.0, 0.15), (0.5, 0.3, 0.7), (1.0, 0.7, 1.0)])
def test_who_falls_due_goes_where_clients_went_before(before: float, least: float, most: float) -> None:
    said, _ = told(before, date(2026, 2, 20))
    sides = [chances(said, day, MIDST) for day in (date(2026, 2, 28), date(2026, 3, 10))]
    assert sum(sides) >= 0.6
    assert least <= sides[0] / sum(sides) <= most
    assert not said.expected()["expected_on"].is_in(CLOSED).any()


def test_who_is_not_due_in_the_spell_keeps_to_her_days() -> None:
    said, _ = told(0.0, date(2026, 2, 20))
    later = said.clients.filter(
        (pl.col("last_on") + timedelta(days=GAP)).is_between(date(2026, 3, 16), date(2026, 3, 30))
    )
    expected = later.join(said.expected(), on=["site", "client_id"])
    off = (expected["expected_on"] - expected["last_on"]).dt.total_days() - GAP
    assert off.abs().max() <= 1  # type: ignore[operator]


def test_on_its_last_day_those_who_fell_due_in_it_are_still_to_come() -> None:
    said, clock = told(0.0, date(2026, 3, 9))
    assert pending(clock, (said.as_of - EPOCH).days) == 9
    assert chances(said, date(2026, 3, 10), MIDST) >= 0.6


def test_spells_have_their_open_days_on_either_side() -> None:
    _, clock = told(0.0, date(2026, 2, 20))
    first, last = ((day - EPOCH).days for day in (date(2026, 3, 1), date(2026, 3, 31)))
    (spell,) = spells(clock, first, last)
    assert (spell.days[0] - first, len(spell.days), spell.short) == (0, 9, False)
    assert (spell.before[0], spell.after[0]) == (first - 1, first + 9)
