"""A change split into price, volume and mix."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from analytics.methods.price_volume_mix import Effects, Sold, price_volume_mix


def split(before: list[tuple[int, int]], now: list[tuple[int, int]]) -> list[Effects]:
    def sold(pairs: list[tuple[int, int]]) -> list[Sold]:
        return [Sold(Fraction(quantity), Fraction(amount)) for quantity, amount in pairs]

    return price_volume_mix(sold(before), sold(now))


def test_twice_as_much_of_everything_is_volume() -> None:
    assert split([(1, 30), (3, 60)], [(2, 60), (6, 120)]) == [(0, 30, 0), (0, 60, 0)]


def test_the_same_at_another_price_is_price() -> None:
    assert split([(2, 60)], [(2, 50)]) == [(-10, 0, 0)]


def test_one_instead_of_another_is_mix() -> None:
    assert split([(1, 30), (1, 10)], [(2, 60), (0, 0)]) == [(0, 0, 30), (0, 0, -10)]


def test_what_is_new_is_mix_and_where_all_is_new_volume() -> None:
    assert split([(1, 30), (0, 0)], [(1, 30), (1, 9)])[1] == (0, 0, 9)
    assert split([(0, 0)], [(2, 9)]) == [(0, 9, 0)]


def test_an_amount_without_a_quantity_is_price() -> None:
    assert split([(1, 30), (0, -4)], [(1, 30), (0, -5)])[1] == (-1, 0, 0)


item = st.tuples(st.integers(0, 9), st.integers(-500, 500))


@given(st.lists(st.tuples(item, item), max_size=5))
def test_parts_add_up_and_mix_moves_no_lines(pairs: list) -> None:
    before, now = [pair[0] for pair in pairs], [pair[1] for pair in pairs]
    for old, new, effects in zip(before, now, split(before, now), strict=True):
        assert sum(effects) == new[1] - old[1]
    if sum(quantity for quantity, _ in before) and all(amount == quantity * 7 for quantity, amount in before):
        assert sum(effects.mix for effects in split(before, now)) == 0
