"""What was due and received, by day and method."""

from frames import agrees, bookings, days, payments, services, small_salon, visit, work_out

BOTH = days("2026-02-01", "2026-04-01")


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("reconciliation_by_method", period=BOTH, **small_salon()), "reconciliation_by_method")


def of_one_visit(*paid: dict[str, str]) -> list[tuple[str, str, str, str]]:
    """method, due, received and difference of a cut for 60.00."""
    book = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "60")), visit("V2", "2026-03-04 09:00", 60))
    given = [{"paid_at": "2026-03-03 10:00", "booking_id": "V1"} | one for one in paid]
    also = {"paid_at": "2026-03-09 10:00", "booking_id": "V2", "amount": "0"}  # so that payments name their visits
    frame = work_out(
        "reconciliation_by_method",
        bookings=book,
        services=services({"service_id": "CUT"}),
        payments=payments(*given, also),
    )
    return [(row[0], *(f"{amount:.2f}" for amount in row[1:])) for row in frame.drop("day", "site").rows()]


def test_a_difference_stands_with_the_last_way_of_paying() -> None:
    """30.00 by card, then 29.00 in cash: 1.00 is missing of what was to come in cash."""
    split = [{"amount": "30"}, {"amount": "29", "method": "cash", "paid_at": "2026-03-03 10:05"}]
    assert of_one_visit(*split) == [("card", "30.00", "30.00", "0.00"), ("cash", "30.00", "29.00", "-1.00")]


def test_what_was_not_paid_at_all_stands_with_no_method() -> None:
    assert of_one_visit() == [("", "60.00", "0.00", "-60.00")]


def test_what_was_paid_and_given_back_leaves_what_was_due() -> None:
    assert of_one_visit({"amount": "60"}, {"amount": "-60", "paid_at": "2026-03-03 11:00"}) == [
        ("card", "60.00", "0.00", "-60.00")
    ]


def test_a_voucher_is_a_way_of_paying() -> None:
    assert of_one_visit({"amount": "60", "method": "voucher"}) == [("voucher", "60.00", "60.00", "0.00")]
