"""Thin diaries laid out otherwise: titles between, several services a row, sheets by month, quotes and blanks."""

from collections.abc import Callable
from decimal import Decimal
from itertools import groupby
from pathlib import Path
from typing import Any

from dialects.small import Salon
from dialects.way import Row, Way, book, comma, lines, point, raw, text
from dialects.ways_thin import WITH_STYLIST, diary, midnight


def side_by_side(folder: Path, salon: Salon) -> None:
    most = 3
    heading = ["Date", "Time", "Client", "Stylist"]
    heading += [f"{word} {number}" for number in range(1, most + 1) for word in ("Service", "Price")]
    rows = [heading]
    for v in salon.kept:
        cells: Row = [f"{v.starts:%d/%m/%Y}", f"{v.starts:%H:%M}", salon.name(v.client), v.stylist]
        for one in v.lines:
            cells += [one.service.name, point(one.price)]
        rows.append(cells + [""] * (len(heading) - len(cells)))
    text(folder, "visits.csv", rows, ",")


def blanks_below(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Datum|Tijd|Klant|Medewerker|Dienst|Prijs",
        lambda v, number, one: [
            *(
                ["", "", "", ""]
                if number > 1
                else [f"{v.starts:%d-%m-%Y}", f"{v.starts:%H:%M}", salon.name(v.client), v.stylist]
            ),
            one.service.name,
            comma(one.price),
        ],
    )
    text(folder, "afspraken.csv", rows)


def day_totals(folder: Path, salon: Salon) -> None:
    rows: list[Row] = [["Datum", "Zeit", "Kundin", "Friseurin", "Behandlung", "Betrag"]]
    for day, visits in groupby(salon.kept, lambda v: v.starts.date()):
        of_day = list(lines(visits))
        rows += [
            [
                f"{day:%d.%m.%Y}",
                f"{v.starts:%H:%M}",
                salon.name(v.client),
                v.stylist,
                one.service.name,
                comma(one.price),
            ]
            for v, _, one in of_day
        ]
        rows.append(
            [f"{day:%d.%m.%Y}", "", "Tagessumme", "", "", comma(sum((one.price for *_, one in of_day), Decimal(0)))]
        )
    text(folder, "Kalender.csv", rows)


def stylist_above(folder: Path, salon: Salon) -> None:
    rows: list[Row] = [["Date", "Time", "Client", "Service", "Price"]]
    for stylist in sorted({v.stylist for v in salon.kept}):
        rows.append([stylist, "", "", "", ""])
        rows += [
            [f"{v.starts:%d/%m/%Y}", f"{v.starts:%H:%M}", salon.name(v.client), one.service.name, point(one.price)]
            for v, _, one in lines(salon.kept)
            if v.stylist == stylist
        ]
    text(folder, "by stylist.csv", rows, ",")


MONTHS_FR = ("mai", "juin", "juillet", "août", "septembre")
WEEKDAYS_FR = ("lundi", "mardi", "mercredi", "jeudi", "vendredi", "samedi", "dimanche")
MONTHS_DE = ("Mai", "Juni", "Juli", "August", "September")
MONTHS_NL = ("mei", "juni", "juli", "augustus", "september")


def day_above(folder: Path, salon: Salon) -> None:
    rows: list[Row] = [["Heure", "Cliente", "Prestation", "Prix"]]
    for day, visits in groupby(salon.kept, lambda v: v.starts.date()):
        rows.append([f"{WEEKDAYS_FR[day.weekday()]} {day.day} {MONTHS_FR[day.month - 5]} {day.year}", "", "", ""])
        rows += [
            [f"{v.starts:%H:%M}", salon.name(v.client), one.service.name, comma(one.price)]
            for v, _, one in lines(visits)
        ]
    text(folder, "rendez-vous.csv", rows)


def sheet_a_month(folder: Path, salon: Salon) -> None:
    sheets: dict[str, list[Row]] = {}
    for v, _, one in lines(salon.kept):
        title = f"{MONTHS_NL[v.starts.month - 5]} {v.starts.year}"
        rows = sheets.setdefault(title, [["Datum", "Tijd", "Naam", "Kapster", "Behandeling", "Prijs"]])
        rows.append(
            [midnight(v.starts), f"{v.starts:%H:%M}", salon.name(v.client), v.stylist, one.service.name, one.price]
        )
    book(folder, "agenda 2026.xlsx", sheets)


def day_number(folder: Path, salon: Salon) -> None:
    sheets: dict[str, list[Row]] = {}
    for v, _, one in lines(salon.kept):
        title = f"{MONTHS_DE[v.starts.month - 5]} {v.starts.year}"
        rows = sheets.setdefault(title, [["Tag", "Uhrzeit", "Kundin", "Leistung", "Preis"]])
        rows.append([v.starts.day, f"{v.starts:%H:%M}", salon.name(v.client), one.service.name, one.price])
    book(folder, "Termine.xlsx", sheets)


def two_tables(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Date|Time|Customer|Treatment|Price",
        lambda v, _, one: [midnight(v.starts), f"{v.starts:%H:%M}", salon.name(v.client), one.service.name, one.price],
    )
    menu = [["Treatment", "Minutes", "Price"], *([s.name, s.minutes, s.price] for s in salon.services)]
    book(folder, "salon.xlsx", {"Sheet1": [*rows, [], [], ["Our prices"], *menu]})


def two_heading_rows(folder: Path, salon: Salon) -> None:
    rows: list[Row] = [["", "", "", "", "", "", ""], ["Day", "From", "To", "Client", "Stylist", "Service", "Price"]]
    rows += [
        [
            midnight(v.starts),
            f"{v.starts:%H:%M}",
            f"{v.ends:%H:%M}",
            salon.name(v.client),
            v.stylist,
            one.service.name,
            one.price,
        ]
        for v, _, one in lines(salon.kept)
    ]
    merged = [(0, 0, 0, 2, "When"), (0, 3, 0, 4, "Who"), (0, 5, 0, 6, "What")]
    book(folder, "appointments.xlsx", {"Sheet1": rows}, merged)


def by_blanks(folder: Path, salon: Salon) -> None:
    widths = (12, 7, 24, 26, 8)
    cells: list[Row] = [["Date", "Time", "Client", "Service", "Price"]]
    cells += [
        [f"{v.starts:%d/%m/%Y}", f"{v.starts:%H:%M}", salon.name(v.client), one.service.name, point(one.price)]
        for v, _, one in lines(salon.kept)
    ]
    raw(folder, "printout.txt", ["".join(str(c).ljust(w) for c, w in zip(row, widths, strict=True)) for row in cells])


def quoted(mark: str, between: str, first: bool = True) -> Callable[[Path, Salon], None]:
    def write(folder: Path, salon: Salon) -> None:
        rows: list[list[Any]] = [["Date", "Time", "Client", "Service", "Price"]]
        rows += [
            [
                f"{v.starts:%d/%m/%Y}",
                f"{v.starts:%H:%M}",
                f"{salon.clients[v.client][1]}, {salon.clients[v.client][0]}",
                one.service.name,
                point(one.price),
            ]
            for v, _, one in lines(salon.kept)
        ]
        raw(folder, "export.csv", [between.join(f"{mark}{cell}{mark}" for cell in row) for row in rows])

    return write


def backslashes(folder: Path, salon: Salon) -> None:
    rows: list[list[str]] = [["Date", "Time", "Client", "Service", "Price"]]
    rows += [
        [
            f"{v.starts:%d/%m/%Y}",
            f"{v.starts:%H:%M}",
            f'{salon.clients[v.client][1]}\\, {salon.clients[v.client][0]} \\"{v.client}\\"',
            one.service.name,
            point(one.price),
        ]
        for v, _, one in lines(salon.kept)
    ]
    raw(folder, "export.csv", [",".join(row) for row in rows])


def typed_and_text(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Date|Time|Client|Service|Price",
        lambda v, _, one: [
            midnight(v.starts) if v.starts.day % 3 else f"{v.starts:%d/%m/%Y}",
            f"{v.starts:%H:%M}",
            salon.name(v.client),
            one.service.name,
            one.price if v.starts.day % 2 else point(one.price),
        ],
    )
    book(folder, "diary.xlsx", {"Sheet1": rows})


LAID_OUT = [
    Way("side_by_side", "en", side_by_side, WITH_STYLIST),
    Way("blanks_below", "nl", blanks_below, WITH_STYLIST),
    Way("day_totals", "de", day_totals, WITH_STYLIST),
    Way("stylist_above", "en", stylist_above, WITH_STYLIST, answers={"bookings": {"(the line above)": "stylist"}}),
    Way("day_above", "fr", day_above),
    Way("sheet_a_month", "nl", sheet_a_month, WITH_STYLIST),
    Way("day_number", "de", day_number),
    Way("two_tables", "en", two_tables),
    Way("two_heading_rows", "en", two_heading_rows, (*WITH_STYLIST, "ends")),
    Way("by_blanks", "en", by_blanks),
    Way("apostrophes", "en", quoted("'", ",")),
    Way("blank_behind_comma", "en", quoted('"', ", ")),
    Way("backslashes", "en", backslashes),
    Way("typed_and_text", "en", typed_and_text),
]
