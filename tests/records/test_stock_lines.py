"""Every movement in money: with its export row, and to the cent what the months of stock say."""

from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from frames import product_log, products, sales, settings, table, work_out

from analytics.periods import Period
from analytics.records.product.retail import retail_rows
from analytics.records.product.stock_ledger import ledger
from analytics.records.product.stock_lines import stock_lines
from analytics.records.product.stock_moves import movements
from analytics.records.product.write_downs import write_downs

QUARTER = Period.of_days(
    pl.date_range(pl.date(2026, 1, 1), pl.date(2026, 1, 1), eager=True)[0], Period.month("2026-03").start
)


def shop(currency: str, valuation: str) -> dict[str, Any]:
    """Thirds of a pack, three products, a count that finds too little, one that finds too much, a piece oversold."""
    moved = [
        ("2026-01-02", "DYE", "delivery", 3, "7.99"),
        ("2026-01-20", "DEV", "count", 2, None),
        ("2026-02-02", "DYE", "delivery", 3, "8.53"),
        ("2026-02-20", "DYE", "count", 4.3, None),
        ("2026-03-03", "DYE", "returned", 1, None),
        ("2026-03-20", "DYE", "count", 3.1, None),
        ("2026-03-10", "BRUSH", "delivery", 2, "6.01"),
    ]
    names = ("moved_at", "product_id", "movement", "packs", "unit_cost")
    bowls = [
        {"logged_at": f"2026-0{month}-{day:02} 10:00", "product_id": product, "mixed_g": "7"}
        for month in (1, 2, 3)
        for day in range(3, 20)
        for product in ("DYE", "DEV")
    ]
    return {
        "stock_moves": table("stock_moves", [dict(zip(names, one, strict=True)) for one in moved]),
        "product_log": product_log(*bowls),
        "sales": sales(
            *({"sold_at": f"2026-03-{day:02}", "product_id": "BRUSH", "price": "12.10"} for day in (4, 5, 6, 11))
        ),
        "products": products(
            {"product_id": "DYE", "pack_g": "60", "pack_cost": "8"},
            {"product_id": "DEV", "pack_g": "900", "pack_cost": "10"},
            {"product_id": "BRUSH", "kind": "retail", "pack_g": "90", "pack_cost": "6"},
        ),
        "salon": settings(salon={"currency": currency}, stock={"valuation": valuation}),
    }


@pytest.mark.parametrize("valuation", ["average", "fifo"])
@pytest.mark.parametrize(("currency", "digits"), [("EUR", 2), ("JPY", 0), ("KWD", 3)])
def test_the_lines_of_a_month_are_the_month(currency: str, digits: int, valuation: str) -> None:
    given = shop(currency, valuation)
    book = ledger(movements(given["stock_moves"], given["product_log"], given["sales"], given["products"]), valuation)
    retail = retail_rows(given["sales"], given["products"], given["salon"])
    lines = stock_lines(book, write_downs(book, retail, given["salon"].stock, "2026-03", digits), digits)
    months = work_out("stock_months", period=QUARTER, cover=QUARTER, **given)
    by_month = lines.group_by("part", month=pl.col("day").dt.strftime("%Y-%m")).agg(pl.col("amount").sum())
    sums = {(row["month"], row["part"]): row["amount"] for row in by_month.to_dicts()}
    left = ("mixed", "sold", "returned", "discarded", "missing", "rounding")
    for row in months.to_dicts():
        month = row["month"]
        assert sums.get((month, "purchases"), 0) == row["purchases"]
        assert sums.get((month, "found"), 0) == row["found"]
        assert sums.get((month, "missing"), 0) == row["unexplained"]
        assert sum(sums.get((month, part), Decimal(0)) for part in left) == row["used"]
    assert lines.filter(pl.col("row").is_null() & ~pl.col("part").is_in(["rounding", "found"])).is_empty()


def test_what_was_sold_before_it_was_there_leaves_with_its_delivery() -> None:
    """Three brushes are sold before any was delivered; there were three then, at 6.00; one of two at 6.01 follows."""
    given = shop("EUR", "average")
    book = ledger(movements(given["stock_moves"], given["product_log"], given["sales"], given["products"]), "average")
    nothing = write_downs(
        book, retail_rows(given["sales"], given["products"], given["salon"]), given["salon"].stock, "2026-03", 2
    )
    lines = stock_lines(book, nothing, 2).filter(product_id="BRUSH")
    assert lines.select(pl.col("day").dt.day(), "part", "amount").rows() == [
        (4, "found", 18), (4, "sold", 6), (5, "sold", 6), (6, "sold", 6), (10, "purchases", Decimal("12.02")),
        (11, "sold", Decimal("6.01")),
    ]  # fmt: skip
