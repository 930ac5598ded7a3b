"""Which voucher pays, and what is owed of it."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.methods.breakage import still_owed, value_used
from analytics.methods.voucher_lots import Lot, Use, taken_from

MARCH = [date(2026, 3, day) for day in range(1, 32)]


def lot(number: str, day: int | None, face: int, until: int | None = None, listed: int | None = None) -> Lot:
    sold, ends = (None if one is None else MARCH[one - 1] for one in (day, until))
    return Lot(number, sold, ends, Decimal(face), None if listed is None else Decimal(listed))


def paid(lots: list[Lot], *uses: tuple[int, int] | tuple[int, int, str]) -> list[tuple[int, int | None, int]]:
    told = [Use(MARCH[use[0] - 1], Decimal(use[1]), use[2] if len(use) == 3 else None) for use in uses]
    return [(part.use, part.lot, int(part.amount)) for part in taken_from(lots, told)]


def test_the_oldest_goes_first_and_the_next_pays_the_rest() -> None:
    assert paid([lot("A", 1, 50), lot("B", 2, 50)], (5, 70)) == [(0, 0, 50), (0, 1, 20)]


def test_the_one_that_is_named_goes_before_the_oldest_even_when_it_has_expired() -> None:
    assert paid([lot("A", 1, 50), lot("B", 2, 50, until=4)], (5, 40, "B")) == [(0, 1, 40)]


def test_what_has_expired_or_is_not_sold_yet_pays_nothing() -> None:
    assert paid([lot("A", 1, 50, until=4), lot("B", 6, 50)], (5, 40)) == [(0, None, 40)]


def test_what_the_register_says_was_used_goes_before_what_it_does_not() -> None:
    assert paid([lot("A", 1, 50, listed=0), lot("B", 2, 50, listed=30)], (5, 40)) == [(0, 1, 30), (0, 0, 10)]


def test_what_is_given_back_goes_back_to_what_was_used_last() -> None:
    lots = [lot("A", 1, 50), lot("B", 2, 50)]
    assert paid(lots, (5, 70), (6, -30), (7, -60)) == [
        (0, 0, 50),
        (0, 1, 20),
        (1, 1, -20),
        (1, 0, -10),
        (2, 0, -40),
        (2, None, -20),
    ]
    assert [one.used for one in lots] == [0, 0]


@effort(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.integers(1, 20), st.integers(0, 90)), max_size=5),
    st.lists(st.tuples(st.integers(1, 31), st.integers(-50, 90)), max_size=6),
)
def test_every_use_is_paid_in_full_and_no_voucher_more_than_its_face(sold: list, uses: list) -> None:
    lots = [lot(str(at), day, face) for at, (day, face) in enumerate(sorted(sold))]
    parts = paid(lots, *uses)
    assert [sum(part for use, _, part in parts if use == at) for at in range(len(uses))] == [use[1] for use in uses]
    assert all(0 <= one.used <= one.face for one in lots)
    assert sum(one.used for one in lots) == sum(part for _, at, part in parts if at is not None)


@pytest.mark.parametrize(
    ("used", "owed", "unused"), [(0, "100", "0"), (45, "50", "5"), (90, "0", "10"), (100, "0", "0")]
)
def test_breakage_in_proportion(used: int, owed: str, unused: str) -> None:
    """A voucher of 100 of which a tenth is never used: 45 used earn 50 (IFRS 15, B46, from memory; worked by hand)."""
    value = value_used(Decimal(100), Decimal(100), Decimal(used))
    left = still_owed(Decimal(100), value, Decimal("0.1"))
    assert (left, 100 - value - left) == (Decimal(owed), Decimal(unused))


def test_a_part_of_the_face_takes_that_part_of_what_was_paid() -> None:
    assert value_used(Decimal(80), Decimal(100), Decimal(60)) == 48
    assert value_used(Decimal(80), Decimal(0), Decimal(0)) == 0
