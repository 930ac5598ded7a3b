"""The mixing log: what went into every bowl, and the part of it that somebody wrote down."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from random import Random

from demo_data.days import random_for
from demo_data.diary import Line, Visit
from demo_data.menu import COLOUR_SERVICES, PRODUCTS, SERVICES
from demo_data.people import Client

# grams used on shoulder-length hair, and how far visits spread around them (log scale)
USED_G = {
    "S01": (36, 0.14),
    "S02": (20, 0.16),
    "S03": (66, 0.16),
    "S04": (48, 0.18),
    "S05": (74, 0.18),
    "S06": (30, 0.20),
}


@dataclass
class Pour:
    """One product in one bowl: a row of the log where it was logged."""

    logged_at: datetime
    visit: Visit
    service_id: str
    product_id: str
    mixed_g: int
    left_g: int
    logged: bool
    weighed: bool

    @property
    def day(self) -> date:
        return self.logged_at.date()

    def row(self) -> list[str]:
        return [
            self.logged_at.strftime("%Y-%m-%d %H:%M"),
            self.visit.booking_id,
            self.service_id,
            self.visit.stylist.name,
            self.product_id,
            PRODUCTS[self.product_id].product,
            str(self.mixed_g),
            str(self.left_g) if self.weighed else "",
        ]


HEADING = ["logged_at", "booking_id", "service_id", "stylist", "product_id", "product", "mixed_g", "left_g"]


def _recipe(rng: Random, client: Client, service_id: str) -> list[tuple[str, float]]:
    """Products and their parts."""
    if service_id == "S06":
        return [(client.gloss, 1.0), ("P21", rng.choice((1.5, 2.0)))]
    if SERVICES[service_id].kind == "lightening":
        parts = [("P31", 1.0), (rng.choice(("P22", "P22", "P23")), rng.choice((1.5, 2.0)))]
        return parts + ([("P41", 0.1)] if rng.random() < 0.35 else [])
    colours = client.colours if len(client.colours) == 1 else client.colours[:2]
    shares = (1.0,) if len(colours) == 1 else (0.67, 0.33)
    return [*zip(colours, shares, strict=True), (client.developer, rng.choice((1.0, 1.5, 1.5)))]


def _bowl(
    rng: Random,
    visit: Visit,
    service_id: str,
    at: datetime,
    *,
    wanted_g: float,
    used_g: float,
    logged: bool,
    weighed: bool,
) -> list[Pour]:
    recipe = _recipe(rng, visit.client, service_id)
    parts = sum(part for _, part in recipe)
    left_share = max(wanted_g - used_g, 0) / wanted_g
    pours = []
    for product_id, part in recipe:
        mixed = max(round(wanted_g * part / parts), 1)
        pours.append(Pour(at, visit, service_id, product_id, mixed, round(mixed * left_share), logged, weighed))
    return pours


def _line_bowls(rng: Random, visit: Visit, line: Line, at: datetime) -> list[Pour]:
    usual, spread = USED_G[line.service_id]
    used = usual * visit.client.hair_factor * rng.lognormvariate(0, spread)
    # Stylists mix a round amount for the kind of hair they see, with something on top to be safe.
    mixed = max(round(usual * visit.client.hair_factor * visit.stylist.extra_mix * rng.uniform(0.92, 1.08) / 5) * 5, 15)
    logged, weighed = rng.random() < visit.stylist.logs, rng.random() < visit.stylist.weighs
    pours = _bowl(
        rng, visit, line.service_id, at, wanted_g=mixed, used_g=min(used, mixed), logged=logged, weighed=weighed
    )
    if used > mixed:
        short = max(round((used - mixed + 8) / 5) * 5, 10)
        pours += _bowl(
            rng,
            visit,
            line.service_id,
            at + timedelta(minutes=25),
            wanted_g=short,
            used_g=used - mixed,
            logged=logged,
            weighed=weighed,
        )
    return pours


def visit_bowls(rng: Random, visit: Visit) -> list[Pour]:
    pours: list[Pour] = []
    at = visit.starts_at + timedelta(minutes=rng.choice((5, 8, 10, 12)))
    for line in visit.lines:
        if line.service_id in COLOUR_SERVICES:
            pours += _line_bowls(rng, visit, line, at)
        service = SERVICES[line.service_id]
        at += timedelta(minutes=service.hands_on_min + service.processing_min)
    return pours


def all_pours(visits: list[Visit]) -> list[Pour]:
    rng = random_for("bowls")
    pours: list[Pour] = []
    for visit in visits:
        if visit.status == "completed" and visit.charged_cents > 0:
            pours += visit_bowls(rng, visit)
    return sorted(pours, key=lambda pour: (pour.logged_at, pour.visit.number))
