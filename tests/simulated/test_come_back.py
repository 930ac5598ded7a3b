"""Who comes back, in salons whose future is known: many who never come twice, weekly clients, growth, few clients."""

from dataclasses import replace
from datetime import date, timedelta
from functools import cache

import numpy as np
import polars as pl
import pytest
from simulated.lives import END, SALONS, live

from analytics.records.clients.habits import Habits
from analytics.records.clients.rhythm import habits

KNOWN = {
    "fickle": replace(SALONS["rebooked"], clients=150, new_per_year=0.8, first_stop=0.4),
    "weekly": replace(
        SALONS["steady"], clients=120, years=1.5, kinds={"root_touch_up": (0.5, 7, 0.05), "full_colour": (0.5, 40, 0.2)}
    ),
    "growing": replace(SALONS["young"], clients=60, new_per_year=2.5, first_stop=0.3),
}
ORIGINS = (END - timedelta(days=181), END)
CLIENT = ["site", "client_id"]


@cache
def asked(salon: str) -> list[tuple[Habits, pl.DataFrame]]:
    """What was said on two evenings, and for the same clients the day each came next and how often within 90 days."""
    visits = live(KNOWN[salon], seed=21).visits.with_columns(site=pl.lit("")).unique(["client_id", "day"], keep="first")
    visits, day, answers = visits.sort("client_id", "day"), pl.col("day"), []
    for origin in ORIGINS:
        said = habits(visits.filter(day <= origin), origin)
        soon = (day <= origin + timedelta(days=90)).sum()
        later = visits.filter(day > origin).group_by(CLIENT).agg(came_on=day.min(), came=soon)
        answers.append((said, said.clients.join(later, on=CLIENT, how="left", maintain_order="left")))
    return answers


def rows(salon: str) -> pl.DataFrame:
    parts = [
        came.join(said.expected(), on=CLIENT, maintain_order="left").with_columns(
            chance=pl.Series(said.within(90)), visits=said.visits_within(90), came=pl.col("came").fill_null(0)
        )
        for said, came in asked(salon)
    ]
    return pl.concat(parts)


@pytest.mark.parametrize("salon", KNOWN)
class TestSalons:
    def test_chances_are_worth_far_more_than_the_base_rate(self, salon: str) -> None:
        said, share = rows(salon), (rows(salon)["came"] > 0).mean()
        brier = ((said["chance"] - (said["came"] > 0).cast(pl.Float64)) ** 2).mean()
        assert brier <= 0.25 * share * (1 - share)  # type: ignore[operator]

    def test_who_came_once_is_told_from_who_is_between_two_visits(self, salon: str) -> None:
        once = rows(salon).filter(pl.col("gaps") == 0)
        assert once["chance"].mean() == pytest.approx((once["came"] > 0).mean(), abs=0.05)

    def test_visits_to_come_add_up(self, salon: str) -> None:
        said = rows(salon)
        assert said["visits"].sum() == pytest.approx(said["came"].sum(), rel=0.05)

    def test_ranges_hold_eighty_percent(self, salon: str) -> None:
        back = rows(salon).drop_nulls("came_on")
        inside = back["came_on"].is_between(back["expected_low_on"], back["expected_high_on"]).mean()
        assert 0.74 <= inside <= 0.86  # type: ignore[operator]


@pytest.mark.parametrize("scatter", [0.05, 0.15])
def test_sixty_weekly_clients_come_about_sixty_times_a_week(scatter: float) -> None:
    draws, rows = np.random.default_rng(8), []
    for number in range(60):
        ago = 280.0 - draws.uniform(0, 7)
        while ago >= 0:
            rows.append(("", f"C{number}", "root_touch_up", END - timedelta(days=round(ago))))
            ago -= 7 * float(np.exp(draws.normal(0, scatter)))
    frame = pl.DataFrame(rows, schema=[*CLIENT, "kind", "day"], orient="row").unique(maintain_order=True)
    said = habits(frame, END, ranges=False)
    assert said.visits_within(84).sum() / 12 == pytest.approx(60, abs=3)
    assert said.visits_within(7).sum() == pytest.approx(60, abs=4)


@pytest.mark.parametrize("days", [60, 240, 420])
def test_twenty_clients_of_a_young_salon_get_sensible_days(days: int) -> None:
    """Ranges within the year, none before tomorrow, and wider than a few days: with so few nobody is sure."""
    lives = live(replace(SALONS["small"], clients=20, years=days / 365), seed=5)
    visits = lives.visits.with_columns(site=pl.lit("")).filter(pl.col("day") <= END).sort("client_id", "day")
    said = habits(visits, END).expected()
    assert (said["expected_low_on"] > END).all() and (said["expected_high_on"] <= date(END.year + 1, 6, 15)).all()
    width = (said["expected_high_on"] - said["expected_low_on"]).dt.total_days()
    assert 7 <= width.median() <= 120  # type: ignore[operator]
