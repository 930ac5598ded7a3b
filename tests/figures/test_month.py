"""The month in figures, beside the months before."""

from decimal import Decimal

import polars as pl
import pytest
from frames import Row, agrees, bookings, days, sales, services, settings, small_salon, visit, work_out

from analytics.periods import Period, add_months

MENU = services({"service_id": "CUT", "kind": "cut", "tax_rate": "0", "hands_on_min": 45})
YEAR = days("2025-03-01", "2026-04-01")


def figure(frame: pl.DataFrame, name: str, month: str = "2026-03") -> Row:
    return frame.row(by_predicate=(pl.col("figure") == name) & (pl.col("month") == month), named=True)


def value(name: str, *visits: list[Row], **given: object) -> Decimal | None:
    return figure(work_out("month", bookings=bookings(*visits), services=MENU, **given), name)["value"]


def cut(booking_id: str, day: str, price: str = "100", **rest: object) -> list[Row]:
    return visit(booking_id, f"{day} 10:00", 60, ("CUT", price), **rest)


def a_year(*net: int) -> pl.DataFrame:
    """Net revenue of months that follow each other up to March 2026, one visit on the 10th of each."""
    first = add_months(Period.month("2026-03").start, 1 - len(net))
    return bookings(
        *[cut(f"V{n}", f"{add_months(first, n):%Y-%m}-10", str(price)) for n, price in enumerate(net) if price]
    )


def test_equals_the_answer_worked_by_hand() -> None:
    frame = work_out("month", cover=days("2026-02-01", "2026-04-01"), **small_salon())
    agrees(frame.with_columns(pl.col("value", "previous").cast(pl.Float64)), "month")
    assert frame["value"].dtype == pl.Decimal(38, 4)


def test_a_month_stands_beside_the_one_before_and_the_same_a_year_ago() -> None:
    book = a_year(50, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 80, 100)
    row = figure(work_out("month", bookings=book, services=MENU, cover=YEAR), "net_revenue")
    assert (row["value"], row["previous"], row["year_ago"]) == (100, 80, 50)


def test_the_usual_range_is_the_chart_of_the_12_months_before() -> None:
    """Mean of 100, 110, 100, … is 105, every moving range 10: 105 ± 26.6. This month's own 900 is not in it."""
    book = a_year(*[100, 110] * 6, 900)
    row = figure(work_out("month", bookings=book, services=MENU, cover=YEAR), "net_revenue")
    assert (f"{row['usual_low']:.2f}", f"{row['usual_high']:.2f}") == ("78.40", "131.60")


def test_the_usual_range_is_empty_until_there_are_12_months() -> None:
    book = a_year(*[100] * 12)
    row = figure(work_out("month", bookings=book, services=MENU, cover=days("2025-04-01", "2026-04-01")), "net_revenue")
    assert (row["previous"], row["usual_low"], row["usual_high"]) == (100, None, None)


def test_an_empty_month_has_every_row_with_nothing_to_divide() -> None:
    frame = work_out("month")
    empty = set(frame.filter(pl.col("value").is_null())["figure"])
    assert empty == {
        "average_visit",
        "occupied_share",
        "net_per_chair_hour",
        "product_share",
        "retail_share",
        "no_show_share",
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


def test_a_part_month_is_not_scaled_and_stands_beside_the_whole_month_before() -> None:
    book = bookings(cut("V1", "2026-02-24"), cut("V2", "2026-03-03"), cut("V3", "2026-03-24"))
    march = days("2026-03-01", "2026-03-15")
    frame = work_out("month", bookings=book, services=MENU, period=march, cover=days("2026-02-01", "2026-04-01"))
    row = figure(frame, "net_revenue")
    assert (row["value"], row["previous"]) == (100, 100)
    assert figure(frame, "open_days")["value"] == 12  # 2–7 and 9–14 March, Monday to Saturday


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


def test_overlapping_visits_count_once_in_the_occupied_share() -> None:
    """Two visits at the same hour on the one chair: 1 of 234 open hours, 26 days of 9."""
    share = value("occupied_share", cut("V1", "2026-03-03"), cut("V2", "2026-03-03"))
    assert float(share) == pytest.approx(1 / 234, abs=5e-5)


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
