"""All shelves in one row."""

from decimal import Decimal

import pytest
from frames import agrees, only, product_log, products, sales, small_salon, table, work_out

DYE = products(
    {"product_id": "DYE", "pack_g": "60", "pack_cost": "6"},
    {"product_id": "OIL", "kind": "retail", "pack_g": "100", "pack_cost": "5"},
)


def moves(*rows: tuple[str, str, str, object]):
    named = ({"product_id": who, "moved_at": at, "movement": what, "packs": packs} for who, at, what, packs in rows)
    return table("stock_moves", list(named))


def shelf(**given: object) -> dict:
    return only(work_out("shelf", **{"products": DYE} | given))


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("shelf", **small_salon()), "shelf")


def test_without_stock_there_is_no_row() -> None:
    assert work_out("shelf").is_empty()
    assert work_out("shelf", products=DYE).is_empty()


def test_a_product_in_use_that_was_never_delivered_nor_counted_is_unknown() -> None:
    row = shelf(product_log=product_log({"product_id": "DYE", "logged_at": "2026-03-30 10:00", "mixed_g": "30"}))
    assert (row["products"], row["unknown_products"], row["packs"]) == (1, 1, 0)
    assert (row["closing_value"], row["likely_share"], row["unexplained_cost"]) == (None, None, None)


def test_found_too_much_is_taken_off_what_is_missing_and_is_in_no_rest() -> None:
    """60 g of dye, 6.00, are missing; two pieces of oil, 10.00, are found: −4.00 in all, of which 6.00 went."""
    row = shelf(
        stock_moves=moves(
            ("DYE", "2026-03-01", "count", 5), ("OIL", "2026-03-01", "count", 1),
            ("DYE", "2026-03-20", "count", 4), ("OIL", "2026-03-20", "count", 3),
        )
    )  # fmt: skip
    assert (row["unexplained_cost"], row["unlogged_cost"], row["unaccounted_cost"]) == (-4, 0, 6)
    assert (row["counted_products"], row["unlogged_share"], row["logged_share"]) == (2, 0, None)


def test_below_zero_is_counted_and_worth_nothing() -> None:
    row = shelf(
        stock_moves=moves(("DYE", "2026-03-01", "delivery", 1), ("OIL", "2026-03-01", "delivery", 1)),
        product_log=product_log({"product_id": "DYE", "logged_at": "2026-03-02 10:00", "mixed_g": "90"}),
    )
    assert (row["below_zero_products"], row["closing_value"], row["last_counted_on"]) == (1, 5, None)


@pytest.mark.parametrize(("sold_at", "slow"), [(None, 1), ("2026-03-31 10:00", 0)])
def test_slow_is_what_hardly_sells(sold_at: str | None, slow: int) -> None:
    """Of 20 pieces none is sold; or 5 in the last week of 8, so that what is there lasts 24 weeks."""
    rows = [] if sold_at is None else [{"product_id": "OIL", "sold_at": sold_at, "price": "9", "quantity": "5"}]
    delivered = moves(("OIL", "2026-01-01", "delivery", 20))
    row = shelf(stock_moves=delivered, sales=sales(*rows))
    assert (row["retail_products"], row["slow_products"], row["slow_value"]) == (1, slow, slow * Decimal(100))
