"""Open chair hours, what of them was taken, and what one costs."""

import pytest
from frames import bookings, days, settings, visit
from hypothesis import given
from hypothesis import strategies as st

from analytics.periods import Period
from analytics.records.chairs.hour_costs import cost_of_a_taken_hour, cost_of_an_open_hour, open_costs
from analytics.records.chairs.open_hours import chair_hours, hours_by_chair

TUESDAY = {"2026-03": days("2026-03-03", "2026-03-04")}  # 09:00–18:00


def test_overlaps_count_once_and_work_outside_counts_beyond() -> None:
    """16:00–18:30 and 17:00–20:00 on one chair: 4 h, of them 2 within opening hours; the other chair is empty."""
    book = bookings(
        visit("V1", "2026-03-03 16:00", 150, ("CUT", "1")), visit("V2", "2026-03-03 17:00", 180, ("CUT", "1"))
    )
    row = chair_hours(book, settings(salon={"chairs": ["Chair 1", "Chair 2"]}), TUESDAY).row(0, named=True)
    assert (row["open_hours"], row["inside_hours"], row["occupied_hours"]) == (18, 2, 4)


def test_a_visit_over_closing_time_and_midnight_lies_in_the_month_it_reaches() -> None:
    """20:30–00:15 on the last of January, open until 21:00: half an hour is within, 15 minutes are February's."""
    book = bookings(visit("V1", "2026-01-31 20:30", 225, ("CUT", "1")))
    salon = settings(hours={"sat": "12:00-21:00"})
    spans = {"2026-01": Period.month("2026-01"), "2026-02": Period.month("2026-02")}
    rows = {row["month"]: row for row in chair_hours(book, salon, spans).iter_rows(named=True)}
    assert (rows["2026-01"]["inside_hours"], rows["2026-01"]["occupied_hours"]) == (0.5, 3.5)
    assert (rows["2026-02"]["inside_hours"], rows["2026-02"]["occupied_hours"]) == (0, 0.25)


def test_a_month_costs_the_same_by_the_hour_however_it_is_cut() -> None:
    """March 2026 has 26 open days of 9 h: 4,680 ÷ 234 = 20; two chairs halve it."""
    one, two = (settings(costs={"per_month": 4680}, salon={"chairs": names}) for names in (["A"], ["A", "B"]))
    for period in (Period.month("2026-03"), days("2026-03-05", "2026-03-09")):
        assert open_costs(bookings(), one, period.parts())["cost_per_open_hour"].to_list() == [20]
        assert open_costs(bookings(), two, period.parts())["cost_per_open_hour"].to_list() == [10]


def test_days_of_a_month_cost_as_much_as_of_its_open_hours_lies_in_them() -> None:
    """5–8 March 2026 are three open days of 26 (the 8th is a Sunday): 4,680 × 3 ÷ 26 = 540."""
    salon = settings(costs={"per_month": 4680}, salon={"chairs": ["A", "B"]})
    assert open_costs(bookings(), salon, days("2026-03-05", "2026-03-09").parts())["open_cost"].to_list() == [540]
    assert open_costs(bookings(), salon, Period.month("2026-03").parts())["open_cost"].to_list() == [4680]


def test_a_month_that_is_closed_all_through_costs_what_it_costs() -> None:
    """Nobody can sell an hour of it; the rent of its first 10 days of 31 is 3,100 × 10 ÷ 31 = 1,000."""
    closed = settings(costs={"per_month": 3100}, hours={}, salon={"chairs": ["A"]})
    cost = open_costs(bookings(), closed, Period.month("2026-03").parts())
    assert cost.select("cost_per_open_hour", "open_cost").rows() == [(None, 3100)]
    assert open_costs(bookings(), closed, days("2026-03-01", "2026-03-11").parts())["open_cost"].to_list() == [1000]


def test_a_taken_hour_carries_all_months_of_the_spans() -> None:
    """February and March at 4,500 each, 100 hours taken: 90 an hour; with none taken there is nothing to carry it."""
    spans, salon = days("2026-02-01", "2026-04-01").parts(), settings(costs={"per_month": 4500})
    assert cost_of_a_taken_hour(bookings(), salon, spans, 100) == 90
    assert cost_of_a_taken_hour(bookings(), salon, spans, 0) is None
    assert cost_of_a_taken_hour(bookings(), settings(), spans, 100) is None


def test_several_months_cost_their_costs_over_their_hours() -> None:
    """February has 24 days of 9 h, March 26: 2 × 4,500 ÷ 450 = 20."""
    period = days("2026-02-01", "2026-04-01")
    assert cost_of_an_open_hour(bookings(), settings(costs={"per_month": 4500}, salon={"chairs": ["A"]}), period) == 20


def test_without_costs_or_open_hours_nothing_is_said() -> None:
    period = Period.month("2026-03")
    assert cost_of_an_open_hour(bookings(), settings(salon={"chairs": ["A"]}), period) is None
    assert cost_of_an_open_hour(bookings(), settings(costs={"per_month": 100}, hours={}), period) is None
    assert open_costs(bookings(), settings(), period.parts()).drop("month").rows() == [(None, None)]


AT_WORK = settings(salon={"chairs": ["A", "B", "C"], "open_chairs": "at_work"}, costs={"per_month": 2340})


def at(number: int, chair: str, stylist: str, **more: object) -> list[dict[str, object]]:
    return visit(f"V{number}", "2026-03-03 10:00", 60, ("CUT", "1"), chair=chair, stylist=stylist, **more)


def opened_by_chair(*visits: list[dict[str, object]]) -> dict[str, float]:
    return dict(hours_by_chair(bookings(*visits), AT_WORK, TUESDAY).select("chair", "open_hours").iter_rows())


def test_no_more_chairs_are_open_than_stylists_are_at_work() -> None:
    """Two stylists, one chair taken: it is open for 9 h, and the second stylist could use one of the other two."""
    two = at(1, "A", "Mila"), at(2, "B", "Noor", status="cancelled")
    assert opened_by_chair(*two) == {"A": 9, "B": 4.5, "C": 4.5}
    assert opened_by_chair(at(1, "A", "Mila")) == {"A": 9, "B": 0, "C": 0}


def test_a_stylist_who_fills_two_chairs_has_both_open() -> None:
    """One client develops while another is cut: more chairs are taken than stylists are there."""
    assert opened_by_chair(at(1, "A", "Mila"), at(2, "B", "Mila")) == {"A": 9, "B": 9, "C": 0}


def test_a_day_without_a_booking_has_all_chairs_open() -> None:
    assert opened_by_chair() == {"A": 9, "B": 9, "C": 9}


def test_with_fewer_chairs_open_an_open_hour_costs_more() -> None:
    """2,340 for March with 26 days of 27 h; on the 3rd one chair is open, so 18 h are less: 2,340 ÷ 684."""
    cost = open_costs(bookings(at(1, "A", "Mila")), AT_WORK, Period.month("2026-03").parts())["cost_per_open_hour"]
    assert cost.item() == pytest.approx(2340 / 684)


@given(st.lists(st.tuples(st.sampled_from("ABC"), st.sampled_from(["Mila", "Noor", "Ola", "Pim"])), max_size=6))
def test_open_hours_are_those_of_stylists_or_taken_chairs_whichever_is_more(pairs: list[tuple[str, str]]) -> None:
    book = bookings(*[at(number, chair, stylist) for number, (chair, stylist) in enumerate(pairs)])
    rows = hours_by_chair(book, AT_WORK, TUESDAY)
    count = min(3, max(len({stylist for _, stylist in pairs}), len({chair for chair, _ in pairs}))) if pairs else 3
    assert rows["open_hours"].sum() == pytest.approx(9 * count)
    assert (rows["inside_hours"] <= rows["open_hours"]).all()
