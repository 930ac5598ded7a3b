"""Stock at cost by moving average or first in, first out."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analytics.methods.stock_value import Shelf, part

BOTH = pytest.mark.parametrize("valuation", ["average", "fifo"])
AMOUNTS = st.decimals("0", "500", places=3)
COSTS = st.decimals("0", "99", places=2)


def test_first_in_first_out_takes_the_oldest_price_and_the_average_mixes_them() -> None:
    """60 g for 6 and 60 g for 12; 90 g taken: 6 + 30 × 0.2 = 12, or 90 × 18 ÷ 120 = 13.50."""
    for valuation, cost in (("fifo", Decimal(12)), ("average", Decimal("13.5"))):
        shelf = Shelf(valuation)
        shelf.put(Decimal(60), Decimal(6))
        shelf.put(Decimal(60), Decimal(12))
        assert (shelf.take(Decimal(90)), shelf.value) == (cost, 18 - cost)


@BOTH
def test_what_is_taken_beyond_the_stock_is_paid_for_by_what_comes_next(valuation: str) -> None:
    """30 g for 3; 50 g taken cost 3; then 40 g for 8, of which 20 g, 4, were used already."""
    shelf = Shelf(valuation)
    shelf.put(Decimal(30), Decimal(3))
    assert (shelf.take(Decimal(50)), shelf.quantity, shelf.value) == (3, -20, 0)
    assert shelf.cost_of(Decimal(1)) is None
    assert (shelf.put(Decimal(40), Decimal(8)), shelf.quantity, shelf.value) == (4, 20, 4)


@BOTH
def test_what_does_not_make_all_of_it_good_leaves_nothing(valuation: str) -> None:
    shelf = Shelf(valuation)
    shelf.take(Decimal(50))
    assert (shelf.put(Decimal(20), Decimal(8)), shelf.quantity, shelf.value) == (8, -30, 0)


def test_a_cost_without_a_quantity_is_not_kept() -> None:
    shelf = Shelf("average")
    assert (shelf.put(Decimal(0), Decimal(5)), shelf.value) == (5, 0)


def test_thirds_lose_nothing() -> None:
    """10 over three: two thirds are cut, the last takes what is left."""
    shelf = Shelf("fifo")
    shelf.put(Decimal(3), Decimal(10))
    taken = [shelf.take(Decimal(1)) for _ in range(3)]
    assert taken[0] == part(Decimal(10), Decimal(1), Decimal(3)) == Decimal("3.333333333333")
    assert (sum(taken), shelf.value) == (10, 0)


@BOTH
@settings(max_examples=50, deadline=None)
@given(steps=st.lists(st.tuples(st.booleans(), AMOUNTS, COSTS), max_size=30))
def test_value_in_is_value_out_and_value_on_the_shelf(
    valuation: str, steps: list[tuple[bool, Decimal, Decimal]]
) -> None:
    shelf, came, went, quantity = Shelf(valuation), Decimal(0), Decimal(0), Decimal(0)
    for comes, amount, cost in steps:
        came += cost if comes else 0
        went += shelf.put(amount, cost) if comes else shelf.take(amount)
        quantity += amount if comes else -amount
        held = sum((held for held, _ in shelf.layers), Decimal(0))
        assert (shelf.quantity, held, shelf.value) == (quantity, max(quantity, Decimal(0)), came - went)
        assert shelf.value >= 0
        assert shelf.value == sum((worth for _, worth in shelf.layers), Decimal(0))
