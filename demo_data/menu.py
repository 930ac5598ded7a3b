"""The menu and the product shelf, with what they cost from which day on."""

from dataclasses import dataclass
from datetime import date

# A list price is multiplied and rounded to half a euro each January.
PRICE_STEPS = ((date(2023, 1, 1), 1.0), (date(2024, 1, 1), 1.045), (date(2025, 1, 1), 1.085), (date(2026, 1, 1), 1.13))
COST_STEPS = ((date(2023, 1, 1), 1.0), (date(2024, 2, 1), 1.03), (date(2025, 2, 1), 1.08), (date(2026, 2, 1), 1.11))
RENAMED_ON = date(2025, 4, 1)
RENAMED = {"S14": "Nourishing mask", "S11": "Wash and style"}


@dataclass(frozen=True)
class Service:
    service_id: str
    service: str
    kind: str
    first_price_cents: int
    tax_rate: int
    hands_on_min: int
    processing_min: int
    resets_roots: str = ""


@dataclass(frozen=True)
class Product:
    product_id: str
    product: str
    kind: str
    pack_g: int
    first_cost_cents: int
    strength_percent: int | None = None
    shelf_price_cents: int = 0


_SERVICES = (
    Service("S01", "Root touch-up", "root_touch_up", 5900, 9, 45, 35),
    Service("S02", "Parting and hairline", "root_touch_up", 3600, 9, 20, 30, "false"),
    Service("S03", "All-over colour", "full_colour", 7600, 9, 55, 35),
    Service("S04", "Foils, half head", "lightening", 9400, 9, 75, 35),
    Service("S05", "Foils, full head", "lightening", 13200, 9, 105, 40),
    Service("S06", "Toner", "toner", 2900, 9, 15, 15),
    Service("S07", "Cut", "cut", 4200, 9, 40, 0),
    Service("S08", "Short cut", "cut", 3000, 9, 30, 0),
    Service("S09", "Child's cut, up to 11", "cut", 2200, 9, 25, 0),
    Service("S10", "Fringe trim", "cut", 900, 9, 10, 0),
    Service("S11", "Wash and blow-dry", "styling", 2700, 9, 30, 0),
    Service("S12", "Finish after colour", "styling", 1800, 9, 20, 0),
    Service("S13", "Hair up for a party", "styling", 6800, 9, 60, 0),
    Service("S14", "Care mask", "treatment", 1600, 9, 5, 10),
    Service("S15", "Strengthening treatment", "treatment", 3300, 9, 15, 15),
    Service("S16", "Scalp care", "treatment", 3800, 9, 30, 10),
    Service("S17", "Brow tint", "other", 1700, 21, 10, 10),
    Service("S18", "Beard trim", "other", 1800, 9, 20, 0),
)
SERVICES = {service.service_id: service for service in _SERVICES}

_PRODUCTS = (
    Product("P01", "Colour 4.0 brown", "colour", 60, 1020),
    Product("P02", "Colour 5.0 light brown", "colour", 60, 1020),
    Product("P03", "Colour 5.3 light golden brown", "colour", 60, 1020),
    Product("P04", "Colour 6.0 dark blond", "colour", 60, 1020),
    Product("P05", "Colour 6.1 dark ash blond", "colour", 60, 1020),
    Product("P06", "Colour 7.0 blond", "colour", 60, 1020),
    Product("P07", "Colour 7.4 copper blond", "colour", 60, 1060),
    Product("P08", "Colour 8.0 light blond", "colour", 60, 1060),
    Product("P09", "Gloss 9.1 ash", "colour", 60, 1130),
    Product("P10", "Gloss 9.3 honey", "colour", 60, 1130),
    Product("P11", "Gloss 10.2 pearl", "colour", 60, 1130),
    Product("P21", "Developer 3 %", "developer", 1000, 980, 3),
    Product("P22", "Developer 6 %", "developer", 1000, 980, 6),
    Product("P23", "Developer 9 %", "developer", 1000, 980, 9),
    Product("P24", "Developer 12 %", "developer", 1000, 980, 12),
    Product("P31", "Lightening powder", "lightener", 500, 3900),
    Product("P41", "Bonding additive", "additive", 250, 6400),
    Product("P51", "Shampoo for coloured hair 250 ml", "retail", 250, 780, None, 1750),
    Product("P52", "Shampoo for fine hair 250 ml", "retail", 250, 740, None, 1650),
    Product("P53", "Conditioner 200 ml", "retail", 200, 820, None, 1850),
    Product("P54", "Mask for home 150 ml", "retail", 150, 1190, None, 2650),
    Product("P55", "Heat protection spray 200 ml", "retail", 200, 980, None, 2200),
    Product("P56", "Hair oil 50 ml", "retail", 50, 1260, None, 2850),
    Product("P57", "Styling paste 75 ml", "retail", 75, 760, None, 1700),
    Product("P58", "Root powder 30 g", "retail", 30, 890, None, 1950),
    Product("P59", "Silver shampoo 250 ml", "retail", 250, 840, None, 1850),
    Product("P60", "Detangling brush", "retail", 90, 640, None, 1500),
)
PRODUCTS = {product.product_id: product for product in _PRODUCTS}
RETAIL = tuple(product for product in _PRODUCTS if product.kind == "retail")
COLOUR_SERVICES = ("S01", "S02", "S03", "S04", "S05", "S06")
RESETS_ROOTS = ("S01", "S03")


def _step(steps: tuple[tuple[date, float], ...], day: date) -> float:
    return [factor for first, factor in steps if first <= day][-1]


def to_half_euro(cents: float) -> int:
    return round(cents / 50) * 50


def service_price(service_id: str, day: date) -> int:
    """Price in cents, tax included, on a day."""
    return to_half_euro(SERVICES[service_id].first_price_cents * _step(PRICE_STEPS, day))


def service_name(service_id: str, day: date) -> str:
    if day >= RENAMED_ON and service_id in RENAMED:
        return RENAMED[service_id]
    return SERVICES[service_id].service


def pack_cost(product_id: str, day: date) -> int:
    """What a pack costs the salon in cents, without tax, on a day."""
    return round(PRODUCTS[product_id].first_cost_cents * _step(COST_STEPS, day) / 5) * 5


def shelf_price(product: Product, day: date) -> int:
    return to_half_euro(product.shelf_price_cents * _step(PRICE_STEPS, day))


def money(cents: int) -> str:
    return f"{'-' if cents < 0 else ''}{abs(cents) // 100}.{abs(cents) % 100:02d}"


def menu_rows() -> list[list[str]]:
    heading = [
        "service_id",
        "service",
        "kind",
        "price",
        "tax_rate",
        "hands_on_min",
        "processing_min",
        "resets_roots",
        "valid_from",
    ]
    rows = [heading]
    starts = sorted([first for first, _ in PRICE_STEPS] + [RENAMED_ON])
    for first in starts:
        for service in _SERVICES:
            if first == RENAMED_ON and service.service_id not in RENAMED:
                continue
            rows.append(
                [
                    service.service_id,
                    service_name(service.service_id, first),
                    service.kind,
                    money(service_price(service.service_id, first)),
                    str(service.tax_rate),
                    str(service.hands_on_min),
                    str(service.processing_min),
                    service.resets_roots,
                    first.isoformat(),
                ]
            )
    return rows


def product_rows() -> list[list[str]]:
    rows = [["product_id", "product", "kind", "pack_g", "pack_cost", "strength_percent", "tax_rate", "valid_from"]]
    for first, _ in COST_STEPS:
        for product in _PRODUCTS:
            strength = "" if product.strength_percent is None else str(product.strength_percent)
            rows.append(
                [
                    product.product_id,
                    product.product,
                    product.kind,
                    str(product.pack_g),
                    money(pack_cost(product.product_id, first)),
                    strength,
                    "21",
                    first.isoformat(),
                ]
            )
    return rows
