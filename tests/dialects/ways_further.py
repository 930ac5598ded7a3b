"""Further exports: other tables beside a thin diary, amounts in cents, two names, headings that are questions."""

from collections import Counter
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

from dialects.small import Salon
from dialects.way import DIARY, Row, Way, book, comma, lines, point, text
from dialects.ways_full import payments
from dialects.ways_laid_out import MONTHS_NL
from dialects.ways_thin import WITH_STYLIST, diary


def terminal(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Datum|Tijd|Klant|Behandeling|Prijs",
        lambda v, _, one: [
            f"{v.starts:%d-%m-%Y}",
            f"{v.starts:%H:%M}",
            salon.name(v.client),
            one.service.name,
            comma(one.price),
        ],
    )
    text(folder, "agenda.csv", rows)
    payments(folder, salon, "Datum|Tijd|Bedrag", "pinapparaat mei-augustus.csv", None)


def in_cents(heading: str) -> Callable[[Path, Salon], None]:
    def write(folder: Path, salon: Salon) -> None:
        rows = diary(
            salon,
            heading,
            lambda v, _, one: [
                f"{v.starts:%Y-%m-%d}",
                f"{v.starts:%H:%M}",
                salon.name(v.client),
                one.service.name,
                int(one.price * 100),
            ],
        )
        text(folder, "diary.csv", rows, ",")
        menu: list[Row] = [["Service", "Minutes", "Price"]]
        text(folder, "menu.csv", [*menu, *([s.name, s.minutes, point(s.price)] for s in salon.services)], ",")

    return write


def menu_without_codes(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Visit|Start|End|Client|Stylist|Service|Price",
        lambda v, _, one: [
            v.id,
            f"{v.starts:%Y-%m-%d %H:%M}",
            f"{v.ends:%Y-%m-%d %H:%M}",
            salon.name(v.client),
            v.stylist,
            one.service.name,
            one.price,
        ],
    )
    text(folder, "visits.csv", rows, ",")
    text(folder, "price list.csv", [["Service", "Price"], *([s.name, s.price] for s in salon.services)], ",")


def clocks_only(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Beginn|Bis|Kundin|Stylistin|Leistung|Preis",
        lambda v, _, one: [
            f"{v.starts:%d.%m.%Y %H:%M}",
            f"{v.ends:%H:%M}",
            salon.name(v.client),
            v.stylist,
            one.service.name,
            comma(one.price),
        ],
    )
    text(folder, "Buchungen.csv", rows)


def unnamed_amounts(folder: Path, salon: Salon) -> None:
    rows: list[Row] = [["Date", "Time", "Client", "Service", "Price", "Extra", "Minus"]]
    rows += [
        [
            f"{v.starts:%d/%m/%Y}",
            f"{v.starts:%H:%M}",
            salon.name(v.client),
            one.service.name,
            one.price,
            v.tip if number == 1 else 0,
            one.discount,
        ]
        for v, number, one in lines(salon.kept)
    ]
    text(folder, "diary.csv", rows, ",")


def recipe_notes(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Visit|Date|Time|Client|Stylist|Service|Price",
        lambda v, _, one: [
            v.id,
            f"{v.starts:%d/%m/%Y}",
            f"{v.starts:%H:%M}",
            salon.name(v.client),
            v.stylist,
            one.service.name,
            one.price,
        ],
    )
    text(folder, "diary.csv", rows, ",")
    notes: list[Row] = [["Visit", "Mixed at", "Recipe"]]
    for v in salon.done:
        if v.bowls:
            parts = [f"{bowl.mixed} g {bowl.product}" for bowl in v.bowls]
            left = sum(bowl.left or 0 for bowl in v.bowls)
            told = "" if v.bowls[0].left is None else f", left {left} g"
            notes.append([v.id, f"{v.bowls[0].at:%d/%m/%Y %H:%M}", " + ".join(parts) + told])
    text(folder, "colour notes.csv", notes, ",")


def takings_grid(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Jour|Heure|Cliente|Coiffeuse|Prestation|Prix",
        lambda v, _, one: [
            f"{v.starts:%d/%m/%Y}",
            f"{v.starts:%H:%M}",
            salon.name(v.client),
            v.stylist,
            one.service.name,
            comma(one.price),
        ],
    )
    text(folder, "agenda.csv", rows)
    by_day: Counter[tuple[str, str]] = Counter()
    for v in salon.done:
        by_day[f"{v.starts:%d/%m/%Y}", v.method] += v.paid
    days = list(dict.fromkeys(day for day, _ in by_day))
    grid: list[Row] = [["Jour", "Espèces", "Carte"]]
    grid += [[day, *(comma(Decimal(by_day[day, method])) for method in ("cash", "card"))] for day in days]
    text(folder, "recettes.csv", grid)


def one_cell(folder: Path, salon: Salon) -> None:
    rows: list[Row] = [["Date", "Time", "Client", "Stylist", "Services", "Total"]]
    rows += [
        [
            f"{v.starts:%d/%m/%Y}",
            f"{v.starts:%H:%M}",
            salon.name(v.client),
            v.stylist,
            ", ".join(one.service.name for one in v.lines),
            sum((one.price for one in v.lines), Decimal(0)),
        ]
        for v in salon.kept
    ]
    text(folder, "visits.csv", rows, ",")
    menu: list[Row] = [["Service", "Price", "Minutes"], *([s.name, s.price, s.minutes] for s in salon.services)]
    text(folder, "menu.csv", menu, ",")


def two_names(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Jour|Heure|Prénom|Nom|Prestation|Durée|Prix",
        lambda v, _, one: [
            f"{v.starts:%d/%m/%Y}",
            f"{v.starts:%H:%M}",
            *salon.clients[v.client],
            one.service.name,
            one.service.minutes,
            comma(one.price),
        ],
    )
    text(folder, "agenda.csv", rows)


def hours_and_minutes(folder: Path, salon: Salon) -> None:
    rows = diary(
        salon,
        "Quando|Per quanto|Chi|Con chi|Cosa|Quanto",
        lambda v, _, one: [
            f"{v.starts:%d/%m/%Y %H:%M}",
            f"{(v.ends - v.starts).seconds // 3600}h{(v.ends - v.starts).seconds // 60 % 60:02}",
            salon.name(v.client),
            v.stylist,
            one.service.name,
            comma(one.price),
        ],
    )
    text(folder, "appuntamenti.csv", rows)


def counts_by_day(folder: Path, salon: Salon) -> None:
    """The diary a sheet a month in one workbook, the price list in another sheet of it, and a sheet that is neither."""
    sheets: dict[str, list[Row]] = {}
    for v, _, one in lines(salon.kept):
        rows = sheets.setdefault(MONTHS_NL[v.starts.month - 5], [["Wanneer", "Wie", "Door", "Wat", "Hoeveel"]])
        rows.append([v.starts, salon.name(v.client), v.stylist, one.service.name, one.price])
    sheets["Prijzen"] = [["Wat", "Hoeveel", "Minuten"], *([s.name, s.price, s.minutes] for s in salon.services)]
    sheets["Notities"] = [["Nog bellen"], ["Loodgieter"], ["Verzekering"]]
    book(folder, "salon.xlsx", sheets)


FURTHER = [
    Way("terminal", "nl", terminal, DIARY),
    Way("cents_said", "en", in_cents("Date|Time|Client|Service|Price (cents)")),
    Way("cents_unsaid", "en", in_cents("Date|Time|Client|Service|Amount")),
    Way("menu_without_codes", "en", menu_without_codes, (*WITH_STYLIST, "ends")),
    Way("clocks_only", "de", clocks_only, (*WITH_STYLIST, "ends")),
    Way(
        "unnamed_amounts",
        "en",
        unnamed_amounts,
        (*DIARY, "net", "tips"),
        answers={"bookings": {"Extra": "tip", "Minus": "discount"}},
    ),
    Way("recipe_notes", "en", recipe_notes, (*WITH_STYLIST, "mixed")),
    Way("takings_grid", "fr", takings_grid, (*WITH_STYLIST, "payments")),
    Way("one_cell", "en", one_cell, ("lines", "visits", "starts", "clients", "stylists")),
    Way("two_names", "fr", two_names),
    Way(
        "hours_and_minutes",
        "it",
        hours_and_minutes,
        (*WITH_STYLIST, "ends"),
        answers={
            "bookings": {
                "Quando": "starts_at",
                "Per quanto": "minutes",
                "Chi": "client_id",
                "Con chi": "stylist",
                "Cosa": "service",
                "Quanto": "price",
            }
        },
    ),
    Way("questions_as_headings", "nl", counts_by_day, WITH_STYLIST),
    Way(
        "booked_beside_start",
        "en",
        lambda folder, salon: text(
            folder,
            "list.csv",
            diary(
                salon,
                "Made|For|Person|By|Item|Charge",
                lambda v, _, one: [
                    f"{v.booked_on:%Y-%m-%d} 12:00",
                    f"{v.starts:%Y-%m-%d %H:%M}",
                    salon.name(v.client),
                    v.stylist,
                    one.service.name,
                    one.price,
                ],
            ),
            ",",
        ),
        (*WITH_STYLIST, "booked_on"),
        answers={
            "bookings": {
                "Made": "booked_on",
                "For": "starts_at",
                "Person": "client_id",
                "By": "stylist",
                "Item": "service",
                "Charge": "price",
            }
        },
    ),
]
