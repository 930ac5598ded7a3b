"""What is said of the weeks ahead, from what came and what is booked."""

from datetime import date, timedelta

import numpy as np
import polars as pl
import pytest
from frames import bookings, settings, visit

from analytics.methods.scores import pinball
from analytics.records.clients.week_scores import week_scores
from analytics.records.clients.weeks_ahead import WEEKS, booked_by_then, came, hours_after, reckoned
from analytics.records.clients.weeks_drawn import Chairs, drawn, misses, month_ends
from analytics.records.clients.weeks_said import ROWS, naive_error, of_each_week, weeks_replayed, year_before

HOURS = dict.fromkeys(("tue", "wed", "thu", "fri", "sat"), "09:00-18:00")
SALON = settings(hours=HOURS, salon={"chairs": ["Chair 1", "Chair 2"]})
FIRST, LAST = date(2024, 1, 2), date(2026, 1, 31)  # a Tuesday and a Saturday
LEAD = timedelta(days=10)


def diary(first: date = FIRST, last: date = LAST, a_day: int = 4, lead: timedelta = LEAD) -> pl.DataFrame:
    """Four visits of an hour and a half each open day; two of them were booked so long before, two walked in."""
    lines = []
    for step in range((last - first).days + 1):
        day = first + timedelta(days=step)
        for number in range(a_day if SALON.hours.of(day) else 0):
            booked_on = f"{day - lead}" if number % 2 else f"{day}"
            at, chair = f"{day} {10 + number:02}:00", f"Chair {number % 2 + 1}"
            lines.append(visit(f"{day}/{number}", at, 90, ("CUT", "1"), booked_on=booked_on, chair=chair))
    return bookings(*lines)


STEADY = diary()


def test_visits_that_came_with_the_day_they_were_booked_on() -> None:
    visits = came(STEADY, SALON)
    assert len(visits.day) == STEADY.height and visits.noted
    assert (visits.hours == 1.5).all()
    assert sorted(set((visits.day - visits.booked_on).tolist())) == [0, 10]


def test_weeks_by_hand() -> None:
    """On Thursday 8 January two days are left of the week; of each, half was booked ten days before."""
    visits, day = came(STEADY, SALON), date(2026, 1, 8)
    assert hours_after(visits, day)[:4].tolist() == [12, 30, 30, 30]
    assert booked_by_then(visits, day).tolist() == [6, 15, 0, *[0] * 10]  # up to Sunday 18 January


def test_a_steady_salon_goes_on() -> None:
    day = date(2026, 1, 8)
    visits = came(STEADY, SALON)
    said = reckoned(visits, SALON.hours, day, booked_by_then(visits, day))
    assert said.hours[:4] == pytest.approx([12, 30, 30, 30], rel=0.03)
    assert not said.stale and said.visit_hours == 1.5


def test_a_near_week_with_little_booked_brings_less_and_a_far_one_does_not() -> None:
    day = date(2026, 1, 11)
    visits = came(STEADY, SALON)
    usual = booked_by_then(visits, day)
    less = usual - np.array([0, 9, *[0] * 11])
    said, with_less = (reckoned(visits, SALON.hours, day, booked) for booked in (usual, less))
    assert with_less.hours[1] == pytest.approx(said.hours[1] - 9, abs=2)
    assert with_less.hours[2:] == pytest.approx(said.hours[2:])


def test_without_days_of_booking_no_less_is_said_than_is_booked() -> None:
    silent = STEADY.with_columns(booked_on=pl.lit(None, pl.Date))
    visits = came(silent, SALON)
    assert not visits.noted
    said = reckoned(visits, SALON.hours, date(2026, 1, 11), np.array([0.0, 44.0, 3.0, *[0.0] * 10]))
    assert said.hours[1] == 44
    assert said.hours[2] == pytest.approx(30, rel=0.03)


def test_nothing_dated_later_is_used() -> None:
    day = date(2025, 6, 30)
    before, after = diary(last=day), diary(first=day + timedelta(days=1), a_day=9, lead=timedelta(0))
    longer = after.with_columns(minutes=pl.lit(200.0))
    cut, whole = came(before, SALON), came(pl.concat([before, longer]), SALON)
    booked = booked_by_then(came(STEADY, SALON), day)
    one, other = (reckoned(visits, SALON.hours, day, booked) for visits in (cut, whole))
    assert np.array_equal(one.hours, other.hours) and np.array_equal(one.spread, other.spread)
    assert np.array_equal(misses(cut, SALON, day), misses(whole.up_to(int(cut.day[-1])), SALON, day))


def test_where_nobody_came_for_four_weeks_only_what_is_booked_is_said() -> None:
    booked = np.array([0.0, 3.0, *[0.0] * 11])
    visits = came(STEADY, SALON)
    said = [reckoned(visits, SALON.hours, LAST + timedelta(days=days), booked) for days in (21, 35)]
    assert [each.stale for each in said] == [False, True]
    assert np.array_equal(said[1].hours, booked)


def chairs(hours: float, full: tuple[float, float] = (1.0, 1.0)) -> Chairs:
    return Chairs(np.full(WEEKS, hours), full, np.zeros(WEEKS))


def test_a_full_week_holds_what_full_weeks_have_held() -> None:
    luck = np.array([[0.0, 0.5, 1.0]])
    some = Chairs(np.array([100.0, 100.0, 100.0]), (0.9, 0.96), np.array([0.0, 95.0, 0.0]))
    assert some.hold(luck).tolist() == [[90, 95, 96]]


def test_a_week_of_two_days_may_be_fuller_or_less_full_than_whole_ones() -> None:
    least, most = of_each_week(np.array([90.0, 36.0, 0.0, 54.0]), (0.95, 0.97))
    assert least.tolist() == [0.95, 0.9, 0.9, 0.95]
    assert most.tolist() == [0.97, 1.0, 1.0, 0.97]


def test_ranges_are_cut_at_what_the_chairs_hold_and_what_is_wanted_is_told_beside_it() -> None:
    day = date(2026, 1, 11)
    visits = came(STEADY, SALON)
    said = reckoned(visits, SALON.hours, day, booked_by_then(visits, day))
    wide, tight = (drawn(said, np.ones(WEEKS), chairs(hours)) for hours in (90.0, 20.0))
    assert (tight.high <= 20).all() and (tight.wanted_low[1:] > 20).all()
    assert np.array_equal(wide.wanted_low, tight.wanted_low)
    assert (wide.low[1:] < said.hours[1:]).all() and (said.hours[1:] < wide.high[1:]).all()
    assert wide.expected[1:] == pytest.approx(said.hours[1:], rel=0.01)


def test_month_ends_with_half_a_year_before_and_a_week_after_them() -> None:
    visits = came(STEADY, SALON)
    ends = month_ends(visits, LAST)
    assert (len(ends), ends[0], ends[-1]) == (12, date(2025, 12, 31), date(2025, 1, 31))
    assert month_ends(visits, date(2024, 9, 10)) == [date(2024, 8, 31), date(2024, 7, 31)]


def test_a_reckoning_that_was_never_far_off_narrows_its_ranges() -> None:
    assert (misses(came(STEADY, SALON), SALON, LAST)[1:] < 0.6).all()
    assert (misses(came(diary(last=date(2024, 6, 1)), SALON), SALON, date(2024, 6, 1)) == 1).all()


def test_replayed_weeks_hold_what_came_against_the_rules() -> None:
    rows = weeks_replayed(STEADY, SALON, LAST)
    assert rows.schema == pl.Schema(ROWS)
    full = rows.filter(origin=date(2025, 6, 30), weeks_ahead=3).row(0, named=True)
    assert full["week_start"] == date(2025, 7, 21)
    assert (full["came"], full["same_week_last_year"], full["last_12_weeks"]) == (30, 30, 30)
    assert rows["origin"].n_unique() == 12 and rows["weeks_ahead"].max() == 12


def test_growth_is_that_of_the_last_twelve_weeks() -> None:
    """Four visits a day for a year, then six: the week a year before times six fourths."""
    grown = pl.concat([diary(last=date(2025, 1, 4)), diary(first=date(2025, 1, 7), a_day=6)])
    rows = weeks_replayed(grown, SALON, LAST).filter(origin=date(2025, 10, 31), weeks_ahead=2)
    assert rows["same_week_last_year"].to_list() == [45]
    assert rows["naive_error"].to_list() == [15]  # 45 hours, where the same week a year before had 30
    assert year_before(came(grown, SALON), date(2024, 6, 1)) == [None] * WEEKS


def test_scores_by_hand() -> None:
    """Two weeks: 10 and 20 came; 12 and 19 were expected, between 11 and 13, and between 15 and 25.

    A naive forecast had been off by 4 hours a week when the first was said, and by 2 when the second was.
    """
    rows = pl.DataFrame(
        [
            (FIRST, FIRST, 2, 10.0, 12.0, 11.0, 13.0, None, 13.0, 4.0),
            (FIRST, FIRST, 3, 20.0, 19.0, 15.0, 25.0, None, 16.0, 2.0),
        ],
        schema=ROWS,
        orient="row",
    )
    scores = week_scores(rows)
    assert scores["method"].unique().sort().to_list() == ["ahead", "last_12_weeks"]
    ours, rule = (
        scores.filter(group="weeks_2_to_12", method=method).row(0, named=True) for method in scores["method"][:2]
    )
    assert (ours["n"], ours["mean_error_hours"], ours["share_inside"]) == (2, 1.5, 0.5)
    first, second = (0.9 * 1 + 0.5 * 2 + 0.1 * 3) / 3, (0.1 * 5 + 0.5 * 1 + 0.1 * 5) / 3
    assert ours["pinball_hours"] == pytest.approx((first + second) / 2)
    assert (rule["mean_error_hours"], rule["pinball_hours"], rule["share_inside"]) == (3.5, 1.75, None)
    assert (ours["mase"], rule["mase"]) == ((2 / 4 + 1 / 2) / 2, (3 / 4 + 4 / 2) / 2)
    assert week_scores(rows.clear()).is_empty()


def test_an_error_is_scaled_by_nothing_where_the_book_is_young() -> None:
    """52 weeks and twelve more are needed; of one week fewer there is no naive error."""
    visits = came(STEADY, SALON)
    assert naive_error(visits, FIRST + timedelta(weeks=65)) == 0
    assert naive_error(visits, FIRST + timedelta(weeks=64)) is None


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_the_pinball_loss_is_lowest_at_its_quantile(share: float) -> None:
    numbers = pl.DataFrame({"came": np.arange(1.0, 101.0)})
    losses = {
        said: numbers.select(pinball(pl.lit(said), pl.col("came"), share).mean()).item() for said in range(1, 101)
    }
    best = min(losses, key=lambda said: losses[said])
    assert best == pytest.approx(100 * share, abs=1)
