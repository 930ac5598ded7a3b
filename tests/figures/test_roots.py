"""Who is due for a root touch-up, and between which days."""

from datetime import date, timedelta

import pytest
from frames import agrees, bookings, clients, only, rows_of, settings, small_salon, visit, work_out
from root_clients import MENU, coloured, rhythm, roots


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("roots", as_of="2026-04-01", **small_salon()), "roots")


def test_without_a_measurement_the_published_rate_holds() -> None:
    """0.35 mm a day: 10 mm in the 29th day, 30 mm in the 86th; 80 % within 1.2816 × 0.075 of the rate."""
    row = only(roots(coloured("V1", "2026-03-02"), as_of="2026-03-22"))
    assert (row["days_since"], row["regrowth_mm"]) == (20, pytest.approx(7.0))
    assert (row["ready_from"], row["ready_by"]) == (date(2026, 3, 31), date(2026, 5, 27))
    assert row["regrowth_low_mm"] == pytest.approx(20 * (0.35 - 0.0961164), abs=1e-5)
    assert row["regrowth_high_mm"] == pytest.approx(20 * (0.35 + 0.0961164), abs=1e-5)


def test_a_measurement_moves_the_rate_and_narrows_the_band() -> None:
    before = only(roots(coloured("V1", "2026-01-05"), coloured("V2", "2026-02-16")))
    after = only(roots(coloured("V1", "2026-01-05"), coloured("V2", "2026-02-16", regrowth_mm=21.0)))
    assert before["growth_mm_per_day"] == 0.35
    assert 0.35 < after["growth_mm_per_day"] < 0.5  # 21 mm in 42 days
    band = "regrowth_high_mm", "regrowth_low_mm"
    assert after[band[0]] - after[band[1]] < 0.6 * (before[band[0]] - before[band[1]])
    assert after["ready_from"] < before["ready_from"]


@pytest.mark.parametrize("regrowth_mm", [39.0, 400.0])
def test_more_than_hair_can_grow_is_ignored(regrowth_mm: float) -> None:
    """42 days × 0.8 + 4.5 = 38.1 mm."""
    row = only(roots(coloured("V1", "2026-01-05"), coloured("V2", "2026-02-16", regrowth_mm=regrowth_mm)))
    assert row["growth_mm_per_day"] == 0.35


def test_a_measurement_before_any_root_visit_says_nothing_about_growth() -> None:
    row = only(roots(coloured("V1", "2026-02-16", regrowth_mm=40.0)))
    assert row["growth_mm_per_day"] == 0.35


def test_a_measurement_at_another_visit_counts() -> None:
    row = only(roots(coloured("V1", "2026-01-05"), coloured("V2", "2026-02-16", "FOILS", regrowth_mm=21.0)))
    assert (row["last_root_on"], row["growth_mm_per_day"] > 0.35) == (date(2026, 1, 5), True)


def test_what_resets_the_roots_is_on_the_menu() -> None:
    frame = roots(
        coloured("V1", "2026-03-02", "ROOTS", client_id="Ada"),
        coloured("V2", "2026-03-02", "COLOUR", client_id="Bo"),
        coloured("V3", "2026-03-02", "PERM", client_id="Cleo"),
        coloured("V4", "2026-03-02", "FOILS", client_id="Dana"),
    )
    assert sorted(frame["client_id"]) == ["Ada", "Bo", "Cleo"]


@pytest.mark.parametrize("status", ["cancelled", "no_show", "booked"])
def test_only_a_completed_visit_colours_roots(status: str) -> None:
    assert roots(coloured("V1", "2026-03-02", status=status)).is_empty()


def test_a_refund_colours_nothing() -> None:
    refund = visit("V2", "2026-03-20 10:00", 0, ("ROOTS", "-60"))
    assert only(roots(coloured("V1", "2026-03-02"), refund))["last_root_on"] == date(2026, 3, 2)


def test_a_visit_after_the_day_asked_for_is_not_known_yet() -> None:
    frame = roots(coloured("V1", "2026-03-02"), coloured("V2", "2026-03-20"), as_of="2026-03-19")
    assert only(frame)["last_root_on"] == date(2026, 3, 2)


def test_two_root_services_on_one_day_are_one_visit() -> None:
    both = visit("V1", "2026-03-02 10:00", 150, ("ROOTS", "60"), ("COLOUR", "40"))
    row = only(roots(both))
    assert (row["kind"], row["last_root_on"]) == ("root_touch_up", date(2026, 3, 2))
    gaps = rows_of("roots", bookings=bookings(both), services=MENU)
    assert gaps["gap_days"].to_list() == [None]


def test_of_two_visits_on_one_day_the_later_counts_and_there_is_no_gap_between_them() -> None:
    early = visit("V2", "2026-03-02 09:00", 60, ("ROOTS", "60"))
    late = visit("V1", "2026-03-02 15:00", 60, ("COLOUR", "60"), stylist="Noor")
    row = only(roots(early, late))
    assert (row["kind"], row["stylist"]) == ("full_colour", "Noor")
    visits = rows_of("roots", bookings=bookings(early, late), services=MENU)
    assert visits["gap_days"].to_list() == [None]


def test_a_visit_over_midnight_is_counted_from_the_day_of_its_last_root_line() -> None:
    late = coloured("V1", "2026-03-31") + [
        line | {"line": 2, "starts_at": "2026-04-01 00:30"} for line in coloured("V1", "2026-04-01", "COLOUR")
    ]
    assert only(roots(late))["last_root_on"] == date(2026, 4, 1)


@pytest.mark.parametrize(
    ("as_of", "state"),
    [
        ("2026-03-16", "resting"),  # ready from 31 March less 14 days is 17 March
        ("2026-03-17", "nearing"),
        ("2026-03-30", "nearing"),
        ("2026-03-31", "ready"),
        ("2026-05-27", "ready"),
        ("2026-05-28", "long_past"),
    ],
)
def test_states_follow_the_days(as_of: str, state: str) -> None:
    """Ada's own rhythm is 90 days, so that she is expected to return throughout; others show that 300 days happen."""
    others = [rhythm(name, "2023-01-02", 300, 300, 300) for name in ("Bo", "Cleo", "Dana", "Eli")]
    frame = roots(rhythm("Ada", "2025-09-03", 90, 90), *others, as_of=as_of)
    assert only(frame, client_id="Ada")["last_root_on"] == date(2026, 3, 2)
    assert only(frame, client_id="Ada")["state"] == state


def test_a_root_visit_ahead_in_the_book_is_booked() -> None:
    ahead = coloured("V2", "2026-04-20", status="booked"), coloured("V3", "2026-04-10", status="booked")
    row = only(roots(coloured("V1", "2026-03-02"), *ahead))
    assert (row["state"], row["booked_on"]) == ("booked", date(2026, 4, 10))


@pytest.mark.parametrize(("day", "service"), [("2026-03-20", "ROOTS"), ("2026-04-20", "FOILS")])
def test_a_past_booking_or_another_service_is_not_booked(day: str, service: str) -> None:
    row = only(roots(coloured("V1", "2026-03-02"), coloured("V2", day, service, status="booked")))
    assert (row["state"] == "booked", row["booked_on"]) == (False, None)


def test_a_client_of_last_week_in_a_salon_without_history_is_not_called_quiet() -> None:
    """Nobody has had the time to come back, which says nothing against any of them."""
    row = only(roots(coloured("V1", "2026-03-25")))
    assert row["state"] == "resting"


@pytest.mark.parametrize("gaps", [(42, 35), (30, 60, 90)])
def test_the_expected_day_lies_in_its_range_and_ahead(gaps: tuple[int, ...]) -> None:
    first = date(2026, 3, 25) - timedelta(days=sum(gaps))
    row = only(roots(rhythm("Ada", f"{first}", *gaps)))
    assert date(2026, 4, 1) < row["expected_low_on"] <= row["expected_on"] <= row["expected_high_on"]


@pytest.mark.parametrize("gaps", [(), (42,)])
def test_without_a_history_six_weeks_are_taken_and_the_range_is_wide(gaps: tuple[int, ...]) -> None:
    first = date(2026, 3, 25) - timedelta(days=sum(gaps))
    row = only(roots(rhythm("Ada", f"{first}", *gaps)))
    assert abs(row["expected_on"] - date(2026, 5, 6)) <= timedelta(days=5)
    assert row["expected_high_on"] - row["expected_low_on"] > timedelta(days=10)
    assert 0.8 < row["chance_of_return"] < 1


def test_the_more_of_her_own_gaps_are_known_the_nearer_she_is_to_them() -> None:
    """Everybody comes every six weeks, Ada every ten."""
    others = [rhythm(f"C{number}", f"2025-01-{2 + 5 * number % 28:02}", *[42] * 10) for number in range(8)]

    def expected(gaps: int) -> date:
        first = date(2026, 3, 25) - timedelta(days=70 * gaps)
        return only(roots(*others, rhythm("Ada", f"{first}", *[70] * gaps)), client_id="Ada")["expected_on"]

    days = [expected(gaps) for gaps in (0, 1, 6)]
    assert days[0] < days[1] <= days[2]
    assert abs(days[2] - date(2026, 6, 3)) <= timedelta(days=1)


def test_one_more_regular_gap_narrows_the_range() -> None:
    others = [rhythm(f"C{number}", "2025-01-02", 40, 45, 38, 50, 42, 39, 47) for number in range(5)]

    def width(gaps: int) -> timedelta:
        first = date(2026, 3, 25) - timedelta(days=42 * gaps)
        row = only(roots(*others, rhythm("Ada", f"{first}", *[42] * gaps)), client_id="Ada")
        return row["expected_high_on"] - row["expected_low_on"]

    assert width(12) < width(2) < width(0)


def test_an_overdue_client_is_expected_later_than_tomorrow_where_visits_are_skipped() -> None:
    """Two weeks past a regular six: she skipped one, and comes about when the next is due."""
    gaps = [42, 42, 42, 84] * 4
    others = [
        rhythm(f"C{number}", f"{date(2024, 1, 2) + timedelta(days=3 * number)}", *gaps[number % 4 :])
        for number in range(20)
    ]
    last = date(2026, 4, 1) - timedelta(days=56)
    row = only(roots(*others, rhythm("Ada", f"{last - timedelta(days=420)}", *[42] * 10)), client_id="Ada")
    assert abs((row["expected_on"] - last).days - 84) <= 7


@pytest.mark.parametrize("gaps", [[14600], [42, 14600, 42], [1] * 30, [3000] * 5])
def test_a_strange_history_gets_a_day_ahead_of_today(gaps: list[int]) -> None:
    first = date(2026, 3, 25) - timedelta(days=sum(gaps))
    row = only(roots(rhythm("Ada", f"{first}", *gaps)))
    assert date(2026, 4, 1) < row["expected_low_on"] <= row["expected_on"] <= row["expected_high_on"]
    assert row["expected_high_on"] < date(2027, 6, 1)
    assert 0 <= row["chance_of_return"] <= 1


def test_a_client_of_forty_years_ago_is_quiet() -> None:
    row = only(roots(coloured("V1", "1986-03-02"), rhythm("Bo", "2025-01-02", *[42] * 10)), client_id="Ada")
    assert (row["state"], row["expected_on"] > date(2026, 4, 1)) == ("quiet", True)


def test_closed_days_are_no_days_to_expect_anybody() -> None:
    """Due in the middle of 26 closed days: she comes as soon as the door is open again."""
    late = date(2026, 3, 25)
    closed = [late + timedelta(days=days) for days in range(30, 56)]
    visits = rhythm("Ada", f"{late - timedelta(days=420)}", *[42] * 10)
    row = only(roots(visits, salon=settings(hours={"closed": [f"{day}" for day in closed]})))
    assert not {row["expected_low_on"], row["expected_on"], row["expected_high_on"]} & set(closed)
    assert timedelta(days=56) <= row["expected_on"] - late <= timedelta(days=64)


def test_a_client_who_stays_away_far_longer_than_anyone_is_quiet() -> None:
    others = [rhythm(name, "2024-01-02", *[42] * 19) for name in ("Bo", "Cleo", "Dana", "Eli")]
    row = only(roots(rhythm("Ada", "2024-01-02", 42, 42, 42), *others), client_id="Ada")
    assert row["state"] == "quiet"


def test_kinds_have_lengths_of_their_own() -> None:
    salon = settings(roots={"by_kind": {"full_colour": {"touch_up_from_mm": 21, "touch_up_by_mm": 35}}})
    frame = roots(
        coloured("V1", "2026-03-02", "COLOUR", client_id="Ada"),
        coloured("V2", "2026-03-02", client_id="Bo"),
        salon=salon,
    )
    ready = dict(frame.select("client_id", "ready_from").iter_rows())
    assert ready == {"Ada": date(2026, 5, 1), "Bo": date(2026, 3, 31)}  # 21 ÷ 0.35 = 60 days; 10 ÷ 0.35 = 28.6


def test_who_may_be_contacted_is_a_no_unless_the_clients_table_says_yes() -> None:
    listed = clients({"client_id": "Ada", "client": "Ada Lark", "may_contact": True}, {"client_id": "Bo"})
    frame = roots(*[coloured(name, "2026-03-02", client_id=name) for name in ("Ada", "Bo", "Cleo")], clients=listed)
    asked = {row["client_id"]: (row["client"], row["may_contact"]) for row in frame.iter_rows(named=True)}
    assert asked == {"Ada": ("Ada Lark", True), "Bo": (None, False), "Cleo": (None, False)}


def test_days_are_days_over_a_clock_change() -> None:
    """Coloured late on the eve of the clock change: one day later it is one day."""
    late = visit("V1", "2026-03-28 23:30", 90, ("ROOTS", "60"))
    assert only(roots(late, as_of="2026-03-29"))["days_since"] == 1
