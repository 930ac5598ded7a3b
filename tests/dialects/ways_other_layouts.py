"""Sheets of that other make that are laid out for people: grids, a day above its rows, sections in sections."""

from collections import Counter
from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from itertools import groupby
from pathlib import Path

from babel.dates import format_date

from dialects.small import Salon, Visit
from dialects.way import Row, Way, book, comma, lines, point, text
from dialects.ways_other import WITH_STYLIST, listed


def by_day(visits: Iterable[Visit]) -> Iterable[tuple[date, list[Visit]]]:
    for day, found in groupby(sorted(visits, key=lambda v: v.starts), key=lambda v: v.starts.date()):
        yield day, list(found)


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


OTHER_LAYOUTS = [
    Way("log_below_products", "fr", log_below_products, (*WITH_STYLIST, "bowls")),
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
    Way("side_by_side_bowls", "it", side_by_side_bowls, (*WITH_STYLIST, "ends", "mixed")),
    Way("day_numbers_italian", "it", day_numbers_italian, WITH_STYLIST, answers={"bookings": {"Chi": "stylist"}}),
]
