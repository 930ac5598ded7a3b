"""What was paid, by month and method."""

from frames import agrees, days, only, payments, small_salon, work_out


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("takings", period=days("2026-02-01", "2026-04-01"), **small_salon()), "takings")


def test_refunds_are_taken_off_and_fees_added_up() -> None:
    paid = payments(
        {"paid_at": "2026-03-03", "amount": "100", "fee": "1.50"},
        {"paid_at": "2026-03-09", "amount": "-40", "fee": "0.25"},
    )
    row = only(work_out("takings", payments=paid))
    assert (row["method"], row["amount"], f"{row['fees']:.2f}") == ("card", 60, "1.75")


def test_a_payment_counts_on_the_day_it_was_made() -> None:
    paid = payments({"paid_at": "2026-02-28 23:59", "amount": "1"}, {"paid_at": "2026-03-01 00:00", "amount": "2"})
    frame = work_out("takings", payments=paid, period=days("2026-02-01", "2026-04-01"))
    assert frame.select("month", "amount").rows() == [("2026-02", 1), ("2026-03", 2)]


def test_a_cut_period_holds_its_first_day_and_not_its_last() -> None:
    paid = payments(*[{"paid_at": f"2026-03-{day}", "amount": "1"} for day in (10, 11, 12)])
    assert only(work_out("takings", payments=paid, period=days("2026-03-10", "2026-03-12")))["amount"] == 2


def test_mils_are_kept() -> None:
    paid = payments(*[{"paid_at": "2026-03-03", "amount": "0.001"}] * 3)
    assert f"{only(work_out('takings', payments=paid))['amount']:.3f}" == "0.003"
