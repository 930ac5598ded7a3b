"""A change in revenue split into price, volume and mix, item by item.

With quantities q and amounts a, before (0) and now (1), p = a ÷ q and Q1 ÷ Q0 how much more was done in all, by the sum
of all quantities or by another measure of it, such as visits:
    volume = q0·p0·(Q1/Q0 − 1)      as many more of everything as there is more in all
    mix    = (q1 − q0·Q1/Q0)·p0     more of this and less of that, at the prices before
    price  = a1 − a0 − volume − mix, which is (p1 − p0)·q1
Added up over the items, volume and mix are the quantity and mix variances of managerial accounting. An item that is
new has no price before and takes its own of now: it is mix. Where nothing at all was sold before, everything is volume.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple


class Sold(NamedTuple):
    """Quantity and amount of one item in one period; an amount without a quantity (a refund) is price."""

    quantity: Fraction
    amount: Fraction


class Effects(NamedTuple):
    """Parts of one item's change, adding up to it exactly."""

    price: Fraction
    volume: Fraction
    mix: Fraction


def price_volume_mix(
    before: Sequence[Sold], now: Sequence[Sold], in_all: tuple[Fraction, Fraction] | None = None
) -> list[Effects]:
    """The effects per item; before and now name the same items in the same order.

    in_all: how much was done in all, before and now; by default the quantities added up.
    """
    if in_all is None:
        in_all = sum((item.quantity for item in before), Fraction(0)), sum((item.quantity for item in now), Fraction(0))
    growth = in_all[1] / in_all[0] if in_all[0] else None
    return [_effects(old, new, growth) for old, new in zip(before, now, strict=True)]


def _effects(old: Sold, new: Sold, growth: Fraction | None) -> Effects:
    """growth: how much was done in all now ÷ before; None where nothing was done before."""
    if not old.quantity:
        grown = new.amount if new.quantity else Fraction(0)  # at its own price of now
        volume, mix = (Fraction(0), grown) if growth is not None else (grown, Fraction(0))
        return Effects(new.amount - old.amount - grown, volume, mix)
    at_old_price = new.quantity * old.amount / old.quantity
    kept = at_old_price if growth is None else old.amount * growth
    return Effects(new.amount - at_old_price, kept - old.amount, at_old_price - kept)
