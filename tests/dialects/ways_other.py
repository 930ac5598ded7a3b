"""Ways of another make, written without a look at the word lists: groups, other clocks and amounts, wrong headings."""

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from itertools import groupby
from pathlib import Path

from dialects.small import SITES, Line, Salon, Visit
from dialects.way import DIARY, Row, Way, book, comma, lines, point, text
from dialects.ways_thin import midnight

WITH_STYLIST = (*DIARY, "stylists")
STATES_DE = {"completed": "erledigt", "booked": "geplant", "cancelled": "abgesagt", "no_show": "nicht erschienen"}


def listed(
    name: str, heading: str, cells: Callable[[Salon, Visit, int, Line], Row], between: str = ";"
) -> Callable[[Path, Salon], None]:
    def write(folder: Path, salon: Salon) -> None:
        text(folder, name, [heading.split("|"), *(cells(salon, *one) for one in lines(salon.kept))], between)

    return write


def two_sites(folder: Path, salon: Salon) -> None:
    """One diary of a group of two; a visit's number starts again at each, so that all of them stand twice."""
    numbers: Counter[str] = Counter()
    rows: list[Row] = [["Filiale", "Vorgang", "Beginn", "Ende", "Kundin", "Friseurin", "Leistung", "Betrag", "Zustand"]]
    for v in salon.visits:
        numbers[v.stylist] += 1
        for one in v.lines:
            when = [f"{v.starts:%d.%m.%Y %H:%M}", f"{v.ends:%d.%m.%Y %H:%M}"]
            who = [salon.name(v.client), v.stylist]
            rows.append([SITES[v.stylist], 400 + numbers[v.stylist], *when, *who, one.service.name, comma(one.price),
                         STATES_DE[v.status]])  # fmt: skip
    text(folder, "Gruppe Termine.csv", rows)


def order_changes(folder: Path, salon: Salon) -> None:
    """A file a month, its columns in another order each month."""
    for month, found in groupby(salon.kept, key=lambda v: f"{v.starts:%Y-%m}"):
        order = [(at + int(month[-1])) % 5 for at in range(5)]
        names = ["Datum", "Tijd", "Klant", "Behandeling", "Prijs"]
        rows: list[Row] = [[names[at] for at in order]]
        for v, _, one in lines(found):
            cells = [f"{v.starts:%d-%m-%Y}", f"{v.starts:%H.%M}", salon.name(v.client), one.service.name,
                     comma(one.price)]  # fmt: skip
            rows.append([cells[at] for at in order])
        text(folder, f"afspraken {month}.csv", rows)


def payments_in_cents(folder: Path, salon: Salon) -> None:
    """The diary in euros, what was received in cents."""
    listed(
        "appointments.csv",
        "Day|From|Client|Service|Price",
        lambda s, v, _, one: [f"{v.starts:%d/%m/%Y}", f"{v.starts:%H:%M}", s.name(v.client), one.service.name,
                              point(one.price)],
        ",",
    )(folder, salon)  # fmt: skip
    rows: list[Row] = [["Paid on", "How", "Amount"]]
    rows += [[f"{v.ends:%d/%m/%Y %H:%M}", v.method, int(v.paid * 100)] for v in salon.done]
    text(folder, "payments.csv", rows, ",")


def in_yen(folder: Path, salon: Salon) -> None:
    rows: list[Row] = [["Date", "Time", "Client", "Stylist", "Service", "Amount"]]
    for v, _, one in lines(salon.kept):
        rows.append([f"{v.starts:%Y/%m/%d}", f"{v.starts:%H:%M}", salon.name(v.client), v.stylist, one.service.name,
                     f"¥{int(one.price):,}"])  # fmt: skip
    text(folder, "bookings.csv", rows, "\t")


def times_a_hundred(salon: Salon) -> Salon:
    """The same salon where prices are in yen: a hundred times as many, and none with decimals."""
    services = [replace(one, price=one.price * 100) for one in salon.services]
    known = {one.id: one for one in services}

    def dearer(line: Line) -> Line:
        price, discount = (round(amount * 100, 0) for amount in (line.price, line.discount))
        return Line(known[line.service.id], price, discount)

    visits = [replace(v, tip=v.tip * 100, lines=list(map(dearer, v.lines))) for v in salon.visits]
    return Salon(services, salon.clients, visits)


def month_names(folder: Path, salon: Salon) -> None:
    listed(
        "calendar.csv",
        "When|Guest|With|Treatment|Charged",
        lambda s, v, _, one: [f"{v.starts:%B} {v.starts.day}, {v.starts:%Y} {v.starts:%I:%M %p}",
                              s.name(v.client), v.stylist, one.service.name, f"€{point(one.price)}"],
    )(folder, salon)  # fmt: skip


def headless(folder: Path, salon: Salon) -> None:
    rows = [
        [f"{v.starts:%d.%m.%Y}", f"{v.starts:%H:%M}", salon.name(v.client), one.service.name, comma(one.price)]
        for v, _, one in lines(salon.kept)
    ]
    text(folder, "termine.csv", rows)


def lengths(folder: Path, salon: Salon) -> None:
    listed(
        "planning.csv",
        "Le|À|Pendant|Cliente|Avec|Soin|À payer",
        lambda s, v, _, one: [f"{v.starts:%d/%m/%y}", f"{v.starts.hour}h{v.starts:%M}",
                              f"{(v.ends - v.starts).seconds // 3600}h{(v.ends - v.starts).seconds // 60 % 60:02}",
                              s.name(v.client), v.stylist, one.service.name, f"{comma(one.price)} EUR"],
    )(folder, salon)  # fmt: skip


def exchanged(first: str, second: str) -> Callable[[Path, Salon], None]:
    """Two columns whose headings were exchanged by mistake, beside a true menu."""

    def write(folder: Path, salon: Salon) -> None:
        names = ["Date", "Start", "End", "Client", "Stylist", "Service", "Price", "Discount"]
        said = [{first: second, second: first}.get(name, name) for name in names]
        rows: list[Row] = [said]
        for v, _, one in lines(salon.kept):
            rows.append([f"{v.starts:%Y-%m-%d}", f"{v.starts:%H:%M}", f"{v.ends:%H:%M}", salon.name(v.client),
                         v.stylist, one.service.name, point(one.price), point(one.discount)])  # fmt: skip
        text(folder, "bookings.csv", rows, ",")
        menu: list[Row] = [["Service", "Kind", "Price", "Minutes"]]
        menu += [[s.name, s.kind.replace("_", " "), point(s.price), s.minutes] for s in salon.services]
        text(folder, "menu.csv", menu, ",")

    return write


def without_price(folder: Path, salon: Salon) -> None:
    """A diary without amounts beside a price list."""
    listed(
        "agenda.csv",
        "Dag|Tijd|Klant|Wie|Behandeling",
        lambda s, v, _, one: [f"{v.starts:%d-%m-%Y}", f"{v.starts:%H:%M}", s.name(v.client), v.stylist,
                              one.service.name],
    )(folder, salon)  # fmt: skip
    text(folder, "prijzen.csv", [["Behandeling", "Prijs"], *([s.name, comma(s.price)] for s in salon.services)])


def moments_as_text_and_numbers(folder: Path, salon: Salon) -> None:
    """A workbook whose days are days in some rows and text in others, with blanks that do not break around names."""
    rows: list[Row] = [["Dia", "Hora", "Cliente", "Profesional", "Tratamiento", "Precio"]]
    for at, (v, _, one) in enumerate(lines(salon.kept)):
        day = midnight(v.starts) if at % 3 else f"{v.starts:%d/%m/%Y}"
        rows.append([day, f"{v.starts:%H:%M}", f"\xa0{salon.name(v.client)}\xa0", v.stylist, one.service.name,
                     float(one.price)])  # fmt: skip
    book(folder, "Libro.xlsx", {"Hoja1": rows})


OTHER = [
    Way("two_sites", "de", two_sites, (*WITH_STYLIST, "ends", "statuses", "sites"), everything=True),
    Way("order_changes", "nl", order_changes),
    Way("payments_in_cents", "en", payments_in_cents, (*DIARY, "payments")),
    Way("in_yen", "en", in_yen, WITH_STYLIST, currency="JPY", of=times_a_hundred),
    Way("month_names", "en", month_names, WITH_STYLIST, answers={"bookings": {"With": "stylist"}}),
    Way("headless", "de", headless),
    Way("lengths", "fr", lengths, (*WITH_STYLIST, "ends"), answers={"bookings": {"Avec": "stylist"}}),
    Way(
        "client_for_service",
        "en",
        exchanged("Client", "Service"),
        (*WITH_STYLIST, "ends", "net"),
        answers={"bookings": {"Client": "service", "Service": "client"}},
    ),
    Way(
        "price_for_discount",
        "en",
        exchanged("Price", "Discount"),
        (*WITH_STYLIST, "ends", "net"),
        answers={"bookings": {"Price": "discount", "Discount": "price"}},
    ),
    Way(
        "start_for_end",
        "en",
        exchanged("Start", "End"),
        (*WITH_STYLIST, "ends", "net"),
        answers={"bookings": {"Start": "end_time", "End": "start_time"}},
    ),
    Way(
        "stylist_for_client",
        "en",
        exchanged("Stylist", "Client"),
        (*WITH_STYLIST, "ends", "net"),
        answers={"bookings": {"Stylist": "client", "Client": "stylist"}},
    ),
    Way(
        "without_price",
        "nl",
        without_price,
        ("lines", "visits", "starts", "clients"),  # the list has no rise of July, so that sums of it are assumed
        answers={"bookings": {"Wie": "stylist"}},
    ),
    Way("typed_and_text_spanish", "es", moments_as_text_and_numbers, WITH_STYLIST),
]
