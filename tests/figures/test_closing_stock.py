"""What stood on the shelves at the end of the period."""

import polars as pl
from frames import agrees, days, only, product_log, products, sales, small_salon, table, work_out

BOTH = days("2026-02-01", "2026-04-01")
DYE = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "6"})


def closing(*moves: tuple[str, str, object], **given: object) -> pl.DataFrame:
    named = ({"product_id": "DYE", "moved_at": at, "movement": what, "packs": packs} for at, what, packs in moves)
    moved = table("stock_moves", list(named))
    return work_out("closing_stock", stock_moves=moved, **{"products": DYE, "period": BOTH, "cover": BOTH} | given)


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("closing_stock", period=BOTH, **small_salon()), "closing_stock")


def test_adds_up_to_the_last_month() -> None:
    months, shelves = (work_out(name, period=BOTH, **small_salon()) for name in ("stock_months", "closing_stock"))
    assert shelves["closing"].sum() == months["closing"][-1]
    assert shelves["purchases"].sum() == months["purchases"].sum()


def test_nothing_delivered_or_counted_and_a_period_without_a_day() -> None:
    assert closing().is_empty()
    assert closing(("2026-02-03", "delivery", 2), period=days("2026-03-05", "2026-03-05")).is_empty()


def test_what_comes_after_the_period_is_not_there_yet() -> None:
    row = only(closing(("2026-02-03", "delivery", 2), ("2026-03-03", "delivery", 1), period="2026-02"))
    assert (row["purchases"], row["grams"], row["closing"]) == (12, 120, 12)


def test_what_is_used_up_or_sent_back_is_left_out() -> None:
    gone = closing(("2026-02-03", "delivery", 2), ("2026-02-10", "returned", 2), period="2026-03")
    assert gone.is_empty()


def test_below_nothing_has_no_value() -> None:
    bowl = product_log({"product_id": "DYE", "logged_at": "2026-03-02 10:00", "mixed_g": "90"})
    row = only(closing(("2026-02-03", "delivery", 1), product_log=bowl))
    assert (row["grams"], row["closing"], row["quantity"], row["unit"]) == (-30, 0, 0, "g")
    assert (row["short"], str(row["short_since"])) == (30, "2026-03-02")


def test_retail_is_counted_in_pieces() -> None:
    """Two brushes delivered, three sold on two days: one too many since the second."""
    brush = products({"product_id": "DYE", "kind": "retail", "pack_g": "90", "pack_cost": "6"})
    sold = sales(
        *({"sold_at": f"2026-03-0{day}", "product_id": "DYE", "price": "9", "quantity": "1.5"} for day in (3, 5))
    )
    row = only(closing(("2026-03-01", "delivery", 2), products=brush, sales=sold, period="2026-03"))
    assert (row["quantity"], row["unit"], row["short"], str(row["short_since"])) == (0, "pieces", 1, "2026-03-05")
    left = only(closing(("2026-03-01", "delivery", 4), products=brush, sales=sold, period="2026-03"))
    assert (left["quantity"], left["short"], left["short_since"]) == (1, None, None)
