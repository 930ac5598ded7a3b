"""Ways of another make, written without a look at the word lists: groups, other clocks, grids, sections in sections."""

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date
from decimal import Decimal
from itertools import groupby
from pathlib import Path

from babel.dates import format_date

from dialects.small import SITES, Line, Salon, Visit
from dialects.way import DIARY, Row, Way, book, comma, lines, point, text
from dialects.ways_thin import midnight

WITH_STYLIST = (*DIARY, "stylists")
STATES_DE = {"completed": "erledigt", "booked": "geplant", "cancelled": "abgesagt", "no_show": "nicht erschienen"}


def by_day(visits: Iterable[Visit]) -> Iterable[tuple[date, list[Visit]]]:
    for day, found in groupby(sorted(visits, key=lambda v: v.starts), key=lambda v: v.starts.date()):
        yield day, list(found)


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


def log_below_products(folder: Path, salon: Salon) -> None:
    """One sheet: the products, two blank rows, a title, the log of bowls; the diary in another file."""
    listed(
        "rendez-vous.csv",
        "Jour|Heure|Cliente|Coiffeuse|Prestation|Tarif",
        lambda s, v, _, one: [f"{v.starts:%d/%m/%Y}", f"{v.starts:%Hh%M}", s.name(v.client), v.stylist,
                              one.service.name, f"{comma(one.price)} €"],
    )(folder, salon)  # fmt: skip
    names = sorted({bowl.product for v in salon.visits for bowl in v.bowls})
    rows: list[Row] = [["Produit", "Genre", "Contenance (g)", "Prix d'achat"]]
    rows += [[n, "oxydant" if n.startswith("Dev") else "couleur", 1000 if n.startswith("Dev") else 60, 7.5 + at]
             for at, n in enumerate(names)]  # fmt: skip
    rows += [[], [], ["Préparations"], ["Préparé le", "Produit", "Préparé (g)", "Reste (g)"]]
    rows += [[b.at, b.product, b.mixed, "" if b.left is None else b.left] for v in salon.visits for b in v.bowls]
    book(folder, "couleur.xlsx", {"Feuil1": rows})


def headless(folder: Path, salon: Salon) -> None:
    rows = [
        [f"{v.starts:%d.%m.%Y}", f"{v.starts:%H:%M}", salon.name(v.client), one.service.name, comma(one.price)]
        for v, _, one in lines(salon.kept)
    ]
    text(folder, "termine.csv", rows)


def grid_with_days_across(folder: Path, salon: Salon) -> None:
    """Days across and ways of paying down, a sheet a month; the diary beside it."""
    listed(
        "agenda.csv",
        "Data|Ora|Cliente|Operatrice|Trattamento|Importo",
        lambda s, v, _, one: [f"{v.starts:%d/%m/%Y}", f"{v.starts:%H:%M}", s.name(v.client), v.stylist,
                              one.service.name, comma(one.price)],
    )(folder, salon)  # fmt: skip
    sheets: dict[str, list[Row]] = {}
    for _, found in groupby(sorted(salon.done, key=lambda v: v.starts), key=lambda v: f"{v.starts:%Y-%m}"):
        month = list(found)
        days = list(dict.fromkeys(v.starts.date() for v in month))
        sums: Counter[tuple[str, date]] = Counter()
        for v in month:
            sums[v.method, v.starts.date()] += v.paid
        rows: list[Row] = [["Incassi", *(f"{day:%d/%m/%Y}" for day in days), "Totale"]]
        for said, method in (("Contanti", "cash"), ("Carta", "card")):
            amounts = [sums[method, day] for day in days]
            rows.append([said, *amounts, sum(amounts)])
        rows.append(["Totale", *(sums["cash", day] + sums["card", day] for day in days), ""])
        sheets[format_date(days[0], "MMMM y", "it").capitalize()] = rows
    book(folder, "Incassi.xlsx", sheets)


def counts(folder: Path, salon: Salon) -> None:
    """How often each service was done each day, and nothing else: no diary at all."""
    names = [s.name for s in salon.services]
    rows: list[Row] = [["Dag", *names]]
    for day, visits in by_day(salon.done):
        often = Counter(one.service.name for v in visits for one in v.lines)
        rows.append([f"{day:%d-%m-%Y}", *(often[n] or "" for n in names)])
    text(folder, "aantallen.csv", rows)


def counts_beside(folder: Path, salon: Salon) -> None:
    """The same beside a whole diary and a menu: it must change nothing."""
    counts(folder, salon)
    listed(
        "boekingen.csv",
        "Datum|Begin|Einde|Klant|Kapster|Behandeling|Bedrag",
        lambda s, v, _, one: [f"{v.starts:%d-%m-%Y}", f"{v.starts:%H:%M}", f"{v.ends:%H:%M}", s.name(v.client),
                              v.stylist, one.service.name, comma(one.price)],
    )(folder, salon)  # fmt: skip


def day_above_spanish(folder: Path, salon: Salon) -> None:
    rows: list[Row] = [["Hora", "Clienta", "Atiende", "Servicio", "Importe"]]
    for day, visits in by_day(salon.kept):
        rows.append([format_date(day, "full", "es"), *[""] * 4])
        for v, _, one in lines(visits):
            clock = f"{v.starts.hour % 12 or 12}:{v.starts:%M} {'a. m.' if v.starts.hour < 12 else 'p. m.'}"
            rows.append([clock, salon.name(v.client), v.stylist, one.service.name, f"{comma(one.price)} €"])
    text(folder, "citas.csv", rows)


def sections_in_sections(folder: Path, salon: Salon) -> None:
    """The day as a line of its own, and below it each stylist as one."""
    rows: list[Row] = [["Time", "Client", "Service", "Price"]]
    for day, visits in by_day(salon.kept):
        rows.append([f"{day:%A} {day.day} {day:%B %Y}", "", "", ""])
        for who in ("Wieke", "Thyra"):
            rows.append([who, "", "", ""])
            for v, _, one in lines(v for v in visits if v.stylist == who):
                rows.append([f"{v.starts:%H:%M}", salon.name(v.client), one.service.name, point(one.price)])
    text(folder, "day book.csv", rows, ",")


def lengths(folder: Path, salon: Salon) -> None:
    listed(
        "planning.csv",
        "Le|À|Pendant|Cliente|Avec|Soin|À payer",
        lambda s, v, _, one: [f"{v.starts:%d/%m/%y}", f"{v.starts.hour}h{v.starts:%M}",
                              f"{(v.ends - v.starts).seconds // 3600}h{(v.ends - v.starts).seconds // 60 % 60:02}",
                              s.name(v.client), v.stylist, one.service.name, f"{comma(one.price)} EUR"],
    )(folder, salon)  # fmt: skip


def side_by_side_bowls(folder: Path, salon: Salon) -> None:
    """A row a bowl: colour, its grams, developer, its grams, what was left of both."""
    full: list[Row] = [["Appuntamento", "Inizio", "Fine", "Cliente", "Operatrice", "Servizio", "Prezzo"]]
    for v, _, one in lines(salon.kept):
        full.append([v.id, f"{v.starts:%d/%m/%Y %H:%M}", f"{v.ends:%d/%m/%Y %H:%M}", salon.name(v.client), v.stylist,
                     one.service.name, comma(one.price)])  # fmt: skip
    text(folder, "appuntamenti.csv", full)
    rows: list[Row] = [["Ora", "Prodotto 1", "Grammi 1", "Prodotto 2", "Grammi 2"]]
    for v in salon.visits:
        if v.bowls:
            one, two = v.bowls
            rows.append([f"{one.at:%d/%m/%Y %H:%M}", one.product, one.mixed, two.product, two.mixed])
    text(folder, "miscele.csv", rows)


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


def day_numbers_italian(folder: Path, salon: Salon) -> None:
    """A sheet a month with the number of the day once, and a total below each day."""
    sheets: dict[str, list[Row]] = {}
    for day, visits in by_day(salon.kept):
        sheet = sheets.setdefault(
            format_date(day, "MMMM y", "it").capitalize(), [["Giorno", "Ora", "Cliente", "Servizio", "Prezzo", "Chi"]]
        )
        total = Decimal(0)
        for at, (v, _, one) in enumerate(lines(visits)):
            number = day.day if at == 0 else ""
            sheet.append([number, f"{v.starts:%H:%M}", salon.name(v.client), one.service.name, one.price, v.stylist])
            total += one.price
        sheet.append(["Totale", "", "", "", total, ""])
    book(folder, "agenda.xlsx", sheets)


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
    Way("log_below_products", "fr", log_below_products, (*WITH_STYLIST, "bowls")),
    Way("headless", "de", headless),
    Way("grid_days_across", "it", grid_with_days_across, (*WITH_STYLIST, "payments")),
    Way("counts", "nl", counts),
    Way("counts_beside", "nl", counts_beside, (*WITH_STYLIST, "ends")),
    Way("day_above_spanish", "es", day_above_spanish, WITH_STYLIST, answers={"bookings": {"Atiende": "stylist"}}),
    Way(
        "sections_in_sections",
        "en",
        sections_in_sections,
        WITH_STYLIST,
        answers={"bookings": {"(the line above 2)": "stylist"}},
    ),
    Way("lengths", "fr", lengths, (*WITH_STYLIST, "ends"), answers={"bookings": {"Avec": "stylist"}}),
    Way("side_by_side_bowls", "it", side_by_side_bowls, (*WITH_STYLIST, "ends", "mixed")),
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
    Way("without_price", "nl", without_price),
    Way("day_numbers_italian", "it", day_numbers_italian, WITH_STYLIST, answers={"bookings": {"Chi": "stylist"}}),
    Way("typed_and_text_spanish", "es", moments_as_text_and_numbers, WITH_STYLIST),
]
