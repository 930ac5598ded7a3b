"""Which voucher was used: the one that is named, else the oldest one that is still valid.

Vouchers that a register says were used go first, up to what it says, and those of the salon where it is used before
those of the other salons of a group. What is given back goes back to the vouchers that
were used last. What is used beyond all of them belongs to no voucher.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import NamedTuple

NOTHING = Decimal(0)


@dataclass
class Lot:
    """One voucher, or all that were sold on one day: what it may be used for, and what of it was used.

    sold_on: None before everything. until: the last day on which it may be used, None for ever. listed: what a register
    says was used of it, if it says so.
    """

    number: str
    sold_on: date | None
    until: date | None
    face: Decimal
    listed: Decimal | None = None
    site: str = ""
    used: Decimal = NOTHING

    @property
    def left(self) -> Decimal:
        return self.face - self.used

    @property
    def listed_left(self) -> Decimal:
        """What of the use that the register knows was not told yet."""
        return NOTHING if self.listed is None else max(min(self.listed, self.face) - self.used, NOTHING)

    def valid(self, day: date) -> bool:
        return (self.sold_on is None or self.sold_on <= day) and (self.until is None or day <= self.until)


class Use(NamedTuple):
    """So much paid with vouchers on a day, with the number of the voucher where it is known; negative: given back."""

    day: date
    amount: Decimal
    number: str | None = None
    site: str = ""


class Part(NamedTuple):
    """So much of one use (its place) that one voucher (its place) paid; None: beyond all of them."""

    use: int
    lot: int | None
    amount: Decimal


def taken_from(lots: Sequence[Lot], uses: Sequence[Use]) -> list[Part]:
    """The parts of each use, in order of days; `used` of the lots is what they paid. lots: the oldest first."""
    parts: list[Part] = []
    given: list[Part] = []  # what may still be given back, the last at the end
    unspent = list(range(len(lots)))
    any_listed = any(lot.listed for lot in lots)
    for place in sorted(range(len(uses)), key=lambda at: uses[at].day):
        if uses[place].amount < 0:
            found = list(_given_back(lots, given, uses[place], place))
            unspent = sorted({*unspent, *(part.lot for part in found if part.lot is not None)})
        else:
            found = list(_paid_by(lots, unspent, uses[place], place, any_listed))
            given += [part for part in found if part.lot is not None]
            spent = {part.lot for part in found if part.lot is not None and not lots[part.lot].left}
            unspent = [at for at in unspent if at not in spent] if spent else unspent
        parts += found
    return parts


def _paid_by(lots: Sequence[Lot], unspent: list[int], use: Use, place: int, any_listed: bool) -> Iterator[Part]:
    open_amount = use.amount
    for at, most in _candidates(lots, unspent, use, any_listed):
        amount = min(open_amount, most)
        if amount > 0:
            lots[at].used += amount
            open_amount -= amount
            yield Part(place, at, amount)
        if not open_amount:
            return
    if open_amount:
        yield Part(place, None, open_amount)


def _candidates(lots: Sequence[Lot], unspent: list[int], use: Use, any_listed: bool) -> Iterator[tuple[int, Decimal]]:
    """Places of lots that may pay, and how much each may when its turn comes: of its salon first, then of others."""
    for own in (True, False):
        if use.number is not None:
            yield from ((at, lots[at].left) for at in unspent if _is(lots[at], use, own))
        if any_listed:
            yield from ((at, lots[at].listed_left) for at in _valid(lots, unspent, use, own))
        yield from ((at, lots[at].left) for at in _valid(lots, unspent, use, own))


def _valid(lots: Sequence[Lot], unspent: list[int], use: Use, own: bool) -> Iterator[int]:
    for at in unspent:
        lot = lots[at]
        if lot.sold_on is not None and lot.sold_on > use.day:
            return
        if (lot.site == use.site) is own and lot.valid(use.day):
            yield at


def _is(lot: Lot, use: Use, own: bool) -> bool:
    return lot.number == use.number and (lot.site == use.site) is own


def _given_back(lots: Sequence[Lot], given: list[Part], use: Use, place: int) -> Iterator[Part]:
    back = -use.amount
    while back > 0 and given:
        last = given.pop()
        at = last.lot or 0
        amount = min(back, last.amount)
        lots[at].used -= amount
        back -= amount
        if amount < last.amount:
            given.append(last._replace(amount=last.amount - amount))
        yield Part(place, at, -amount)
    if back:
        yield Part(place, None, -back)
