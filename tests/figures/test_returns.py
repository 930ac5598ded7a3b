"""How many new clients come back, and how soon."""

from datetime import date, timedelta
from typing import Any

import polars as pl
import pytest
from frames import Row, agrees, bookings, only, services, small_salon, visit, work_out
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st
from lifelines import KaplanMeierFitter

MENU = services(
    {"service_id": "ROOTS", "kind": "root_touch_up", "hands_on_min": 45, "processing_min": 35},
    {"service_id": "CUT", "kind": "cut", "hands_on_min": 45},
    {"service_id": "CARE", "kind": "treatment", "hands_on_min": 45},
)
FIRST = date(2026, 1, 5)


def came(client: str, day: date | str, *lines: str, **rest: Any) -> list[Row]:
    return visit(
        f"{client}{day}", f"{day} 10:00", 60, *[(line, "60") for line in lines or ("CUT",)], client_id=client, **rest
    )


def returns(*visits: list[Row], as_of: str = "2026-12-31") -> pl.DataFrame:
    return work_out("returns", bookings=bookings(*visits), services=MENU, as_of=as_of)


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("returns", as_of="2026-04-20", **small_salon()), "returns")


def test_half_back_after_so_long() -> None:
    """Four clients of one quarter: back after 30, 50 and 70 days, the fourth still out: 1/4, 2/4, 3/4."""
    visits = [came(f"C{n}", FIRST) + came(f"C{n}", FIRST + timedelta(days=n)) for n in (30, 50, 70)]
    row = only(returns(*visits, came("D", FIRST)))
    assert (row["cohort"], row["kind"], row["clients"], row["returned"]) == ("2026-Q1", "cut", 4, 3)
    assert (row["returned_6w"], row["returned_8w"], row["returned_12w"]) == pytest.approx((0.25, 0.5, 0.75))
    assert row["median_days"] == 50


def test_who_came_last_week_is_still_out_and_not_lost() -> None:
    """Of two early clients one is back after 35 days; ten of last week change nothing: nobody knows yet."""
    early = [came("A", "2026-10-05"), came("A", "2026-11-09"), came("B", "2026-10-05")]
    row = only(returns(*early, *[came(f"N{n}", "2026-12-28") for n in range(10)]))
    assert (row["clients"], row["returned_6w"]) == (12, 0.5)


def test_six_weeks_to_the_day_count_and_a_day_more_does_not() -> None:
    back = (
        [came("A", FIRST), came("A", FIRST + timedelta(days=42))],
        [came("A", FIRST), came("A", FIRST + timedelta(days=43))],
    )
    assert [only(returns(*visits))["returned_6w"] for visits in back] == [1, 0]


def test_a_share_is_empty_until_somebody_was_followed_for_so_long() -> None:
    row = only(returns(came("A", "2026-10-05"), as_of="2026-12-01"))  # 57 days
    assert (row["returned_6w"], row["returned_8w"], row["returned_12w"], row["median_days"]) == (0, 0, None, None)


def test_quarters_and_kinds_have_rows_of_their_own() -> None:
    frame = returns(came("A", "2026-03-31"), came("B", "2026-04-01"), came("C", "2026-04-01", "ROOTS"))
    assert frame.select("cohort", "kind").rows() == [
        ("2026-Q1", "cut"), ("2026-Q2", "cut"), ("2026-Q2", "root_touch_up"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("lines", "kind"),
    [(("CUT", "ROOTS"), "root_touch_up"), (("CUT", "CARE"), "cut"), (("CARE", "CUT"), "treatment")],
)
def test_the_kind_is_what_took_most_of_the_visit(lines: tuple[str, ...], kind: str) -> None:
    assert only(returns(came("A", FIRST, *lines)))["kind"] == kind


@pytest.mark.parametrize("status", ["booked", "no_show", "cancelled"])
def test_only_a_visit_that_happened_is_a_return(status: str) -> None:
    assert only(returns(came("A", FIRST), came("A", "2026-03-02", status=status)))["returned"] == 0


def test_a_second_visit_on_the_same_day_and_a_refund_are_no_return() -> None:
    again = visit("V2", f"{FIRST} 15:00", 30, ("CUT", "30"), client_id="A")
    refund = visit("V3", "2026-02-02 10:00", 0, ("CUT", "-30"), client_id="A")
    assert only(returns(came("A", FIRST), again, refund))["returned"] == 0


def test_what_lies_after_the_day_is_not_known_on_it() -> None:
    visits = [came("A", FIRST), came("A", "2026-03-02"), came("B", "2026-03-02")]
    row = only(returns(*visits, as_of="2026-02-28"))
    assert (row["clients"], row["returned"]) == (1, 0)


def test_clients_of_two_salons_with_one_number_are_two() -> None:
    frame = returns(came("A", FIRST, site="north"), came("A", "2026-02-02", site="south"))
    assert only(frame)["clients"] == 2


def test_shares_and_band_equal_lifelines() -> None:
    waits = [
        (12, True),
        (12, False),
        (30, True),
        (42, True),
        (42, True),
        (43, False),
        (60, True),
        (80, False),
        (84, True),
        (85, False),
    ]
    last = date(2026, 3, 31)
    visits, fitted = [], []
    for number, (days, back) in enumerate(waits):
        first = last - timedelta(days=days) if not back else FIRST
        visits += [came(f"C{number}", first)] + ([came(f"C{number}", first + timedelta(days=days))] if back else [])
        fitted.append(days)
    frame = returns(*visits, as_of=f"{last}")
    reference = KaplanMeierFitter(alpha=0.05).fit(fitted, [back for _, back in waits])
    row = only(frame)
    for weeks in (6, 8, 12):
        low, high = reference.confidence_interval_.loc[: 7 * weeks].iloc[-1]
        assert row[f"returned_{weeks}w"] == pytest.approx(1 - reference.predict(7 * weeks), abs=1e-12)
        assert row[f"returned_{weeks}w_low"] == pytest.approx(1 - high, abs=1e-9)
        assert row[f"returned_{weeks}w_high"] == pytest.approx(1 - low, abs=1e-9)
    assert row["median_days"] == reference.median_survival_time_


@effort(max_examples=15, deadline=None)
@given(st.lists(st.lists(st.integers(1, 120), max_size=2), min_size=1, max_size=8), st.integers(-40, 40))
def test_shares_grow_with_the_weeks_and_names_and_years_change_nothing(gaps: list[list[int]], years: int) -> None:
    def answer(shift: timedelta, name: str) -> pl.DataFrame:
        days = [[FIRST + shift + timedelta(days=sum(each[:n])) for n in range(len(each) + 1)] for each in gaps]
        visits = [came(f"{name}{n}", day) for n, each in enumerate(days) for day in each]
        return returns(*visits, as_of=f"{FIRST + shift + timedelta(days=100)}")

    plain = answer(timedelta(), "C")
    shares = [share for share in only(plain.select(r"^returned_\d+w$")).values() if share is not None]
    assert shares == sorted(shares) and all(0 <= share <= 1 for share in shares)
    moved = answer(timedelta(weeks=52 * 4), "Zoë ")
    assert moved.drop("cohort").equals(plain.drop("cohort"))
