"""Fuller exports: visits in every state, kinds and codes under office words of six languages, and further tables."""

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

from dialects.small import Salon, Visit
from dialects.way import Row, Way, comma, lines, point, text
from dialects.ways_thin import WITH_STYLIST

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
]
