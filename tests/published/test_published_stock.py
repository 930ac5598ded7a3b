"""Stock at cost, against a published worked example.

OpenStax, Principles of Accounting, Volume 1, sections 10.2 and 10.3: 150 bought at 21; 120 sold; 225 at 27; 180 sold;
210 at 33; 285 are left of 585 that cost 16,155. The book rounds unit costs to cents and sums to whole amounts.
"""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from frames import only, products, sales, settings, table, work_out

from analytics.methods.stock_value import Shelf

BOUGHT_AND_SOLD = ((150, 21, 120), (225, 27, 180), (210, 33, 0))


def walk(valuation: str) -> tuple[Decimal, list[Decimal], Shelf]:
    """Cost of sales, the unit cost after each purchase, and what is left."""
    shelf, sold, units = Shelf(valuation), Decimal(0), []
    for bought, price, wanted in BOUGHT_AND_SOLD:
        shelf.put(Decimal(bought), Decimal(bought * price))
        units.append(shelf.value / shelf.quantity)
        sold += shelf.take(Decimal(wanted))
    return sold, units, shelf


def whole(amount: Decimal, to: str = "1") -> Decimal:
    return amount.quantize(Decimal(to), rounding=ROUND_HALF_UP)


def test_first_in_first_out() -> None:
    sold, _, shelf = walk("fifo")
    assert (sold, shelf.value, shelf.quantity) == (7200, 8955, 285)


def test_moving_average_as_the_book_rounds_it() -> None:
    sold, units, shelf = walk("average")
    assert [whole(unit, "0.01") for unit in units] == [Decimal("21.00"), Decimal("26.29"), Decimal("31.24")]
    assert (whole(sold), whole(shelf.value)) == (7253, 8902)


def test_moving_average_unrounded() -> None:
    """Sold 120 × 21 + 180 × 6,705 ÷ 255; left 75 × 6,705 ÷ 255 + 210 × 33."""
    sold, _, shelf = walk("average")
    assert sold == pytest.approx(2520 + Decimal(180 * 6705) / 255, abs=Decimal("1e-12"))
    assert shelf.value == pytest.approx(6930 + Decimal(75 * 6705) / 255, abs=Decimal("1e-12"))
    assert sold + shelf.value == 16155


@pytest.mark.parametrize(("valuation", "used", "left"), [("fifo", "7200", "8955"), ("average", "7252.94", "8902.06")])
def test_the_figure_says_the_same_of_packs_bought_and_sold(valuation: str, used: str, left: str) -> None:
    """A shop that was never counted: deliveries with their cost, sales by the piece, to the cent."""
    moves = [
        {
            "product_id": "A",
            "movement": "delivery",
            "moved_at": f"2026-03-0{2 * day}",
            "packs": bought,
            "unit_cost": price,
        }
        for day, (bought, price, _) in enumerate(BOUGHT_AND_SOLD, start=1)
    ]
    sold = [
        {"product_id": "A", "sold_at": f"2026-03-0{2 * day + 1} 12:00", "price": "36", "quantity": wanted}
        for day, (_, _, wanted) in enumerate(BOUGHT_AND_SOLD, start=1)
    ]
    row = only(
        work_out(
            "stock",
            stock_moves=table("stock_moves", moves),
            sales=sales(*sold),
            products=products({"product_id": "A", "kind": "retail", "pack_g": "100", "pack_cost": "1"}),
            salon=settings(stock={"valuation": valuation}),
        )
    )
    assert (row["used_cost"], row["closing_value"]) == (Decimal(used), Decimal(left))
    assert (row["closing_packs"], row["delivered_cost"]) == (285, 16155)
