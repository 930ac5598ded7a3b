"""The clients: who they are and how they behave."""

from dataclasses import dataclass, field
from datetime import date, timedelta
from random import Random

from demo_data.days import FIRST_DAY, LAST_DAY, NEW_CLIENT_WEIGHT, WARM_UP_DAY, days_from, random_for
from demo_data.stylists import STYLISTS, Stylist

CLIENTS_AT_START = 512
NEW_CLIENTS = 168
FORENAMES = (
    "Aafke Amira Anouk Aylin Bente Carlijn Dalia Eefje Elif Esmée Fenna Femke Floor Hanne Ilse Imane Jette Jolijn Kaat "
    "Lieke Lotte Maud Merel Mila Nadia Nienke Noa Pleun Renske Roos Saar Sadia Sietske Tess Tirza Vera Wies Yara Zoë"
)
SHORT_HAIR_FORENAMES = (
    "Abel Bas Bram Cas Daan Emre Ferre Gijs Hidde Ilyas Jelle Kees Luuk Mees Niek Olaf Pim Quin Ruben Sem Teun Vik Wout"
)
NAME_STARTS = "Aal Berk Braam Dal Dool Elzen Fluit Gors Haver Ijs Kamp Linde Meer Oever Pol Riet Sloot Turf Vlier Wilg"
NAME_ENDS = "akker borg dam ebeke eind gaard haag hout kuil laar mond oord pad ring schot stra tuin veen wal zaal"


@dataclass
class Client:
    number: int
    name: str
    rhythm: str
    first_wish: date
    gap_days: float
    gap_spread: float
    rebook_weeks: int
    stylist: Stylist
    flexible: bool
    weekdays: tuple[int, ...]
    evening: bool
    minute: int
    may_contact: str
    hair_factor: float
    growth_mm_per_day: float
    measured: bool
    stop_chance: float
    no_show_chance: float
    cancel_chance: float
    with_cut: float
    full_head: bool
    colours: tuple[str, ...]
    developer: str
    gloss: str
    natural_level: int
    target_level: int
    grey_share: float
    is_new: bool
    active: bool = True
    second_number: int | None = None
    second_from: date | None = None
    last_roots_on: date | None = None
    visit_days: list[date] = field(default_factory=list)

    def id_on(self, day: date) -> str:
        if self.second_from is not None and self.second_number is not None and day >= self.second_from:
            return f"C{self.second_number:04d}"
        return f"C{self.number:04d}"


# share of clients, gap in days (low, high), share who book the next visit before leaving
RHYTHMS = {
    "roots": (0.28, 25, 40, 0.55),
    "all_over": (0.12, 43, 64, 0.40),
    "foils": (0.21, 56, 108, 0.35),
    "cut": (0.18, 38, 75, 0.22),
    "short_cut": (0.12, 23, 42, 0.25),
    "child": (0.07, 42, 80, 0.10),
    "care": (0.02, 30, 70, 0.15),
}
COLOURED = ("roots", "all_over", "foils")


def _names(rng: Random, count: int) -> list[str]:
    surnames = [start + end for start in NAME_STARTS.split() for end in NAME_ENDS.split()]
    rng.shuffle(surnames)
    return [surnames[number % len(surnames)] for number in range(count)]


def _weekdays(rng: Random, stylist: Stylist, rhythm: str) -> tuple[tuple[int, ...], bool]:
    """Which days suit: Saturdays and the late evening are wanted most."""
    chance = rng.random()
    if chance < (0.55 if rhythm == "child" else 0.36) and 5 in stylist.weekdays:
        return (5,), False
    if chance < 0.54 and 3 in stylist.weekdays:
        return (3,), rhythm != "child"
    days = [day for day in stylist.weekdays if day != 5]
    return tuple(rng.sample(days, 2)), False


def _colours(rng: Random, target: int) -> tuple[str, ...]:
    by_level = {4: ["P01"], 5: ["P02", "P03"], 6: ["P04", "P05"], 7: ["P06", "P07"], 8: ["P08"]}
    first = rng.choice(by_level[min(max(target, 4), 8)])
    others = [colour for colour in ("P02", "P03", "P05", "P06", "P07") if colour != first]
    return (first, rng.choice(others)) if rng.random() < 0.4 else (first,)


def _client(rng: Random, number: int, surname: str, first_wish: date, is_new: bool) -> Client:
    rhythm = rng.choices(list(RHYTHMS), [share for share, *_ in RHYTHMS.values()])[0]
    _, low, high, rebooks = RHYTHMS[rhythm]
    gap = rng.triangular(low, high)
    stylist = rng.choices(STYLISTS, [each.weight for each in STYLISTS])[0]
    weekdays, evening = _weekdays(rng, stylist, rhythm)
    natural = rng.choice((3, 4, 4, 5, 5, 5, 6, 6, 7, 7, 8))
    forenames = SHORT_HAIR_FORENAMES if rhythm == "short_cut" else FORENAMES
    target = natural + (rng.choice((2, 2, 3)) if rhythm == "foils" else rng.choice((-1, 0, 0, 0, 1)))
    return Client(
        number=number,
        name=f"{rng.choice(forenames.split())} {surname}",
        rhythm=rhythm,
        first_wish=first_wish,
        gap_days=gap,
        gap_spread=rng.uniform(0.10, 0.28),
        rebook_weeks=max(3, round(gap / 7)) if rng.random() < rebooks else 0,
        stylist=stylist,
        flexible=rng.random() < 0.35,
        weekdays=weekdays,
        evening=evening,
        minute=rng.randrange(9 * 60, 16 * 60, 15),
        may_contact=rng.choices(("yes", "no", ""), (62, 14, 24))[0],
        hair_factor=rng.choices((0.85, 1.0, 1.2, 1.6), (25, 40, 25, 10))[0] * rng.uniform(0.92, 1.08),
        growth_mm_per_day=rng.gauss(0.35, 0.05),
        measured=rng.random() < 0.35,
        stop_chance=rng.uniform(0.3, 1.3) * 0.09 * gap / 365,
        no_show_chance=rng.betavariate(1.0, 36),
        cancel_chance=rng.betavariate(2, 24),
        with_cut=rng.uniform(0.2, 0.8),
        full_head=rng.random() < 0.4,
        colours=_colours(rng, target),
        developer=rng.choices(("P21", "P22", "P23", "P24"), (8, 70, 18, 4))[0],
        gloss=rng.choice(("P09", "P10", "P11")),
        natural_level=natural,
        target_level=min(target, 10),
        grey_share=round(rng.betavariate(3, 3) if rhythm == "roots" else rng.betavariate(1.2, 6), 2),
        is_new=is_new,
    )


def _first_wishes(rng: Random) -> list[date]:
    days = days_from(WARM_UP_DAY + timedelta(days=60), LAST_DAY - timedelta(days=4))
    return sorted(rng.choices(days, [NEW_CLIENT_WEIGHT[day.month - 1] for day in days], k=NEW_CLIENTS))


def make_clients() -> list[Client]:
    rng = random_for("people")
    surnames = _names(rng, CLIENTS_AT_START + NEW_CLIENTS)
    clients = []
    for number in range(1, CLIENTS_AT_START + 1):
        clients.append(_client(rng, number, surnames[number - 1], WARM_UP_DAY, False))
        clients[-1].first_wish += timedelta(days=int(rng.random() * clients[-1].gap_days))
    for first_wish in _first_wishes(rng):
        number = len(clients) + 1
        clients.append(_client(rng, number, surnames[number - 1], first_wish, True))
    # Three people were entered a second time, under a misspelt name, and have two client numbers since.
    for offset, client in enumerate((clients[40], clients[171], clients[303])):
        client.second_number = len(clients) + 1 + offset
        client.second_from = FIRST_DAY + timedelta(days=300 + 190 * offset)
    return clients


def _patch_test(rng: Random, client: Client) -> str:
    days = [day for day in client.visit_days if day >= FIRST_DAY]
    if client.rhythm not in COLOURED or not days or rng.random() > 0.55:
        return ""
    tested = days[0] if client.is_new else rng.choice(days)
    return (tested - timedelta(days=rng.randint(2, 4))).isoformat()


def _misspelt(name: str) -> str:
    middle = len(name) // 2 + 2
    return name[:middle] + name[middle + 1 :]


def _client_row(client: Client, number: int, name: str, tested: str) -> list[str]:
    # Phone numbers and addresses are made so that they can belong to nobody.
    phone = "" if client.number % 17 == 0 else f"+31 6 0000 {client.number:04d}"
    email = "" if client.number % 5 == 0 else f"client{number:04d}@example.org"
    coloured = client.rhythm in COLOURED
    return [
        f"C{number:04d}",
        name,
        phone,
        email,
        client.may_contact,
        str(client.natural_level) if coloured else "",
        str(client.target_level) if coloured else "",
        f"{client.grey_share:.2f}" if coloured else "",
        tested,
    ]


def client_rows(clients: list[Client], known_ids: set[str]) -> list[list[str]]:
    """Everybody the diary knows; who never booked while the book was kept is not in it."""
    rng = random_for("clients file")
    rows = [
        [
            "client_id",
            "client",
            "phone",
            "email",
            "may_contact",
            "natural_level",
            "target_level",
            "grey_share",
            "patch_tested_on",
        ]
    ]
    known = [client for client in clients if f"C{client.number:04d}" in known_ids]
    rows += [_client_row(client, client.number, client.name, _patch_test(rng, client)) for client in known]
    for client in known:
        if client.second_number is not None and f"C{client.second_number:04d}" in known_ids:
            rows.append(_client_row(client, client.second_number, _misspelt(client.name), ""))
    return rows
