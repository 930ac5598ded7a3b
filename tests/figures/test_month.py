"""The month in figures, beside the months before."""

from decimal import Decimal

import polars as pl
import pytest
from frames import (
    agrees,
    bookings,
    days,
    product_log,
    products,
    sales,
    services,
    settings,
    small_salon,
    work_out,
)
from one_month import MENU, cut, figure, value

from analytics.periods import Period, add_months

YEAR = days("2025-03-01", "2026-04-01")


def a_year(*net: int) -> pl.DataFrame:
    """Net revenue of months that follow each other up to March 2026, one visit on the 10th of each."""
    first = add_months(Period.month("2026-03").start, 1 - len(net))
    return bookings(
        *[cut(f"V{n}", f"{add_months(first, n):%Y-%m}-10", str(price)) for n, price in enumerate(net) if price]
    )


def test_equals_the_answer_worked_by_hand() -> None:
    frame = work_out("month", cover=days("2026-02-01", "2026-04-01"), **small_salon())
    agrees(frame.with_columns(pl.col("value", "previous").cast(pl.Float64)), "month")
    assert frame["flag"].null_count() == frame.height
    assert frame["value"].dtype == pl.Decimal(38, 4)


def test_a_month_stands_beside_the_one_before_and_the_same_a_year_ago() -> None:
    book = a_year(50, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 80, 100)
    row = figure(work_out("month", bookings=book, services=MENU, cover=YEAR), "net_revenue")
    assert (row["value"], row["previous"], row["year_ago"]) == (100, 80, 50)


def test_three_months_before_it_give_a_month_a_range_and_fewer_none() -> None:
    book = a_year(*[100] * 12)
    frame = work_out("month", bookings=book, services=MENU, period=YEAR, cover=days("2025-04-01", "2026-04-01"))
    known = frame.filter(figure="net_revenue").select("months_before", pl.col("usual_low").is_not_null())
    assert known.rows() == [(before, before >= 3) for before in range(12)]


def test_an_empty_month_has_every_row_with_nothing_to_divide() -> None:
    frame = work_out("month")
    empty = set(frame.filter(pl.col("value").is_null())["figure"])
    assert empty == {
        "average_visit",
        "occupied_share",
        "net_per_chair_hour",
        "product_share",
        "left_cost",
        "open_cost",
        "left_after_costs",
        "retail_share",
        "no_show_share",
        "cancelled_share",
        "rebooked_share",
    }
    assert frame.filter(figure="net_revenue")["value"].to_list() == [0]


def test_an_empty_month_between_two_others_counts_as_nothing_earned() -> None:
    frame = work_out(
        "month", bookings=a_year(100, 0, 90), services=MENU, period=days("2026-01-01", "2026-04-01")
    ).filter(figure="net_revenue")
    assert frame.select("value", "previous").rows() == [(100, None), (0, 100), (90, 0)]


@pytest.mark.parametrize(
    ("period", "as_of", "part"),
    [
        (days("2026-03-01", "2026-04-01"), "2026-04-01", False),
        (days("2026-03-01", "2026-04-01"), "2026-03-31", True),
        (days("2026-03-02", "2026-04-01"), "2026-05-01", True),
        (days("2026-03-01", "2026-03-31"), "2026-05-01", True),
    ],
)
def test_a_month_that_is_cut_or_not_over_is_said_to_be_a_part(period: Period, as_of: str, part: bool) -> None:
    assert set(work_out("month", period=period, as_of=as_of)["part_month"]) == {part}


def test_a_part_month_is_not_scaled_and_stands_beside_the_same_days_of_the_month_before() -> None:
    """1–14 March beside 1–14 February: the visit of the 24th is not held against it."""
    book = bookings(cut("V0", "2026-02-14"), cut("V1", "2026-02-24"), cut("V2", "2026-03-03"), cut("V3", "2026-03-24"))
    march = days("2026-03-01", "2026-03-15")
    frame = work_out("month", bookings=book, services=MENU, period=march, cover=days("2026-02-01", "2026-04-01"))
    row = figure(frame, "net_revenue")
    assert (row["value"], row["previous"]) == (100, 100)
    assert figure(frame, "open_days")["value"] == 12  # 2–7 and 9–14 March, Monday to Saturday


def test_a_month_that_is_not_over_stands_beside_the_days_gone_by_of_the_months_before() -> None:
    """On 10 March the visit of 10 February counts, that of the 11th does not; so it is with what was to be expected."""
    book = bookings(
        *[cut(f"V{month}", f"{month}-10", "100") for month in YEAR.months()],
        *[cut(f"W{month}", f"{month}-11", "50") for month in YEAR.months()[:-1]],
    )
    frame = work_out("month", bookings=book, services=MENU, cover=YEAR, as_of="2026-03-10")
    row = figure(frame, "net_revenue")
    assert (row["value"], row["previous"], row["year_ago"]) == (100, 100, 100)
    assert (row["part_month"], row["judged"], row["flag"]) == (True, False, None)
    assert row["usual_low"] < 100 < row["usual_high"] and 90 < row["expected"] < 130


def test_a_month_that_is_not_over_has_the_open_days_and_hours_gone_by() -> None:
    """Up to Tuesday 10 March: 8 days of 9 h, one hour of them taken."""
    frame = work_out("month", bookings=bookings(cut("V1", "2026-03-03")), services=MENU, as_of="2026-03-10")
    assert figure(frame, "open_days")["value"] == 8
    assert figure(frame, "net_per_open_day")["value"] == Decimal("12.5")
    assert float(figure(frame, "occupied_share")["value"]) == pytest.approx(1 / 72, abs=5e-5)


def test_days_that_the_month_before_does_not_have_stand_beside_nothing() -> None:
    book = bookings(cut("V1", "2026-02-28"), cut("V2", "2026-03-30"))
    cover = days("2026-02-01", "2026-04-01")
    frame = work_out("month", bookings=book, services=MENU, period=days("2026-03-29", "2026-04-01"), cover=cover)
    row = figure(frame, "net_revenue")
    assert (row["value"], row["previous"]) == (100, None)


def test_a_refund_is_no_visit_and_takes_its_revenue_off() -> None:
    visits = cut("V1", "2026-03-03"), cut("V2", "2026-03-04", "-40")
    assert (value("visits", *visits), value("net_revenue", *visits)) == (1, 60)


def test_new_clients_are_those_whose_first_visit_lies_in_the_month() -> None:
    visits = (
        cut("V1", "2026-02-03", client_id="Ada"),
        cut("V2", "2026-03-03", client_id="Ada"),
        cut("V3", "2026-03-03", client_id="Bo"),
        cut("V4", "2026-03-03", client_id="Cleo", status="no_show"),
    )
    assert (value("clients", *visits), value("new_clients", *visits)) == (2, 1)


def test_the_no_show_share_leaves_cancelled_and_booked_visits_out() -> None:
    statuses = ("completed", "completed", "completed", "no_show", "cancelled", "booked")
    visits = [cut(f"V{n}", "2026-03-03", status=status) for n, status in enumerate(statuses)]
    assert value("no_show_share", *visits) == Decimal("0.25")


def test_the_cancelled_share_is_of_all_visits_that_were_due() -> None:
    statuses = ("completed", "completed", "no_show", "cancelled", "booked")
    visits = [cut(f"V{n}", "2026-03-03", status=status) for n, status in enumerate(statuses)]
    assert value("cancelled_share", *visits) == Decimal("0.25")


def test_what_is_left_is_what_came_in_less_product_less_what_being_open_costs() -> None:
    """1,000 net, a bowl of 60 g at 9.00, costs of 1,300 a month: 309 short. On the 3rd, 2 of 26 days are gone: 100."""
    given = {
        "salon": settings(costs={"per_month": 1300}),
        "product_log": product_log({"logged_at": "2026-03-03", "product_id": "DYE", "mixed_g": "60"}),
        "products": products({"product_id": "DYE"}),
    }
    visits = cut("V1", "2026-03-03", "1000")
    assert (value("open_cost", visits, **given), value("left_after_costs", visits, **given)) == (1300, -309)
    so_far = given | {"as_of": "2026-03-03"}
    assert (value("open_cost", visits, **so_far), value("left_after_costs", visits, **so_far)) == (100, 891)


def test_a_month_that_is_closed_or_empty_costs_as_much_as_any_other() -> None:
    salon = settings(costs={"per_month": 1300})
    assert value("left_after_costs", salon=salon) == -1300
    assert value("left_after_costs", salon=settings(costs={"per_month": 1300}, hours={})) == -1300


def test_a_refund_takes_from_what_is_left() -> None:
    salon = settings(costs={"per_month": 50})
    assert value("left_after_costs", cut("V1", "2026-03-03"), cut("V2", "2026-03-04", "-40"), salon=salon) == 10


def test_what_was_to_be_left_is_what_was_to_come_in_less_product_and_costs() -> None:
    """Twelve months at 100 and one at 40, costs of 30: 10 left, where what was to come in less 30 was expected."""
    frame = work_out(
        "month", bookings=a_year(*[100] * 12, 40), services=MENU, cover=YEAR, salon=settings(costs={"per_month": 30})
    )
    left, came = figure(frame, "left_after_costs"), figure(frame, "net_revenue")
    assert (left["value"], left["judged"], left["flag"]) == (10, True, came["flag"])
    assert [came[name] - left[name] for name in ("expected", "usual_low", "usual_high")] == [30, 30, 30]
    assert (left["from_expected"], left["months_before"]) == (came["from_expected"], came["months_before"])


def test_no_shows_are_told_at_the_price_they_would_have_brought() -> None:
    """50 less 10 with 25 % tax is 32 net; a cancelled and a made visit are no no-show."""
    menu = services({"service_id": "CUT", "kind": "cut", "tax_rate": "25"})
    visits = [
        cut("V1", "2026-03-03", "50", status="no_show", discount="10"),
        cut("V2", "2026-03-03", "70", status="cancelled"),
        cut("V3", "2026-03-04", "80"),
    ]
    frame = work_out("month", bookings=bookings(*visits), services=menu)
    assert (figure(frame, "no_show_net")["value"], figure(frame, "net_revenue")["value"]) == (32, 64)


def test_days_closed_are_those_on_which_it_opens_in_other_weeks() -> None:
    """Closed from Friday 6 to Sunday 8 March: two days, since it never opens on Sundays."""
    hours = dict.fromkeys(("mon", "tue", "wed", "thu", "fri", "sat"), "09:00-18:00")
    closed = settings(hours=hours | {"closed": ["2026-03-06", "2026-03-07", "2026-03-08"]})
    frame = work_out("month", salon=closed)
    assert (figure(frame, "closed_days")["value"], figure(frame, "open_days")["value"]) == (2, 24)


def test_retail_is_in_the_net_revenue_and_not_in_the_average_visit() -> None:
    sold = sales({"sold_at": "2026-03-03", "product_id": "SHAM", "price": "25", "tax_rate": "0"})
    assert value("net_revenue", cut("V1", "2026-03-03"), sales=sold) == 125
    assert value("average_visit", cut("V1", "2026-03-03"), sales=sold) == 100
    assert value("retail_share", cut("V1", "2026-03-03"), sales=sold) == Decimal("0.2")


def test_units_are_written_in_the_salons_currency() -> None:
    frame = work_out("month", salon=settings(salon={"currency": "JPY"}))
    assert figure(frame, "net_revenue")["unit"] == "JPY"
    assert figure(frame, "net_per_chair_hour")["unit"] == "JPY/h"


def test_net_and_gross_are_those_of_the_tax_figure() -> None:
    small = small_salon()
    frame, tax = work_out("month", **small), work_out("tax", **small)
    assert figure(frame, "net_revenue")["value"] == tax["net"].sum()
    assert figure(frame, "gross_revenue")["value"] == tax["gross"].sum()
