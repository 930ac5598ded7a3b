"""Days between a colour client's root visits, by month of the later one."""

import polars as pl
from frames import Row, agrees, bookings, days, only, rows_of, services, small_salon, visit, work_out
from hypothesis import given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st

MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"}, {"service_id": "CUT", "kind": "cut"})
WINTER = days("2026-01-01", "2026-04-01")


def roots(client_id: str, *moments: str, **rest: str) -> list[Row]:
    """A root visit of the client at each moment."""
    return [
        line
        for moment in moments
        for line in visit(f"{client_id} {moment}", moment, 90, ("ROOTS", "60"), client_id=client_id, **rest)
    ]


def gap(*visits: list[Row], period: object = "2026-03", as_of: str = "2026-04-01") -> pl.DataFrame:
    return work_out("rebooking_gap", bookings=bookings(*visits), services=MENU, period=period, as_of=as_of)


def test_equals_the_answer_worked_by_hand() -> None:
    """Ada's roots on 24 February and 17 March: 4 + 17 = 21 days. Nobody else's roots were reset twice."""
    agrees(work_out("rebooking_gap", period=days("2026-02-01", "2026-04-01"), **small_salon()), "rebooking_gap")


def test_the_median_of_all_clients_gaps() -> None:
    """Ada 28 and 30 days, Bo 40 days, Cleo none: median 30 of three gaps of two clients."""
    ada = roots("Ada", "2026-01-01 10:00", "2026-02-01 10:00", "2026-03-01 10:00", "2026-03-31 10:00")
    bo = roots("Bo", "2026-01-31 10:00", "2026-03-12 10:00")
    row = only(gap(ada, bo, roots("Cleo", "2026-03-05 10:00")))
    assert (row["gaps"], row["clients"], row["median_gap_days"]) == (3, 2, 30)


def test_an_even_number_of_gaps_has_a_median_between() -> None:
    ada = roots("Ada", "2026-02-01 10:00", "2026-03-01 10:00")
    bo = roots("Bo", "2026-02-01 10:00", "2026-03-04 10:00")
    assert only(gap(ada, bo))["median_gap_days"] == 29.5  # 28 and 31


def test_a_gap_counts_in_the_month_of_the_later_visit_however_old_the_earlier() -> None:
    frame = gap(roots("Ada", "2025-03-31 10:00", "2026-01-31 23:30"), period=WINTER)
    assert frame.rows() == [("2026-01", 306.0, 1, 1), ("2026-02", None, 0, 0), ("2026-03", None, 0, 0)]


def test_other_work_refunds_missed_and_booked_visits_end_no_gap() -> None:
    first = roots("Ada", "2026-02-01 10:00")
    cut = visit("cut", "2026-03-02 10:00", 45, ("CUT", "40"))
    refund = visit("refund", "2026-03-03 10:00", 0, ("ROOTS", "-60"))
    missed = roots("Ada", "2026-03-04 10:00", status="no_show")
    ahead = roots("Ada", "2026-03-20 10:00", status="booked")
    assert only(gap(first, cut, refund, missed, ahead))["gaps"] == 0


def test_two_visits_of_one_day_are_one_and_a_clock_change_takes_no_day() -> None:
    """The hour of 29 March is skipped: from 28 to 30 March are two days all the same."""
    row = only(gap(roots("Ada", "2026-03-28 10:00", "2026-03-28 17:00", "2026-03-30 09:00")))
    assert (row["gaps"], row["median_gap_days"]) == (1, 2)


def test_a_cut_period_holds_gaps_that_end_in_it_and_nothing_after_today() -> None:
    visits = roots("Ada", "2026-02-01 10:00", "2026-03-01 10:00", "2026-03-15 10:00", "2026-03-25 10:00")
    assert rows_of(
        "rebooking_gap",
        bookings=bookings(visits),
        services=MENU,
        period=days("2026-03-10", "2026-04-01"),
        as_of="2026-03-20",
    )["gap_days"].to_list() == [14]


def test_clients_of_two_salons_with_one_name_are_two() -> None:
    east = roots("Ada", "2026-02-01 10:00", "2026-03-01 10:00", site="East")
    west = [line | {"booking_id": "west"} for line in roots("Ada", "2026-03-02 10:00", site="West")]
    row = only(gap(east, west))
    assert (row["gaps"], row["clients"], row["median_gap_days"]) == (1, 1, 28)


@hypothesis_settings(deadline=None, max_examples=12)
@given(st.lists(st.integers(1, 200), min_size=1, max_size=12))
def test_all_gaps_of_a_client_add_up_to_the_days_from_first_to_last(gaps: list[int]) -> None:
    start = pl.date(2020, 1, 1)
    moments = pl.select(start + pl.duration(days=pl.Series([0, *gaps]).cum_sum())).to_series()
    visits = roots("Ada", *(f"{day} 10:00" for day in moments))
    period = days("2020-01-01", "2027-01-01")
    rows = rows_of("rebooking_gap", bookings=bookings(visits), services=MENU, period=period, as_of="2027-01-01")
    assert rows["gap_days"].to_list() == gaps
    assert gap(visits, period=period, as_of="2027-01-01")["gaps"].sum() == len(gaps)
