"""Thin diaries, a row a service: who came when for what, with little else."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from dialects.small import Line, Salon, Visit
from dialects.way import DIARY, Row, Way, book, comma, lines, text

WITH_STYLIST = (*DIARY, "stylists")


def diary(salon: Salon, heading: str, cells: Callable[[Visit, int, Line], Row]) -> list[Row]:
    return [heading.split("|"), *(cells(*line) for line in lines(salon.kept))]


def midnight(moment: datetime) -> datetime:
    return moment.replace(hour=0, minute=0)


def bare_english(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Date|Time|Client|Service|Price",
        lambda v, _, one: [
            f"{v.starts:%d/%m/%Y}",
            f"{v.starts:%H:%M}",
            salon.name(v.client),
            one.service.name,
            one.price,
        ],
    )
    text(folder, "diary.csv", rows, ",")


def dutch_with_list(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Dag|Tijd|Klant|Behandeling|Bedrag",
        lambda v, _, one: [
            f"{v.starts:%d-%m-%Y}",
            f"{v.starts:%H:%M}",
            salon.name(v.client),
            one.service.name,
            comma(one.price),
        ],
    )
    text(folder, "agenda.csv", rows)
    text(folder, "prijslijst.csv", [["Behandeling", "Prijs"], *([s.name, comma(s.price)] for s in salon.services)])


def german_workbooks(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Datum|Uhrzeit|Kunde|Mitarbeiterin|Leistung|Preis",
        lambda v, _, one: [
            midnight(v.starts),
            f"{v.starts:%H:%M}",
            salon.name(v.client),
            v.stylist,
            one.service.name,
            one.price,
        ],
    )
    book(folder, "Terminbuch.xlsx", {"Tabelle1": rows})
    menu = [["Leistung", "Dauer (Min.)", "Preis"], *([s.name, s.minutes, s.price] for s in salon.services)]
    book(folder, "Preisliste.xlsx", {"Tabelle1": menu})


def french_euro_sign(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Jour|Heure|Cliente|Prestation|Tarif",
        lambda v, _, one: [
            f"{v.starts:%d/%m/%Y}",
            f"{v.starts:%Hh%M}",
            salon.name(v.client),
            one.service.name,
            comma(one.price, " €"),
        ],
    )
    text(folder, "carnet.csv", rows, encoding="cp1252")


def italian_operator(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Data|Ora|Nominativo|Trattamento|Importo|Operatrice",
        lambda v, _, one: [
            f"{v.starts:%d/%m/%Y}",
            f"{v.starts:%H.%M}",
            salon.name(v.client),
            one.service.name,
            comma(one.price),
            v.stylist,
        ],
    )
    text(folder, "agenda.csv", rows)


def spanish_attended_by(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Fecha|Hora|Clienta|Servicio|Precio|Atendida por",
        lambda v, _, one: [
            f"{v.starts:%d-%m-%y}",
            f"{v.starts:%H:%M}",
            salon.name(v.client),
            one.service.name,
            comma(one.price),
            v.stylist,
        ],
    )
    text(folder, "citas.csv", rows)


def american(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "When|Guest|Provider|What was done|Charged",
        lambda v, _, one: [
            f"{v.starts:%m/%d/%Y} {v.starts.hour % 12 or 12}:{v.starts:%M} {v.starts:%p}",
            salon.name(v.client),
            v.stylist,
            one.service.name,
            f"${one.price}",
        ],
    )
    text(folder, "book.csv", rows, ",")


THIN = [
    Way("bare_english", "en", bare_english),
    Way("dutch_with_list", "nl", dutch_with_list),
    Way("german_workbooks", "de", german_workbooks, WITH_STYLIST),
    Way("french_euro_sign", "fr", french_euro_sign),
    Way("italian_operator", "it", italian_operator, WITH_STYLIST),
    Way("spanish_attended_by", "es", spanish_attended_by, WITH_STYLIST),
    Way("american", "en", american, WITH_STYLIST, answers={"bookings": {"Provider": "stylist"}}),
]
