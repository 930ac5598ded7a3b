"""What a chair hour of each service earns."""

import polars as pl
import pytest
from frames import agrees, bookings, days, only, product_log, products, services, settings, small_salon, visit, work_out

from analytics.periods import Period

MENU = services(
    {"service_id": "FOILS", "kind": "lightening", "hands_on_min": 90, "processing_min": 30},
    {"service_id": "CUT", "kind": "cut", "hands_on_min": 40},
    {"service_id": "TALK", "hands_on_min": 0},
    {"service_id": "WASH", "hands_on_min": 0},
)


def hours(*visits: list[dict], menu: pl.DataFrame = MENU, **given: object) -> dict[str, float]:
    frame = work_out("chairs", bookings=bookings(*visits), services=menu, **given)
    return dict(frame.select("service_id", "chair_hours").iter_rows())


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("chairs", period=days("2026-02-01", "2026-04-01"), **small_salon()), "chairs")


def test_a_visits_time_is_shared_by_the_minutes_of_the_menu() -> None:
    assert hours(visit("V1", "2026-03-03 09:00", 240, ("FOILS", "100"), ("CUT", "40"))) == {"FOILS": 3.0, "CUT": 1.0}


def test_lines_without_minutes_on_the_menu_share_equally() -> None:
    assert hours(visit("V1", "2026-03-03 09:00", 60, ("TALK", "5"), ("WASH", "5"))) == {"TALK": 0.5, "WASH": 0.5}


def test_a_line_without_minutes_beside_one_with_takes_no_time() -> None:
    assert hours(visit("V1", "2026-03-03 09:00", 60, ("CUT", "5"), ("WASH", "5"))) == {"CUT": 1.0, "WASH": 0.0}


def test_a_visit_on_two_chairs_is_two_stays() -> None:
    on_one = visit("V1", "2026-03-03 09:00", 60, ("FOILS", "100"), chair="Window")
    on_other = [
        line | {"line": 2} for line in visit("V1", "2026-03-03 10:00", 30, ("CUT", "40"), chair="Basin", stylist="Noor")
    ]
    assert hours(on_one, on_other) == {"FOILS": 1.0, "CUT": 0.5}


def test_times_per_line_are_one_stay_from_the_first_start_to_the_last_end() -> None:
    foils = visit("V1", "2026-03-03 09:00", 60, ("FOILS", "100"))
    cut = [line | {"line": 2} for line in visit("V1", "2026-03-03 12:00", 60, ("CUT", "40"))]
    assert hours(foils, cut) == {"FOILS": 3.0, "CUT": 1.0}


def test_a_visit_over_midnight_and_a_months_end_belongs_to_the_month_it_starts_in() -> None:
    late = visit("V1", "2026-02-28 23:00", None, ("CUT", "40"), ends_at="2026-03-01 01:00")
    frame = work_out("chairs", bookings=bookings(late), services=MENU, period=days("2026-02-01", "2026-04-01"))
    assert frame.select("month", "chair_hours").rows() == [("2026-02", 2.0)]


@pytest.mark.parametrize(("night", "real_hours"), [("2026-03-29", 2.0), ("2026-10-25", 4.0), ("2026-03-22", 3.0)])
def test_a_visit_over_a_clock_change_has_its_real_length(night: str, real_hours: float) -> None:
    work = visit("V1", f"{night} 01:00", None, ("CUT", "40"), ends_at=f"{night} 04:00")
    assert hours(work, period=night[:7]) == {"CUT": real_hours}


def test_minutes_are_real_minutes_over_a_clock_change() -> None:
    assert hours(visit("V1", "2026-03-29 01:00", 120, ("CUT", "40"))) == {"CUT": 2.0}


def test_each_day_has_its_own_menu() -> None:
    menu = services(
        {"service_id": "CUT", "hands_on_min": 30},
        {"service_id": "CUT", "hands_on_min": 60, "tax_rate": "0", "valid_from": "2026-03-16"},
    )
    before = visit("V1", "2026-03-15 09:00", 60, ("CUT", "121"))
    after = visit("V2", "2026-03-16 09:00", 60, ("CUT", "121"))
    row = only(work_out("chairs", bookings=bookings(before, after), services=menu))
    assert (row["lines"], row["hands_on_hours"], str(row["net"])) == (2, 1.5, "221.0000")


def test_each_day_has_its_own_product_cost() -> None:
    prices = products(
        {"product_id": "DYE", "pack_g": "60", "pack_cost": "6"},
        {"product_id": "DYE", "pack_g": "60", "pack_cost": "12", "valid_from": "2026-03-16"},
    )
    log = product_log(
        {"logged_at": "2026-03-15", "service_id": "CUT", "product_id": "DYE", "mixed_g": "30"},
        {"logged_at": "2026-03-16", "service_id": "CUT", "product_id": "DYE", "mixed_g": "30"},
    )
    row = only(work_out("chairs", product_log=log, products=prices, services=MENU))
    assert str(row["product_cost"]) == "9.0000"  # 30 × 6 ÷ 60 + 30 × 12 ÷ 60


def test_missed_cancelled_and_booked_lines_earn_nothing() -> None:
    rows = [
        visit(status, "2026-03-03 09:00", 60, ("CUT", "40"), status=status)
        for status in ("no_show", "cancelled", "booked")
    ]
    assert hours(*rows) == {}


def test_a_refund_is_a_negative_line_and_a_tip_is_no_revenue() -> None:
    sale = visit("V1", "2026-03-03 09:00", 60, ("CUT", "121"), tip="10")
    refund = visit("V2", "2026-03-04 09:00", 0, ("CUT", "-60.50"))
    row = only(work_out("chairs", bookings=bookings(sale, refund), services=MENU))
    assert (str(row["gross"]), str(row["net"])) == ("60.5000", "50.0000")


def test_a_cut_period_counts_what_lies_in_it_and_scales_nothing() -> None:
    visits = [visit(f"V{day}", f"2026-03-{day} 09:00", 60, ("CUT", "40")) for day in (10, 20)]
    assert hours(*visits, period=days("2026-03-01", "2026-03-20")) == {"CUT": 1.0}


@pytest.mark.parametrize(("currency", "net", "cost"), [("JPY", "8264", "33"), ("KWD", "8264.463", "33.333")])
def test_currencies_without_cents_and_with_mils(currency: str, net: str, cost: str) -> None:
    log = product_log({"logged_at": "2026-03-03", "service_id": "CUT", "product_id": "DYE", "mixed_g": "20"})
    row = only(
        work_out(
            "chairs",
            bookings=bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "10000"))),
            services=MENU,
            product_log=log,
            products=products({"product_id": "DYE", "pack_g": "60", "pack_cost": "100"}),
            salon=settings(salon={"currency": currency}),
        )
    )
    assert (f"{row['net'].normalize():f}", f"{row['product_cost'].normalize():f}") == (net, cost)


@pytest.mark.parametrize("period", [days("2026-03-01", "2026-04-01"), days("2026-03-01", "2026-03-13")])
def test_an_open_hour_costs_the_same_however_the_period_is_cut(period: Period) -> None:
    """14,400 a month ÷ 2 chairs × 180 hours of March = 40.00, for its first twelve days too."""
    small = small_salon()
    salon = small["salon"].model_copy(update={"costs": settings(costs={"per_month": 14400}).costs})
    frame = work_out("chairs", period=period, **small | {"salon": salon})
    assert set(frame["cost_per_open_hour"]) == {40.0}
    covers = dict(frame.select("service_id", "covers_open_hour").iter_rows())
    assert (covers["FOILS"], covers["CUT"]) == (True, False)


def test_a_taken_hour_carries_what_being_open_costs_on_the_days_gone_by() -> None:
    """2,340 for 26 days of 9 h; by the 3rd two days are gone, 180 of it; one hour was taken, two in all March."""
    book = bookings(
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "190")), visit("V2", "2026-03-20 09:00", 60, ("CUT", "2500"))
    )
    given = {"bookings": book, "services": MENU, "salon": settings(costs={"per_month": 2340})}
    whole = only(work_out("chairs", **given))
    assert (whole["cost_per_open_hour"], whole["cost_per_taken_hour"]) == (10, 1170)
    cut = only(work_out("chairs", period=days("2026-03-01", "2026-03-04"), **given))
    assert (cut["cost_per_open_hour"], cut["cost_per_taken_hour"]) == (10, 180)
    assert (cut["covers_open_hour"], cut["carries_taken_hour"]) == (True, False)  # 190 with 21 % tax is 157.02 net


def test_without_costs_nothing_is_said_of_covering_them() -> None:
    row = only(work_out("chairs", bookings=bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "40"))), services=MENU))
    assert (row["cost_per_open_hour"], row["cost_per_taken_hour"], row["covers_open_hour"]) == (None, None, None)
