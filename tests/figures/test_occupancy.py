"""How much of the opening hours each chair was taken."""

import pytest
from frames import agrees, bookings, days, only, settings, small_salon, visit, work_out
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

ONE_DAY = days("2026-03-03", "2026-03-04")  # a Tuesday, 09:00–18:00: 9 h


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("occupancy", period=days("2026-02-01", "2026-04-01"), **small_salon()), "occupancy")


def test_overlapping_visits_on_one_chair_count_once() -> None:
    book = bookings(
        visit("V1", "2026-03-03 09:00", 120, ("CUT", "1")),
        visit("V2", "2026-03-03 10:00", 120, ("CUT", "1")),
        visit("V3", "2026-03-03 10:30", 15, ("CUT", "1")),
    )
    assert only(work_out("occupancy", bookings=book, period=ONE_DAY))["occupied_hours"] == 3.0


def test_a_visit_on_two_chairs_takes_both() -> None:
    window = visit("V1", "2026-03-03 09:00", 60, ("FOILS", "1"), chair="Window")
    basin = [line | {"line": 2} for line in visit("V1", "2026-03-03 10:00", 30, ("WASH", "1"), chair="Basin")]
    frame = work_out("occupancy", bookings=bookings(window, basin), period=ONE_DAY)
    assert frame.select("chair", "occupied_hours").rows() == [("Basin", 0.5), ("Window", 1.0)]


def test_work_outside_opening_hours_is_in_the_hours_and_not_in_the_share() -> None:
    late = bookings(visit("V1", "2026-03-03 16:00", 240, ("FOILS", "1")))
    row = only(work_out("occupancy", bookings=late, period=ONE_DAY))
    assert (row["occupied_hours"], row["occupied_share"]) == (4.0, pytest.approx(2 / 9))


def test_a_visit_over_a_months_end_is_split_at_midnight() -> None:
    late = visit("V1", "2026-02-28 23:00", None, ("CUT", "1"), ends_at="2026-03-01 02:00")
    frame = work_out("occupancy", bookings=bookings(late), period=days("2026-02-01", "2026-04-01"))
    assert frame["occupied_hours"].to_list() == [1.0, 2.0]


def test_chairs_are_those_of_the_settings_and_those_seen() -> None:
    book = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "1"), chair="Garden"))
    frame = work_out("occupancy", bookings=book, salon=settings(salon={"chairs": ["Window"]}))
    assert dict(frame.select("chair", "occupied_hours").iter_rows()) == {"Garden": 1.0, "Window": 0.0}


def test_an_empty_month_has_a_row_and_a_closed_one_nothing_to_divide() -> None:
    named = {"chairs": ["Window"]}
    assert only(work_out("occupancy", salon=settings(salon=named)))["occupied_share"] == 0.0
    closed = only(work_out("occupancy", salon=settings(salon=named, hours={})))
    assert (closed["open_hours"], closed["occupied_share"]) == (0.0, None)


def test_a_month_that_is_not_over_has_the_hours_gone_by_as_the_month_has_them() -> None:
    """On Tuesday 3 March two days of 9 h are gone; the visit of the 20th lies ahead, whatever its state says."""
    book = bookings(
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "1")), visit("V2", "2026-03-20 09:00", 60, ("CUT", "1"))
    )
    row = only(work_out("occupancy", bookings=book, as_of="2026-03-03"))
    assert (row["open_hours"], row["occupied_hours"], row["occupied_share"]) == (18, 1, pytest.approx(1 / 18))
    month = work_out("month", bookings=book, as_of="2026-03-03").filter(figure="occupied_share")["value"].item()
    assert float(month) == pytest.approx(row["occupied_share"], abs=5e-5)


@pytest.mark.parametrize("status", ["booked", "cancelled", "no_show"])
def test_only_visits_that_happened_take_a_chair(status: str) -> None:
    book = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "1"), status=status))
    assert only(work_out("occupancy", bookings=book))["occupied_hours"] == 0.0


@pytest.mark.parametrize(("sunday", "real_hours"), [("2026-03-29", 7.0), ("2026-10-25", 9.0), ("2026-03-22", 8.0)])
def test_opening_hours_and_visits_over_a_clock_change_have_their_real_length(sunday: str, real_hours: float) -> None:
    """A bar open from Saturday 22:00 to Sunday 06:00, its one chair taken all night."""
    saturday = f"{sunday[:8]}{int(sunday[8:]) - 1}"
    book = bookings(visit("V1", f"{saturday} 22:00", None, ("CUT", "1"), ends_at=f"{sunday} 06:00"))
    one_night = settings(hours={"sat": "22:00-06:00"})
    month = days(saturday, f"{sunday[:8]}{int(sunday[8:]) + 1}")
    row = only(work_out("occupancy", bookings=book, salon=one_night, period=month))
    assert (row["open_hours"], row["occupied_hours"], row["occupied_share"]) == (real_hours, real_hours, 1.0)


def test_opening_hours_over_a_months_end_are_split_at_midnight() -> None:
    """Saturday 31 January 2026, 22:00 to 06:00: two hours are January's and six February's."""
    salon = settings(salon={"chairs": ["Window"]}, hours={"sat": "22:00-06:00"})
    frame = work_out("occupancy", salon=salon, period=days("2026-01-31", "2026-02-02"))
    assert frame.select("month", "open_hours").rows() == [("2026-01", 2.0), ("2026-02", 6.0)]


def test_a_cut_period_has_the_opening_hours_that_lie_in_it() -> None:
    salon = settings(salon={"chairs": ["Window"]})
    assert only(work_out("occupancy", salon=salon, period=days("2026-03-02", "2026-03-04")))["open_hours"] == 18.0


def test_hours_of_one_day_that_reach_into_those_of_the_next_are_open_once() -> None:
    """Monday 20:00–04:00 and Tuesday 03:00–10:00 are open from Monday 20:00 to Tuesday 10:00: 14 hours."""
    salon = settings(salon={"chairs": ["Window"]}, hours={"mon": "20:00-04:00", "tue": "03:00-10:00"})
    assert only(work_out("occupancy", salon=salon, period=days("2026-03-02", "2026-03-04")))["open_hours"] == 14.0


def test_the_same_chair_name_in_two_salons_of_a_group_is_two_chairs() -> None:
    """Chair 1 taken at the same hour in both salons: two chair hours, by whatever rows they are shown in."""
    book = bookings(
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "1"), site="North"),
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "1"), site="South"),
    )
    assert work_out("occupancy", bookings=book, period=ONE_DAY)["occupied_hours"].sum() == 2.0


stay = st.tuples(st.integers(0, 14 * 96), st.integers(0, 600), st.sampled_from("AB"))


@effort(max_examples=12, deadline=None)
@given(st.lists(stay, min_size=1, max_size=8))
def test_hours_are_at_most_the_sum_and_the_span_and_shares_lie_within_0_and_1(stays: list) -> None:
    """Stays begin on a quarter of an hour of the first two weeks of June."""
    book = bookings(
        *[
            visit(
                f"V{n}", f"2026-06-{1 + at // 96:02} {at % 96 // 4:02}:{at % 4 * 15:02}", length, ("CUT", "1"), chair=c
            )
            for n, (at, length, c) in enumerate(stays)
        ]
    )
    frame = work_out("occupancy", bookings=book, period="2026-06")
    for row in frame.iter_rows(named=True):
        mine = [(at * 15, at * 15 + length) for at, length, chair in stays if chair == row["chair"]]
        minutes = row["occupied_hours"] * 60
        assert minutes <= sum(end - start for start, end in mine) + 1e-6
        assert minutes <= max(end for _, end in mine) - min(start for start, _ in mine) + 1e-6
        assert minutes >= max(end - start for start, end in mine) - 1e-6
        assert 0 <= row["occupied_share"] <= 1
