"""Hours with clients and the wages base of each stylist."""

from typing import Any

from frames import agrees, bookings, days, only, services, settings, small_salon, visit, work_out
from hypothesis import given
from hypothesis import settings as tried
from hypothesis import strategies as st

MENU = services({"service_id": "CUT", "kind": "cut", "tax_rate": "0"})
BOTH = days("2026-02-01", "2026-04-01")


def wages(*visits: list[dict], rates: dict[str, Any] | None = None, **given: Any):
    salon = settings(wages=rates or {"per_hour": {"Mila": 20}, "share_percent": {"Mila": 10}})
    return work_out("wages", bookings=bookings(*visits), services=MENU, salon=salon, **given)


def cut(booking_id: str, clock: str, minutes: int = 60, price: str = "100", **rest: Any) -> list[dict]:
    return visit(booking_id, f"2026-03-{clock}", minutes, ("CUT", price), **rest)


def test_equals_the_answer_worked_by_hand() -> None:
    small = small_salon()
    rates = settings(wages={"per_hour": {"Mila": 18.5}, "share_percent": {"Mila": 10, "Noor": 30}}).wages
    salon = small["salon"].model_copy(update={"wages": rates})
    agrees(work_out("wages", period=BOTH, **small | {"salon": salon}), "wages")


def test_visits_that_overlap_count_once() -> None:
    row = only(wages(cut("V1", "03 09:00"), cut("V2", "03 09:30", chair="Chair 2")))
    assert (row["visits"], row["hours"], row["wages_base"]) == (2, 1.5, 50)


def test_without_a_rate_there_are_hours_and_no_base() -> None:
    row = only(wages(cut("V1", "03 09:00", stylist="Noor")))
    assert (row["hours"], row["per_hour"], row["share_percent"], row["wages_base"]) == (1, None, None, None)


def test_a_refund_takes_its_net_off_and_no_time() -> None:
    row = only(wages(cut("V1", "03 09:00"), cut("V2", "04 09:00", 0, "-40")))
    assert (row["hours"], row["net"], row["wages_base"]) == (1, 60, 26)


def test_missed_visits_lines_without_a_stylist_and_other_months_are_no_work() -> None:
    assert wages(cut("V1", "03 09:00", status="no_show"), cut("V2", "03 09:00", stylist=None)).is_empty()
    assert wages(cut("V1", "03 09:00"), period="2026-02", cover=BOTH).is_empty()


def test_an_hour_that_the_clock_skips_was_not_worked() -> None:
    """In the night of 29 March 2026 Amsterdam goes from 2:00 to 3:00: 1:30 to 3:30 is one hour."""
    night = [row | {"ends_at": "2026-03-29 03:30"} for row in cut("V1", "29 01:30")]
    assert only(wages(night))["hours"] == 1


def test_salons_of_a_group_stand_apart() -> None:
    both = [row | {"site": site} for site in ("North", "South") for row in cut("V1", "03 09:00")]
    assert wages(both).select("site", "hours").rows() == [("North", 1), ("South", 1)]


@tried(max_examples=10, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 600), st.integers(1, 120)), min_size=1, max_size=8))
def test_hours_are_no_more_than_the_minutes_and_no_less_than_the_longest(visits: list[tuple[int, int]]) -> None:
    work = [
        cut(f"V{place}", f"03 {8 + start // 60:02}:{start % 60:02}", minutes)
        for place, (start, minutes) in enumerate(visits)
    ]
    spent = only(wages(*work))["hours"] * 60
    lengths = [minutes for _, minutes in visits]
    assert max(lengths) - 1e-6 <= spent <= sum(lengths) + 1e-6
