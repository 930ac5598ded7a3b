"""Fuller exports: nineteen ways, with numbers, states and further tables under office words of six languages."""

from collections import Counter
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

from dialects.small import Salon, Visit
from dialects.way import DIARY, Row, Way, book, comma, lines, point, text
from dialects.ways_thin import MONTHS_NL, WITH_STYLIST, diary

WHOLE = (*WITH_STYLIST, "net", "ends", "statuses", "tips")
WITH_MENU = (*WHOLE, "kinds")

STATES = {
    "en": "Finished|Planned|Called off|Did not come",
    "nl": "Afgerond|Gepland|Geannuleerd|Niet verschenen",
    "de": "Erledigt|Geplant|Abgesagt|Nicht erschienen",
    "fr": "Terminé|Prévu|Annulé|Absent",
    "it": "Concluso|Previsto|Disdetto|Non venuto",
    "es": "Realizada|Prevista|Anulada|No vino",
}
STATUSES = ("completed", "booked", "cancelled", "no_show")


def state(language: str, visit: Visit) -> str:
    return dict(zip(STATUSES, STATES[language].split("|"), strict=True))[visit.status]


def states(language: str) -> dict[str, dict[str, str]]:
    return {"status": dict(zip(STATES[language].split("|"), STATUSES, strict=True))}


KINDS = {
    "en": "Root touch-up|Full colour|Lightening|Toner|Cut|Styling|Treatment",
    "nl": "Uitgroei|Kleuring|Blonderen|Toner|Knippen|Stylen|Verzorging",
    "de": "Ansatz|Färben|Blondieren|Toner|Schneiden|Styling|Pflege",
    "fr": "Racines|Coloration|Décoloration|Patine|Coupe|Coiffage|Soin",
    "it": "Ricrescita|Colore|Schiaritura|Toner|Taglio|Piega|Trattamento",
    "es": "Raíz|Color|Decoloración|Matiz|Corte|Peinado|Tratamiento",
}
KIND_NAMES = ("root_touch_up", "full_colour", "lightening", "toner", "cut", "styling", "treatment")


def kinds(language: str) -> dict[str, dict[str, str]]:
    return {"kind": dict(zip(KINDS[language].split("|"), KIND_NAMES, strict=True))}


def full(heading: str, menu: str, names: tuple[str, str], language: str) -> Callable[[Path, Salon], None]:
    """A diary with everything in it and a price list, both with the salon's own codes."""
    kind = dict(zip(KIND_NAMES, KINDS[language].split("|"), strict=True))
    amount = point if language == "en" else comma

    def write(folder: Path, salon: Salon) -> None:
        rows: list[Row] = [heading.split("|")]
        for v, number, one in lines(salon.visits):
            rows.append(
                [
                    v.id,
                    number,
                    f"K{1000 + v.client}",
                    salon.name(v.client),
                    v.stylist,
                    f"{v.starts:%d/%m/%Y %H:%M}",
                    f"{v.ends:%d/%m/%Y %H:%M}",
                    state(language, v),
                    one.service.id,
                    amount(one.price),
                    amount(one.discount),
                    amount(v.tip if number == 1 else Decimal(0)),
                    f"{v.booked_on:%d/%m/%Y}",
                ]
            )
        text(folder, names[0], rows)
        listed: list[Row] = [menu.split("|")]
        listed += [
            [s.id, s.name, kind[s.kind], amount(s.price), "21", s.hands_on, s.processing or ""] for s in salon.services
        ]
        text(folder, names[1], listed)

    return write


def payments(folder: Path, salon: Salon, heading: str, name: str, ways: dict[str, str] | None) -> None:
    rows: list[Row] = [heading.split("|")]
    for v in salon.done:
        if ways is None and v.method != "card":
            continue
        paid: Row = [f"{v.ends:%d/%m/%Y}", f"{v.ends:%H:%M}", v.id, ways[v.method] if ways else "", comma(v.paid)]
        rows.append(paid if ways else [paid[0], paid[1], paid[4]])
    text(folder, name, rows)


def with_payments(folder: Path, salon: Salon) -> None:
    full(
        "Afspraaknr|Regel|Relatie|Naam|Uitgevoerd door|Aanvang|Gereed|Stand|Code|Bedrag|Afslag|Fooi|Ingeboekt op",
        "Code|Omschrijving|Groep|Tarief|Btw|Werktijd|Inwerktijd",
        ("afspraken.csv", "tarieven.csv"),
        "nl",
    )(folder, salon)
    payments(
        folder, salon, "Dag|Klokslag|Afspraaknr|Betaalwijze|Ontvangen", "kas.csv", {"cash": "Contant", "card": "Pin"}
    )


def with_bowls(folder: Path, salon: Salon) -> None:
    full(
        "Termin|Position|Kundennr|Kunde|Bedient durch|Anfang|Schluss|Stand|"
        "Kürzel|Betrag|Nachlass|Trinkgeld|Vereinbart am",
        "Kürzel|Benennung|Gruppe|Preis|MwSt|Arbeitszeit|Einwirkzeit",
        ("Termine.csv", "Preise.csv"),
        "de",
    )(folder, salon)
    rows: list[Row] = [["Zeitpunkt", "Termin", "Artikel", "Angerührt g", "Rest g"]]
    for v in salon.done:
        for bowl in v.bowls:
            rows.append(
                [f"{bowl.at:%d.%m.%Y %H:%M}", v.id, bowl.product, bowl.mixed, "" if bowl.left is None else bowl.left]
            )
    text(folder, "Mischbuch.csv", rows)


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


def clients_too(folder: Path, salon: Salon) -> None:
    full(
        "Número de cita|Línea|Número de clienta|Nombre|Hecho por|Comienzo|"
        "Final|Situación|Código|Importe|Rebaja|Propina|Apuntada el",
        "Código|Denominación|Grupo|Tarifa|IVA|Minutos de trabajo|Minutos de espera",
        ("citas.csv", "tarifas.csv"),
        "es",
    )(folder, salon)
    rows: list[Row] = [["Número de clienta", "Nombre", "Móvil", "Correo", "Se puede avisar"]]
    for at, (first, last) in enumerate(salon.clients):
        rows.append(
            [
                f"K{1000 + at}",
                f"{first} {last}",
                f"+34 600 {at:03} {at:03}",
                f"c{at}@salon.example",
                "sí" if at % 3 else "no",
            ]
        )
    text(folder, "clientas.csv", rows)


FULL = [
    Way(
        "full_english",
        "en",
        full(
            "Appointment no.|Seq|Customer no.|Customer|Employee|Begin|Finish|"
            "State|Item|Amount|Reduction|Gratuity|Made on",
            "Item|Description|Group|Rate|VAT %|Work minutes|Waiting minutes",
            ("appointments.csv", "tariff.csv"),
            "en",
        ),
        WITH_MENU,
        everything=True,
        words=states("en") | kinds("en"),
    ),
    Way(
        "dutch_payments",
        "nl",
        with_payments,
        (*WITH_MENU, "payments"),
        everything=True,
        answers={"bookings": {"Afslag": "discount"}},
        words=states("nl") | kinds("nl"),
    ),
    Way("german_bowls", "de", with_bowls, (*WITH_MENU, "bowls"), everything=True, words=states("de") | kinds("de")),
    Way(
        "full_french",
        "fr",
        full(
            "N° rendez-vous|Ligne|N° cliente|Cliente|Réalisé par|Début|Fin|État|Réf.|Montant|Remise|Pourboire|Pris le",
            "Réf.|Désignation|Famille|Tarif|TVA|Temps de travail|Temps de pose",
            ("rendez-vous.csv", "tarifs.csv"),
            "fr",
        ),
        WITH_MENU,
        everything=True,
        words=states("fr") | kinds("fr"),
    ),
    Way(
        "full_italian",
        "it",
        full(
            "N. appuntamento|Riga|N. cliente|Cliente|Eseguito da|Inizio|Fine|"
            "Esito|Sigla|Importo|Riduzione|Mancia|Fissato il",
            "Sigla|Denominazione|Gruppo|Tariffa|IVA|Minuti di lavoro|Minuti di posa",
            ("appuntamenti.csv", "listino.csv"),
            "it",
        ),
        WITH_MENU,
        everything=True,
        words=states("it") | kinds("it"),
    ),
    Way("spanish_clients", "es", clients_too, WITH_MENU, everything=True, words=states("es") | kinds("es")),
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
