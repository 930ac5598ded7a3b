"""What was earned in a whole period."""

from frames import agrees, bookings, days, services, small_salon, visit, work_out

BOTH = days("2026-02-01", "2026-04-01")


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("revenue_of_period", period=BOTH, **small_salon()), "revenue_of_period")


def test_salons_of_a_group_stand_apart_and_a_cut_period_holds_its_first_day_and_not_its_last() -> None:
    book = bookings(
        *[
            visit(f"V{day}", f"2026-03-{day} 09:00", 60, ("CUT", "121"), site=site)
            for day, site in ((10, "North"), (11, "South"), (12, "South"))
        ]
    )
    menu = services(*[{"service_id": "CUT", "site": site} for site in ("North", "South")])
    frame = work_out("revenue_of_period", bookings=book, services=menu, period=days("2026-03-10", "2026-03-12"))
    assert frame.select("site", "lines", "net").rows() == [("North", 1, 100), ("South", 1, 100)]


def test_a_refund_is_a_line_below_nothing() -> None:
    book = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "121"), ("CUT", "-121")))
    frame = work_out("revenue_of_period", bookings=book, services=services({"service_id": "CUT"}))
    assert frame.select("lines", "gross", "net", "tax").rows() == [(2, 0, 0, 0)]
