"""The past replayed: what was expected of clients at month ends, beside what the usual rules say."""

from datetime import date, timedelta

import polars as pl
import pytest
from frames import Row, bookings, only, rows_of, services, visit, work_out

from analytics.definitions.results import Work

MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"}, {"service_id": "COLOUR", "kind": "full_colour"})


def rhythm(client_id: str, first: str, *gaps: int, service: str = "ROOTS", prefix: str = "") -> list[Row]:
    day, rows = date.fromisoformat(first), []
    for number, gap in enumerate((0, *gaps)):
        day += timedelta(days=gap)
        rows += visit(f"{prefix}{client_id}{number}", f"{day} 10:00", 90, (service, "60"), client_id=client_id)
    return rows


def backtest(*visits: list[Row], work: Work = work_out, as_of: str = "2026-07-15") -> pl.DataFrame:
    return work("backtest", bookings=bookings(*visits), services=MENU, as_of=as_of)


def test_worked_by_hand() -> None:
    """Every 30 days up to 2026-07-05. At the end of March her last visit was on 7 March: she came on 6 April.

    Six weeks say 18 April, 12 days off; her own median and the average of her kind say 6 April.
    """
    rows = backtest(rhythm("Ada", "2025-01-11", *[30] * 18), work=rows_of)
    march = only(rows, origin=date(2026, 3, 31))
    assert (march["came_on"], march["came_within_90_days"], march["gaps"]) == (date(2026, 4, 6), True, 14)
    assert march["six_weeks_on"] == date(2026, 4, 18)
    assert march["visits_90_days"] == 3 and march["visits_expected_90_days"] == pytest.approx(3, abs=0.5)
    assert march["own_median_on"] == march["kind_average_on"] == date(2026, 4, 6)


def test_the_last_twelve_month_ends_with_ninety_days_known_after_them() -> None:
    rows = backtest(rhythm("Ada", "2024-01-06", *[30] * 30), work=rows_of, as_of="2026-12-31")
    last_visit = date(2024, 1, 6) + timedelta(days=900)  # 2026-06-24
    origins = rows["origin"].unique().sort().to_list()
    assert (len(origins), origins[0], origins[-1]) == (12, date(2025, 3, 31), date(2026, 2, 28))
    assert last_visit - origins[-1] >= timedelta(days=90)


def test_nothing_dated_later_is_used() -> None:
    """What is said at a month end stays as it was, whatever came after it, but for what came."""
    before = rhythm("Ada", "2024-01-06", *[30] * 30), rhythm("Bo", "2024-01-09", *[44] * 20)
    said = ["client_id", "gaps", "expected_on", "expected_low_on", "expected_high_on", "chance_of_return"]

    def at(origin: date, *more: list[Row]) -> list[tuple[object, ...]]:
        rows = backtest(*before, *more, work=rows_of, as_of="2026-12-31")
        return rows.filter(pl.col("origin") == origin).select(said).rows()

    later = rhythm("Cleo", "2026-06-01", 7, 7, 7), rhythm("Ada", "2026-06-25", 9, 9, 9, prefix="more")
    assert at(date(2026, 2, 28)) == at(date(2026, 2, 28), *later)


def test_a_rule_that_names_a_day_gone_by_says_tomorrow() -> None:
    rows = backtest(rhythm("Ada", "2025-01-11", *[30] * 10, 200), work=rows_of, as_of="2026-12-31")
    late = rows.filter(pl.col("days_since") > 42)
    rules = ("six_weeks_on", "kind_average_on", "own_median_on", "expected_on", "expected_low_on")
    assert late.height >= 2
    for rule in rules[:3]:
        assert (late[rule] - late["origin"]).dt.total_days().to_list() == [1] * late.height
    assert all((late[day] > late["origin"]).all() for day in rules)


def test_scores_add_up_what_the_rows_say() -> None:
    visits = rhythm("Ada", "2024-01-06", *[30] * 30), rhythm("Bo", "2024-01-09", *[44] * 12), rhythm("Cy", "2025-03-03")
    rows = backtest(*visits, work=rows_of)
    answer = only(backtest(*visits), group="all", method="habit")
    came = rows.drop_nulls("came_on")
    off = (came["came_on"] - came["expected_on"]).dt.total_days().abs()
    assert (answer["n"], answer["n_brier"]) == (came.height, rows.height)
    assert (answer["mean_error_days"], answer["median_error_days"]) == pytest.approx((off.mean(), off.median()))
    share = rows["came_within_90_days"].cast(pl.Float64).mean()
    assert answer["base_rate_brier"] == pytest.approx(share * (1 - share))
    miss = rows["chance_within_90_days"] - rows["came_within_90_days"].cast(pl.Float64)
    assert answer["brier"] == pytest.approx((miss**2).mean())
    assert answer["brier_gain"] == pytest.approx(1 - (miss**2).mean() / (share * (1 - share)))
    assert answer["crps_days"] == pytest.approx(came["crps_days"].mean())
    off = (rows["visits_expected_90_days"] - rows["visits_90_days"]).abs().sum()
    assert answer["visits_error_share"] == pytest.approx(off / rows["visits_90_days"].sum())


def test_groups_and_methods() -> None:
    answer = backtest(rhythm("Ada", "2024-01-06", *[30] * 30), rhythm("Bo", "2025-03-09", 44, 44, service="COLOUR"))
    weeks = [f"week_{number}" for number in range(1, 13)]
    assert answer["group"].unique(maintain_order=True).to_list() == [
        "all",
        "at_most_two_gaps",
        "full_colour",
        "root_touch_up",
        "weeks_2_to_12",
        *weeks,
    ]
    assert answer["method"][:4].to_list() == ["habit", "six_weeks", "kind_average", "own_median"]
    rules = answer.filter(pl.col("method").is_in(["six_weeks", "kind_average", "own_median"]))
    assert rules["share_inside"].null_count() == rules.height
    assert rules["crps_days"].equals(rules["mean_error_days"])


@pytest.mark.parametrize("gaps", [(), (7, 7)])
def test_two_weeks_of_history_have_no_past_to_replay(gaps: tuple[int, ...]) -> None:
    assert backtest(rhythm("Ada", "2026-07-01", *gaps)).is_empty()


def test_regularity_tells_a_rhythm_from_none() -> None:
    regular = rhythm("Ada", "2024-01-06", *[40, 42, 39, 41] * 7)
    any_day = rhythm("Bo", "2024-01-09", *[39, 160, 41, 101, 35, 133] * 4, service="COLOUR")
    answer = backtest(regular, any_day, as_of="2027-06-01").filter(pl.col("method") == "habit")
    k = dict(answer.select("group", "regularity").iter_rows())
    assert k["root_touch_up"] > 100 > k["all"] > k["full_colour"]
