"""What each account of the balance stands at."""

from frames import agrees, days, only, small_salon, work_out

BOTH = days("2026-02-01", "2026-04-01")


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("balances", period=BOTH, **small_salon()), "balances")


def test_what_moved_before_the_period_stands_in_its_opening() -> None:
    """March alone: February's 101.00 less 1.01 by card stand in the opening."""
    salon = small_salon()
    march = {
        row["account"]: row for row in work_out("balances", period=days("2026-03-01", "2026-04-01"), **salon).to_dicts()
    }
    both = {row["account"]: row for row in work_out("balances", period=BOTH, **salon).to_dicts()}
    assert f"{march['Card payments']['opening']:.2f}" == "99.99"
    assert {name: row["closing"] for name, row in march.items()} == {name: row["closing"] for name, row in both.items()}


def test_accounts_that_are_called_alike_are_one() -> None:
    salon = small_salon()
    till = salon["salon"].accounts.model_copy(update={"cash": "Till", "card": "Till"})
    salon["salon"] = salon["salon"].model_copy(update={"accounts": till})
    frame = work_out("balances", period=BOTH, **salon)
    assert f"{only(frame, account='Till')['closing']:.2f}" == "394.44"  # 283.34 + 111.10
    assert "Cash" not in frame["account"]


def test_income_and_expenses_have_no_balance() -> None:
    assert not {"Services", "Retail", "Payment fees"} & set(
        work_out("balances", period=BOTH, **small_salon())["account"]
    )
