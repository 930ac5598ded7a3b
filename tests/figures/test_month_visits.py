"""Of the month's figures: hours left empty, next visits made, roots that are ready."""

from datetime import timedelta
from decimal import Decimal

import polars as pl
import pytest
from frames import (
    Row,
    bookings,
    days,
    services,
    visit,
    work_out,
)
from one_month import cut, figure, value

from analytics.periods import Period


def empty_hours(*visits: list[Row]) -> tuple[Decimal | None, Decimal | None]:
    return value("no_show_empty_hours", *visits), value("cancelled_empty_hours", *visits)


def at(booking_id: str, clock: str, minutes: int, status: str, **rest: object) -> list[Row]:
    return visit(booking_id, f"2026-03-03 {clock}", minutes, ("CUT", "100"), status=status, **rest)


def test_a_missed_visit_leaves_its_hours_empty_but_for_those_another_took() -> None:
    """Missed 10:00–12:00; 11:00–11:30 was taken by somebody else on that chair, and all of it on the other chair."""
    missed = at("V1", "10:00", 120, "no_show")
    walk_in, elsewhere = at("V2", "11:00", 30, "completed"), at("V3", "10:00", 120, "completed", chair="Mirror")
    assert empty_hours(missed, walk_in, elsewhere) == (Decimal("1.5"), 0)


def test_an_hour_cancelled_and_then_missed_was_left_empty_once() -> None:
    assert empty_hours(at("V1", "10:00", 60, "cancelled"), at("V2", "10:00", 60, "no_show")) == (1, 0)


def test_hours_left_empty_end_at_closing_time() -> None:
    assert empty_hours(at("V1", "17:30", 60, "cancelled")) == (0, Decimal("0.5"))


def test_rebooked_is_the_share_whose_next_visit_was_made_no_later_than_that_day() -> None:
    """Ada made hers on the day, Bo the day after, Cleo has none, Dana's was cancelled since but had been made."""
    made = {"Ada": ("2026-03-03", "completed"), "Bo": ("2026-03-04", "booked"), "Dana": ("2026-02-01", "cancelled")}
    now = [cut(name, "2026-03-03", client_id=name, booked_on="2026-01-09") for name in (*made, "Cleo")]
    later = [
        cut(f"{name}2", "2026-04-07", client_id=name, booked_on=day, status=status)
        for name, (day, status) in made.items()
    ]
    assert value("rebooked_share", *now, *later) == Decimal("0.5")


def test_a_next_visit_that_does_not_say_when_it_was_made_is_left_out() -> None:
    visits = (
        cut("V1", "2026-03-03", client_id="Ada", booked_on="2026-02-01"),
        cut("V2", "2026-04-03", client_id="Ada"),
        cut("V3", "2026-03-03", client_id="Bo", booked_on="2026-02-01"),
    )
    assert value("rebooked_share", *visits) == 0
    assert value("rebooked_share", *visits[:2]) is None


ROOTS = services({"service_id": "CUT", "kind": "root_touch_up"})


def ready(*visits: list[Row], month: str = "2026-03", **given: object) -> Decimal | None:
    cover = days("2026-01-01", "2026-06-01")
    frame = work_out("month", bookings=bookings(*visits), services=ROOTS, period=month, cover=cover, **given)
    return figure(frame, "roots_ready", month)["value"]


@pytest.mark.parametrize(("day", "count"), [("2026-03-03", 0), ("2026-03-02", 1), ("2026-01-04", 1), ("2026-01-03", 0)])
def test_roots_are_ready_between_the_two_lengths_on_the_last_day_of_the_month(day: str, count: int) -> None:
    """10 mm at 0.35 a day is reached on day 29, 30 mm on day 86, counted back from 31 March."""
    assert ready(cut("V1", day)) == count


def test_roots_with_a_visit_ahead_are_not_ready_where_it_had_been_made_by_then() -> None:
    first = cut("V1", "2026-02-10", booked_on="2026-02-01")
    assert ready(first, cut("V2", "2026-04-14", booked_on="2026-02-10")) == 0
    assert ready(first, cut("V2", "2026-04-14", booked_on="2026-04-02")) == 1
    assert ready(first, cut("V2", "2026-04-14", booked_on="2026-02-10", status="cancelled")) == 1


def test_roots_of_a_past_month_are_not_told_where_no_visit_says_when_it_was_made() -> None:
    assert ready(cut("V1", "2026-02-10"), cut("V2", "2026-04-14")) is None


def test_measured_growth_counts_from_the_day_it_was_measured() -> None:
    """12 mm in 20 days on 20 February: prior 0.35 ± 0.075 becomes (62.22 + 106.67) ÷ (177.78 + 177.78) = 0.475 a day.

    On 28 February that is 13.3 mm after 28 days instead of 9.8.
    """
    book = (
        cut("V1", "2026-01-31", booked_on="2026-01-01"),
        visit("V2", "2026-02-20 09:00", 30, ("TRIM", "9"), regrowth_mm=12.0),
    )
    menu = services({"service_id": "CUT", "kind": "root_touch_up"}, {"service_id": "TRIM", "kind": "cut"})
    given = {"services": menu, "period": "2026-02", "cover": days("2026-01-01", "2026-04-01")}
    frame = work_out("month", bookings=bookings(*book), **given)
    assert figure(frame, "roots_ready", "2026-02")["value"] == 1
    unmeasured = bookings(book[0], [line | {"regrowth_mm": None} for line in book[1]])
    assert figure(work_out("month", bookings=unmeasured, **given), "roots_ready", "2026-02")["value"] == 0


def test_roots_ready_today_are_those_of_the_roots_figure() -> None:
    """Those between the two lengths by the roots figure, by growth alone and without a visit booked."""
    gaps = [(f"V{n}", f"2026-{1 + n % 3:02}-{1 + n:02}", f"Client {n % 9}") for n in range(27)]
    book = bookings(
        *[
            cut(name, day, client_id=client, regrowth_mm=float(5 + at % 7))
            for at, (name, day, client) in enumerate(gaps)
        ],
        cut("B", "2026-04-20", client_id="Client 1", status="booked"),
    )
    today = Period.month("2026-03").end - timedelta(days=1)
    given = {"bookings": book, "services": ROOTS, "as_of": today.isoformat()}
    lengths = work_out("roots", **given)
    between = (pl.col("ready_from") <= today) & (pl.col("ready_by") >= today) & pl.col("booked_on").is_null()
    count = lengths.filter(between).height
    assert count > 0
    assert figure(work_out("month", **given), "roots_ready")["value"] == count


def test_overlapping_visits_count_once_in_the_occupied_share() -> None:
    """Two visits at the same hour on the one chair: 1 of 234 open hours, 26 days of 9."""
    share = value("occupied_share", cut("V1", "2026-03-03"), cut("V2", "2026-03-03"))
    assert float(share) == pytest.approx(1 / 234, abs=5e-5)
