"""What was paid, by day and method."""

from frames import agrees, days, payments, settings, small_salon, work_out

BOTH = days("2026-02-01", "2026-04-01")


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("takings_by_day", period=BOTH, **small_salon()), "takings_by_day")


def test_salons_of_a_group_and_ways_of_paying_stand_apart_and_midnight_parts_days() -> None:
    paid = payments(
        {"paid_at": "2026-03-03 23:59", "amount": "10", "site": "North"},
        {"paid_at": "2026-03-03 23:59", "amount": "20", "site": "South"},
        {"paid_at": "2026-03-04 00:00", "amount": "-4", "site": "North", "method": "cash"},
    )
    frame = work_out("takings_by_day", payments=paid, period=days("2026-03-03", "2026-03-05"))
    assert frame.select("site", "method", "amount", "refunds").rows() == [
        ("North", "card", 10, 0),
        ("South", "card", 20, 0),
        ("North", "cash", -4, -4),
    ]


def test_a_fee_is_assumed_where_none_is_stated() -> None:
    """1.5 % of 100.00 by card."""
    paid = payments({"paid_at": "2026-03-03", "amount": "100"})
    row = work_out("takings_by_day", payments=paid, salon=settings(costs={"card_fee_percent": 1.5})).to_dicts()[0]
    assert (row["fees"], f"{row['assumed_fees']:.2f}") == (0, "1.50")


def test_a_day_outside_the_period_is_not_in_it() -> None:
    paid = payments({"paid_at": "2026-03-05 00:00", "amount": "1"})
    assert work_out("takings_by_day", payments=paid, period=days("2026-03-03", "2026-03-05")).is_empty()
