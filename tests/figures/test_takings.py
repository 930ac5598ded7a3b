"""What was paid, by month and method."""

from decimal import Decimal

from frames import agrees, days, only, payments, settings, small_salon, work_out


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


def test_payments_refunds_and_fees_that_are_assumed_where_none_is_stated() -> None:
    """1.5 % of 100.00 and of −40.00 paid by card: 1.50 − 0.60; of cash nothing."""
    salon = settings(costs={"card_fee_percent": 1.5})
    rows = [
        {"paid_at": "2026-03-03", "amount": "100"},
        {"paid_at": "2026-03-09", "amount": "-40"},
        {"paid_at": "2026-03-09", "amount": "10", "method": "cash"},
    ]
    frame = work_out("takings", payments=payments(*rows), salon=salon)
    told = ["method", "payments", "refunds", "fees", "assumed_fees"]
    assert frame.select(told).rows() == [("card", 2, -40, 0, Decimal("0.90")), ("cash", 1, 0, 0, 0)]
    stated = work_out("takings", payments=payments(*rows, rows[0] | {"fee": "0.10"}), salon=salon)
    assert set(stated["assumed_fees"]) == {0}


def test_an_empty_month_has_no_row() -> None:
    paid = payments({"paid_at": "2026-02-28 23:59", "amount": "1"})
    assert work_out("takings", payments=paid, cover=days("2026-02-01", "2026-04-01")).is_empty()
