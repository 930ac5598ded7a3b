"""What was taken off prices."""

from frames import agrees, bookings, days, sales, services, small_salon, visit, work_out

BOTH = days("2026-02-01", "2026-04-01")


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("discounts", period=BOTH, **small_salon()), "discounts")


def test_a_refund_takes_its_discount_back_and_both_are_counted() -> None:
    book = bookings(
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "60"), discount="6"),
        visit("V2", "2026-03-04 09:00", 60, ("CUT", "-60"), discount="-6"),
        visit("V3", "2026-03-05 09:00", 60, ("CUT", "60")),
    )
    frame = work_out("discounts", bookings=book, services=services({"service_id": "CUT", "kind": "cut"}))
    assert frame.drop("site").rows() == [("services", "cut", 2, 0)]


def test_salons_of_a_group_and_retail_stand_apart() -> None:
    book = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "60"), discount="6", site="South"))
    sold = sales({"sold_at": "2026-03-03", "product_id": "P1", "price": "10", "discount": "1", "site": "North"})
    frame = work_out("discounts", bookings=book, services=services({"service_id": "CUT", "site": "South"}), sales=sold)
    assert frame.rows() == [("North", "retail", "retail", 1, 1), ("South", "services", "other", 1, 6)]
