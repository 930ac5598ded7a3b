"""What was bought, used and left at cost, month by month."""

from decimal import Decimal

import polars as pl
import pytest
from frames import agrees, days, product_log, products, settings, small_salon, table, work_out

BOTH = days("2026-02-01", "2026-04-01")
DYE = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "6"})
MONEY = ("opening", "found", "purchases", "used", "unexplained", "closing")


def by_month(*moves: tuple[str, str, object], **given: object) -> pl.DataFrame:
    named = ({"product_id": "DYE", "moved_at": at, "movement": what, "packs": packs} for at, what, packs in moves)
    moved = table("stock_moves", list(named))
    return work_out("stock_months", stock_moves=moved, **{"products": DYE, "period": BOTH, "cover": BOTH} | given)


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("stock_months", period=BOTH, **small_salon()), "stock_months")


def test_without_a_delivery_or_count_there_is_no_row() -> None:
    bowl = product_log({"product_id": "DYE", "logged_at": "2026-03-02 10:00", "mixed_g": "30"})
    assert by_month().is_empty()
    assert by_month(product_log=bowl).is_empty()


def test_a_month_without_a_movement_keeps_what_was_there() -> None:
    frame = by_month(("2026-02-03", "delivery", 2))
    assert frame.select(MONEY).rows() == [(0, 0, 12, 0, 0, 12), (12, 0, 0, 0, 0, 12)]


def test_what_is_sent_back_is_used_and_what_is_found_too_much_is_taken_off() -> None:
    """4 packs bought, 1 sent back; the count of March finds 5 where 3 should be: 12.00 too much."""
    frame = by_month(("2026-02-03", "delivery", 4), ("2026-02-10", "returned", 1), ("2026-02-20", "count", 3),
                     ("2026-03-20", "count", 5))  # fmt: skip
    assert frame.select("used", "unexplained", "closing").rows() == [(6, 0, 18), (-12, -12, 30)]


@pytest.mark.parametrize("valuation", ["average", "fifo"])
def test_the_parts_add_up_to_the_last_digit(valuation: str) -> None:
    small = small_salon()
    salon = small["salon"].model_copy(update={"stock": settings(stock={"valuation": valuation}).stock})
    for row in work_out("stock_months", period=BOTH, **small | {"salon": salon}).to_dicts():
        assert row["opening"] + row["found"] + row["purchases"] - row["used"] == row["closing"]


def test_a_product_whose_cost_is_not_known_is_in_none_of_the_sums() -> None:
    frame = by_month(("2026-02-03", "delivery", 2), products=products({"product_id": "DYE", "pack_cost": None}))
    assert frame.select("purchases", "closing", "without_cost").rows() == [(0, 0, 1), (Decimal(0), 0, 1)]
