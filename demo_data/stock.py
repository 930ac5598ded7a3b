"""Deliveries, counts and what else happened on the shelf."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date
from random import Random

from demo_data.bowls import Pour
from demo_data.days import FIRST_DAY, LAST_DAY, days_from, open_span, random_for
from demo_data.menu import PRODUCTS, RETAIL, pack_cost
from demo_data.till import Till

HEADING = ["moved_at", "product_id", "product", "movement", "packs", "grams", "unit_cost"]
COUNT_DAYS = (date(2024, 12, 31), date(2025, 12, 31))
RETURN_DAYS = {date(2024, 3, 15): "P07", date(2025, 3, 14): "P53", date(2026, 6, 12): "P10"}
DISCARD_DAYS = {date(2024, 6, 21): ("P24", 600), date(2025, 9, 12): ("P31", 180), date(2026, 4, 17): ("P07", 60)}


@dataclass
class Move:
    day: date
    product_id: str
    movement: str
    packs: int | None = None
    grams: int | None = None
    unit_cost_cents: int | None = None


def _use_by_day(pours: list[Pour], till: Till) -> dict[date, dict[str, int]]:
    """Grams gone per day, logged or not: the shelf empties either way."""
    used: dict[date, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    for pour in pours:
        used[pour.day][pour.product_id] += pour.mixed_g
    for sale in till.sales:
        product = RETAIL[sale.product_number]
        used[sale.sold_at.date()][product.product_id] += sale.quantity * product.pack_g
    return used


def _monthly_g(used: dict[date, dict[str, int]]) -> dict[str, float]:
    months = (LAST_DAY - FIRST_DAY).days / 30.4
    return {each: sum(day[each] for day in used.values() if each in day) / months for each in PRODUCTS}


def _is_delivery_day(day: date) -> bool:
    """The first open day of a month."""
    first = day.replace(day=1)
    return open_span(day) is not None and all(open_span(each) is None for each in days_from(first, day)[:-1])


def _deliver(rng: Random, day: date, stock_g: dict[str, float], monthly_g: dict[str, float]) -> list[Move]:
    moves = []
    for product_id, product in PRODUCTS.items():
        target = monthly_g[product_id] * 2.1 + product.pack_g
        packs = max(0, -int((stock_g[product_id] - target) // product.pack_g) - 1)
        if packs:
            stock_g[product_id] += packs * product.pack_g
            # Now and then an order is large enough for a better price.
            cost = round(pack_cost(product_id, day) * (0.97 if rng.random() < 0.1 else 1.0))
            moves.append(Move(day, product_id, "delivery", packs=packs, unit_cost_cents=cost))
    return moves


def _count(rng: Random, day: date, stock_g: dict[str, float]) -> list[Move]:
    """A count finds a little less than it should: drops, tubes squeezed out for tests, a brush given away."""
    moves = []
    for product_id, product in PRODUCTS.items():
        if product.kind == "retail":
            packs = max(round(stock_g[product_id] / product.pack_g) - (1 if rng.random() < 0.25 else 0), 0)
            stock_g[product_id] = packs * product.pack_g
            moves.append(Move(day, product_id, "count", packs=packs))
        else:
            grams = max(round(stock_g[product_id] * rng.uniform(0.955, 0.995) / 5) * 5, 0)
            stock_g[product_id] = grams
            moves.append(Move(day, product_id, "count", grams=grams))
    return moves


def _odd_moves(day: date, stock_g: dict[str, float]) -> list[Move]:
    moves = []
    if day in RETURN_DAYS:
        product = PRODUCTS[RETURN_DAYS[day]]
        stock_g[product.product_id] -= product.pack_g
        moves.append(
            Move(day, product.product_id, "returned", packs=1, unit_cost_cents=pack_cost(product.product_id, day))
        )
    if day in DISCARD_DAYS:
        product_id, grams = DISCARD_DAYS[day]
        stock_g[product_id] -= grams
        moves.append(Move(day, product_id, "discarded", grams=grams))
    return moves


def make_moves(pours: list[Pour], till: Till) -> list[Move]:
    rng = random_for("stock")
    used = _use_by_day(pours, till)
    monthly_g = _monthly_g(used)
    stock_g = {each: monthly_g[each] * 1.4 + PRODUCTS[each].pack_g for each in PRODUCTS}
    moves: list[Move] = []
    for day in days_from(FIRST_DAY, LAST_DAY):
        if _is_delivery_day(day):
            moves += _deliver(rng, day, stock_g, monthly_g)
        for product_id, grams in used[day].items():
            stock_g[product_id] = max(stock_g[product_id] - grams, 0)
        moves += _odd_moves(day, stock_g)
        if day in COUNT_DAYS:
            moves += _count(rng, day, stock_g)
    return moves
