"""Salons whose bowls are drawn, so that what every head of hair took is known."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import polars as pl
from frames import bookings, product_log, products, services, visit

GRAM_COST = 0.15  # a pack of 60 g for 9.00
Draw = Callable[[np.random.Generator, int], np.ndarray]


def log_normal(draw: np.random.Generator, count: int) -> np.ndarray:
    return draw.lognormal(np.log(36), 0.22, count)


def gamma(draw: np.random.Generator, count: int) -> np.ndarray:
    return draw.gamma(16, 42 / 16, count)


def short_and_long_hair(draw: np.random.Generator, count: int) -> np.ndarray:
    long = draw.random(count) < 0.35
    return np.where(long, draw.lognormal(np.log(64), 0.15, count), draw.lognormal(np.log(34), 0.16, count))


@dataclass(frozen=True)
class Drawn:
    """took_g: what hair took, visit by visit. first_g: mixed at first."""

    took_g: np.ndarray
    first_g: np.ndarray
    tables: dict[str, pl.DataFrame]


def drawn_salon(
    uses: Draw, *, visits: int, weighed: float, seed: int, spread: float = 0.0, follows: bool = False
) -> Drawn:
    """A month of one service with one colour, mixed 1.3 times the median need (give or take `spread`), or 1.3 times
    what each visit needs where amounts follow needs. A bowl that ran out is followed by a second one; a visit is
    weighed or not as it happens, the bowl that ran out never."""
    draw = np.random.default_rng(seed)
    took = uses(draw, visits).round(1).clip(2)
    base = took if follows else np.median(took)
    first = (1.3 * base * draw.lognormal(0, spread or 1e-9, visits)).round().clip(5)
    rows = [
        row
        for number, (need, mixed) in enumerate(zip(took.tolist(), first.tolist(), strict=True))
        for row in _bowls(f"V{number}", number, need, mixed, bool(draw.random() < weighed))
    ]
    book = bookings(*[visit(f"V{number}", _moment(number), 60, ("ROOTS", "60")) for number in range(visits)])
    return Drawn(
        took,
        first,
        {
            "bookings": book,
            "services": services({"service_id": "ROOTS", "kind": "root_touch_up"}),
            "product_log": product_log(*rows),
            "products": products({"product_id": "DYE", "pack_g": "60", "pack_cost": "9"}),
        },
    )


def _moment(number: int, minute: int = 0) -> str:
    return f"2026-03-{number % 28 + 1:02} {9 + number // 28 % 9:02}:{minute:02}"


def _bowls(booking_id: str, number: int, need: float, mixed: float, weighed: bool) -> list[dict[str, str | None]]:
    bowl = {"booking_id": booking_id, "service_id": "ROOTS", "stylist": "Mila", "product_id": "DYE"}
    left = f"{mixed - need:.3f}" if weighed and need <= mixed else None
    rows = [bowl | {"logged_at": _moment(number), "mixed_g": f"{mixed:.3f}", "left_g": left}]
    if need > mixed:
        second = max(10.0, float(np.ceil((need - mixed) * 1.2 / 5) * 5))
        left = f"{mixed + second - need:.3f}" if weighed else None
        rows.append(bowl | {"logged_at": _moment(number, 30), "mixed_g": f"{second:.3f}", "left_g": left})
    return rows
