"""One invented salon of two chairs as plain rows, from a seed, and what is true of it: written in forty ways.

Names of services are what a salon of each country might call them; clients, stylists and products are invented.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from decimal import Decimal
from random import Random

TODAY = date(2026, 8, 12)
FIRST = date(2026, 5, 5)
DAYS = 115
RISE = date(2026, 7, 1)

KINDS = ("root_touch_up", "full_colour", "lightening", "toner", "cut", "styling", "treatment", "cut")
NAMES = {
    "en": "Root touch-up|Full colour|Highlights|Toner|Cut and blow-dry|Blow-dry|Hair mask|Fringe trim",
    "nl": "Uitgroei kleuren|Volledige kleuring|Highlights|Toner|Knippen en föhnen|Föhnen|Haarmasker|Pony knippen",
    "de": "Ansatz färben|Komplette Farbe|Strähnen|Toner|Schneiden und Föhnen|Föhnen|Haarkur|Pony schneiden",
    "fr": "Coloration racines|Coloration complète|Mèches|Patine|Coupe et brushing|Brushing|Soin profond|Coupe frange",
    "it": "Ritocco ricrescita|Colore completo|Colpi di sole|Toner|Taglio e piega|Piega|Maschera|Taglio frangia",
    "es": "Retoque de raíz|Color completo|Mechas|Matizador|Corte y peinado|Peinado|Mascarilla|Corte de flequillo",
}
PRICES = ("62.00", "84.00", "118.00", "24.50", "45.00", "27.50", "18.00", "9.50")
HANDS_ON = (40, 60, 90, 15, 45, 30, 10, 10)
PROCESSING = (35, 40, 45, 15, 0, 0, 10, 0)
FIRST_NAMES = ("Alda", "Berit", "Corin", "Dafne", "Elke", "Famke", "Gunda", "Hilke", "Ilva", "Jorun", "Katja")
FIRST_NAMES += ("Linde", "Mirte", "Noor", "Olga", "Petra", "Runa", "Silke")
LAST_NAMES = ("Abbring", "Boskamp", "Cramwinkel", "Dortland", "Eshuis", "Fokkens", "Gelmers", "Hulst", "Ipema")
LAST_NAMES += ("Jellema", "Kuperus", "Lanting")
STYLISTS = ("Wieke", "Thyra")
SITES = {"Wieke": "Mitte", "Thyra": "Süd"}
COLOURS = ("Shade 5.0", "Shade 6.0", "Shade 7.1", "Shade 8.3")
DEVELOPERS = ("Developer 6 %", "Developer 9 %")


@dataclass(frozen=True)
class Service:
    id: str
    name: str
    kind: str
    price: Decimal
    hands_on: int
    processing: int

    @property
    def minutes(self) -> int:
        return self.hands_on + self.processing

    def price_on(self, day: date) -> Decimal:
        """The first service costs 3 more from the day of the rise."""
        return self.price + (3 if self.id == "S01" and day >= RISE else 0)


@dataclass(frozen=True)
class Line:
    service: Service
    price: Decimal
    discount: Decimal


@dataclass(frozen=True)
class Bowl:
    at: datetime
    product: str
    mixed: int
    left: int | None


@dataclass
class Visit:
    id: str
    client: int
    stylist: str
    starts: datetime
    lines: list[Line]
    status: str
    booked_on: date
    tip: Decimal = Decimal(0)
    method: str = "card"
    bowls: list[Bowl] = field(default_factory=list)

    @property
    def ends(self) -> datetime:
        return self.starts + timedelta(minutes=sum(line.service.minutes for line in self.lines))

    @property
    def paid(self) -> Decimal:
        return sum((line.price - line.discount for line in self.lines), Decimal(0)) + self.tip


@dataclass(frozen=True)
class Salon:
    services: list[Service]
    clients: list[tuple[str, str]]
    visits: list[Visit]

    def name(self, client: int) -> str:
        return " ".join(self.clients[client])

    @property
    def done(self) -> list[Visit]:
        return [visit for visit in self.visits if visit.status == "completed"]

    @property
    def kept(self) -> list[Visit]:
        """The visits of a diary in which what was called off is crossed out."""
        return [visit for visit in self.visits if visit.status in ("completed", "booked")]


def small_salon(seed: int, language: str, days: int = DAYS) -> Salon:
    """The salon of the seed, its first days; its menu in the language."""
    chance = Random(seed)
    names = NAMES[language].split("|")
    services = [
        Service(f"S{at + 1:02}", names[at], KINDS[at], Decimal(PRICES[at]), HANDS_ON[at], PROCESSING[at])
        for at in range(len(names))
    ]
    people = [(first, last) for last in LAST_NAMES for first in FIRST_NAMES]
    clients = chance.sample(people, 110)
    visits: list[Visit] = []
    for day in (FIRST + timedelta(days=number) for number in range(days)):
        if day.weekday() not in (0, 6):
            visits += _day(chance, day, services, len(visits), len(clients))
    return Salon(services, clients, visits)


def _day(chance: Random, day: date, services: list[Service], before: int, clients: int) -> Iterable[Visit]:
    visits: list[Visit] = []
    seen: set[int] = set()
    for stylist in STYLISTS:
        at = datetime(day.year, day.month, day.day, 9, 0)
        while at.hour < 16:
            client = chance.choice([number for number in range(clients) if number not in seen])
            seen.add(client)
            visit = _visit(chance, f"{20000 + before + len(visits)}", client, stylist, at, services)
            visits.append(visit)
            at = visit.ends + timedelta(minutes=chance.choice((0, 0, 5, 15, 30)))
            at += timedelta(minutes=-at.minute % 5)
    return visits


def _visit(  # noqa: PLR0917
    chance: Random, number: str, client: int, stylist: str, at: datetime, services: list[Service]
) -> Visit:
    chosen = chance.choices(
        [(0,), (0, 4), (1, 5), (2, 3), (2, 3, 4), (4,), (5,), (4, 6), (7,)], [5, 4, 2, 2, 1, 6, 2, 1, 1]
    )[0]
    lines = [_line(chance, services[which], at.date()) for which in chosen]
    past = at.date() < TODAY
    status = chance.choices(("completed", "cancelled", "no_show"), (90, 6, 4))[0] if past else "booked"
    booked_on = at.date() - timedelta(days=chance.randint(1, 40))
    visit = Visit(number, client, stylist, at, lines, status, booked_on)
    if status == "completed":
        visit.tip = Decimal(chance.choice((0, 0, 0, 0, 1, 2, 5)))
        visit.method = chance.choice(("cash", "card", "card"))
        visit.bowls = _bowls(chance, visit) if chosen[0] in (0, 1) else []
    return visit


def _line(chance: Random, service: Service, day: date) -> Line:
    price = service.price_on(day)
    return Line(service, price, (price / 10).quantize(Decimal("0.01")) if chance.random() < 0.06 else Decimal(0))


def _bowls(chance: Random, visit: Visit) -> list[Bowl]:
    grams = chance.choice((30, 40, 50, 60))
    left = chance.choice((None, 0, 4, 8, 12))
    at = visit.starts + timedelta(minutes=5)
    return [
        Bowl(at, chance.choice(COLOURS), grams, left),
        Bowl(at, chance.choice(DEVELOPERS), grams * 3 // 2, None if left is None else left * 3 // 2),
    ]


Truth = dict[str, object]
"""Of each question the salon's true answer."""


def truth(salon: Salon, visits: list[Visit]) -> Truth:
    """What is true of these visits, by the name of the question."""
    done = [visit for visit in visits if visit.status == "completed"]
    lines = [(visit, line) for visit in done for line in visit.lines]
    gross: Counter[tuple[str, str]] = Counter()
    net: Counter[tuple[str, str]] = Counter()
    by_stylist: Counter[tuple[str, str]] = Counter()
    by_site: Counter[tuple[str, str]] = Counter()
    for visit, line in lines:
        month = f"{visit.starts:%Y-%m}"
        gross[month, line.service.name] += line.price
        net[month, line.service.name] += line.price - line.discount
        by_stylist[month, visit.stylist] += line.price
        by_site[month, SITES[visit.stylist]] += line.price
    money: Counter[tuple[str, str]] = Counter()
    bowls: Counter[tuple[str, str]] = Counter()
    for visit in done:
        money[f"{visit.starts:%Y-%m}", visit.method] += visit.paid
        for bowl in visit.bowls:
            bowls["mixed", bowl.product] += bowl.mixed
            bowls["left", bowl.product] += bowl.left or 0
    return {
        "gross": dict(gross),
        "net": dict(net),
        "lines": dict(Counter(f"{visit.starts:%Y-%m}" for visit, _ in lines)),
        "stylists": dict(by_stylist),
        "sites": dict(by_site),
        "visits": dict(Counter(f"{visit.starts:%Y-%m}" for visit in done)),
        "starts": dict(Counter(f"{visit.starts:%Y-%m-%d %H:%M}" for visit in visits)),
        "ends": dict(Counter(f"{visit.ends:%Y-%m-%d %H:%M}" for visit in visits)),
        "clients": len({visit.client for visit in done}),
        "statuses": dict(Counter(visit.status for visit in visits)),
        "tips": sum((visit.tip for visit in done), Decimal(0)),
        "payments": dict(money),
        "bowls": dict(bowls),
        "mixed": {key: grams for key, grams in bowls.items() if key[0] == "mixed"},
        "kinds": {service.name: service.kind for service in salon.services},
        "booked_on": dict(Counter(f"{visit.booked_on:%Y-%m-%d}" for visit in visits)),
    }
