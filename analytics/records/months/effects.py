"""What each service or product changed a month's net revenue by: price, volume, mix, and what was paid back."""

from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction

from analytics.definitions.rows import Row
from analytics.methods.price_volume_mix import Sold, price_volume_mix
from analytics.money import round_parts
from analytics.records.months.comparisons import Pair
from analytics.records.months.earnings import Earned

NOTHING = Earned(Decimal(0), Decimal(0))


def of_services(pair: Pair, digits: int) -> Iterator[tuple[str, Row]]:
    """Each service of either side, in order of its id; volume is that of visits."""
    in_all = Fraction(pair.before.visits), Fraction(pair.now.visits)
    return _split(pair.now.services, pair.before.services, digits, in_all)


def of_retail(pair: Pair, digits: int) -> Iterator[tuple[str, Row]]:
    """Each product of either side, in order of its id; volume is that of pieces."""
    return _split(pair.now.retail, pair.before.retail, digits, None)


def _split(
    now: Mapping[str, Earned], before: Mapping[str, Earned], digits: int, in_all: tuple[Fraction, Fraction] | None
) -> Iterator[tuple[str, Row]]:
    """Items of either side with their effects; price and volume are rounded as a whole, shared by largest remainder."""
    items = sorted(now.keys() | before.keys(), key=str)
    sides = [[side.get(item, NOTHING) for item in items] for side in (before, now)]
    effects = price_volume_mix(_sold(sides[0]), _sold(sides[1]), in_all)
    price, volume = (round_parts([getattr(one, name) for one in effects], digits) for name in ("price", "volume"))
    for place, (item, old, new) in enumerate(zip(items, *sides, strict=True)):
        change = new.net - old.net
        yield (
            item,
            {
                "service": (now if item in now else before)[item].service,
                "kind": (now if item in now else before)[item].kind,
                "quantity": new.quantity,
                "quantity_before": old.quantity,
                "net": new.net + new.refunded,
                "net_before": old.net + old.refunded,
                "change": change + new.refunded - old.refunded,
                "price_effect": price[place],
                "volume_effect": volume[place],
                "mix_effect": change - price[place] - volume[place],
                "refund_effect": new.refunded - old.refunded,
            },
        )


def _sold(side: list[Earned]) -> list[Sold]:
    return [Sold(Fraction(one.quantity), Fraction(one.net)) for one in side]
