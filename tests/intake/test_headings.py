"""Headings in six languages: what each means, which table a sheet is, and what is left open rather than guessed."""

import pytest
from asked_headings import best, matched, settings

from analytics.definitions.tables import TABLES
from analytics.intake.meaning.headings import best_fit
from analytics.intake.meaning.one_heading import column_meant
from analytics.stops import WorkStopped

# Units


@pytest.mark.parametrize(
    ("table", "heading", "column"),
    [
        ("bookings", "Dauer (Std.)", None),
        ("bookings", "Duur in uren", None),
        ("bookings", "Durée en minutes", "minutes"),
        ("bookings", "Rabatt (%)", None),
        ("bookings", "Discount %", None),
        ("bookings", "Preis (CHF)", None),
        ("bookings", "Preis in EUR", "price"),
        ("bookings", "Preis (neu)", None),
        ("bookings", "Prix TTC", "price"),
        ("bookings", "Prix HT", None),
        ("bookings", "Fecha (dd/mm/aaaa)", "day"),
        ("bookings", "Uhrzeit (hh:mm)", "start_time"),
        ("services", "MwSt.", None),
        ("services", "% TVA", "tax_rate"),
        ("product_log", "Menge", None),
        ("product_log", "Menge [kg]", None),
        ("product_log", "Menge g", "mixed_g"),
        ("products", "Inhalt (ml)", None),
        ("products", "Inhalt (g)", "pack_g"),
        ("clients", "Naturtonhöhe (1-10)", "natural_level"),
        ("clients", "Grauanteil (%)", "grey_share"),
        ("clients", "Contact permission (yes/no)", "may_contact"),
        ("stock_moves", "Menge", None),
        ("stock_moves", "Menge (g)", "grams"),
        ("stock_moves", "Menge (Stück)", "packs"),
    ],
)
def test_a_heading_of_another_unit_is_left_open(table: str, heading: str, column: str | None) -> None:
    assert column_meant(TABLES[table], heading, settings()).column == column


def test_prices_with_and_without_tax_go_by_the_settings() -> None:
    added = settings('[tax]\nprices = "added"')
    assert column_meant(TABLES["services"], "Preis netto", added).column == "price"
    assert column_meant(TABLES["services"], "Preis netto", settings()).column is None
    assert column_meant(TABLES["services"], "Preis (inkl. MwSt.)", added).column is None


# Whole sheets

SHEETS = {
    "Termine.csv": (
        "bookings",
        "Termin-Nr.;Datum;Uhrzeit;Dauer (Min.);Kundin;Mitarbeiterin;Leistung;Preis (EUR);Status;Bemerkung",
        "booking_id day start_time minutes client stylist service price status",
    ),
    "afspraken.csv": (
        "bookings",
        "Afspraaknr;Datum;Begin;Einde;Klantnummer;Kapper;Behandeling;Prijs;Korting;Fooi;Status",
        "booking_id day start_time end_time client_id stylist service price discount tip status",
    ),
    "réservations.csv": (
        "bookings",
        "N° RDV;Début;Fin;N° client;Prestation;Prix TTC;Statut",
        "booking_id starts_at ends_at client_id service price status",
    ),
    "citas.csv": (
        "bookings",
        "Nº cita;Fecha y hora;Duración;Código cliente;Estilista;Servicio;Precio;Estado;Propina",
        "booking_id starts_at minutes client_id stylist service price status tip",
    ),
    "prezzi.csv": (
        "services",
        "Codice servizio;Nome;Categoria;Prezzo;Aliquota IVA;Tempo di lavoro (min);Tempo di posa (min)",
        "service_id service kind price tax_rate hands_on_min processing_min",
    ),
    "Mischprotokoll.csv": (
        "product_log",
        "Datum;Mitarbeiter;Produkt;Menge [g];Rest [g];Notiz",
        "logged_at stylist product mixed_g left_g",
    ),
    "artikelen.csv": (
        "products",
        "ID;Naam;Soort;Inhoud (g);Inkoopprijs (€);BTW %",
        "product_id product kind pack_g pack_cost tax_rate",
    ),
    "Kunden.csv": ("clients", "ID;Name;Telefon;E-Mail;Grauanteil", "client_id client phone email grey_share"),
    "caisse.csv": ("payments", "Date;Heure;Mode de règlement;Montant;Frais", "paid_at time method amount fee"),
    "ventas.csv": ("sales", "Fecha;Producto;Cantidad;Precio;Vendedora", "sold_at product quantity price stylist"),
    "magazzino.csv": (
        "stock_moves",
        "Data;Prodotto;Tipo movimento;Confezioni;Costo unitario (EUR);Scadenza",
        "moved_at product movement packs unit_cost expires_on",
    ),
    "Lieferungen.csv": (
        "stock_moves",
        "Datum;Artikel;Bewegung;Stück;EK;Haltbar bis",
        "moved_at product movement packs unit_cost expires_on",
    ),
    "x.csv": ("payments", "Paid on;Payment type;Amount (EUR)", "paid_at method amount"),
}


@pytest.mark.parametrize("name", SHEETS)
def test_whole_sheets(name: str) -> None:
    table, headings, columns = SHEETS[name]
    found = matched(headings, name)
    assert found.pop("") == table
    assert " ".join(found.values()) == columns


def test_the_name_of_the_sheet_decides_where_headings_fit_several_tables() -> None:
    headings = "Datum;Artikel;Menge;Preis;Bewegung"
    assert best(headings, "2026.xlsx#Lagerbewegungen").table.name == "stock_moves"
    assert best(headings, "2026.xlsx#Verkäufe").table.name == "sales"


@pytest.mark.parametrize(
    ("headings", "name"),
    [
        ("Datum;Omschrijving;Bedrag", "huishouden.csv"),
        ("Naam;Telefoon;E-mail", "personeel.csv"),
        ("ID;Name;Land", "x.csv"),
        ("Lieferant;Kundennummer;Telefon;E-Mail", "Adressen.csv"),
        ("Datum;Artikel;Menge;Preis", "Bestellungen.csv"),
        ("Notes;Colour", "x.csv"),
        ("", "x.csv"),
        ("Datum", "bookings.csv"),
    ],
)
def test_sheets_that_may_as_well_be_something_else_are_no_table(headings: str, name: str) -> None:
    assert best(headings, name) is None
    assert best_fit(headings.split(";"), name, settings()) == 0


def test_a_table_that_lacks_a_column_stops_with_all_the_ways_to_have_it() -> None:
    with pytest.raises(WorkStopped, match="looks like bookings but has no column starts_at or day and start_time"):
        matched("Termin-Nr.;Datum;Kundin;Leistung;Preis;Status;Dauer", "Termine.csv")
    with pytest.raises(WorkStopped, match="has no column ends_at or day and end_time or minutes; add it"):
        matched("booking_id;client_id;starts_at;status;service;price")


@pytest.mark.parametrize(
    ("headings", "means"),
    [
        ("Termin-Nr.;Kunde;Tag;von;bis;Status;Leistung;Preis", {"Tag": "day", "von": "start_time", "bis": "end_time"}),
        ("Termin-Nr.;Kunde;Datum;Tag;von;bis;Status;Leistung;Preis", {"Datum": "day", "Tag": None}),
        ("Afspraaknr.;Klant;Begin;Einde;Status;Behandeling;Bedrag", {"Bedrag": "price"}),
        ("Afspraaknr.;Klant;Begin;Einde;Status;Behandeling;Bedrag;Korting", {"Bedrag": None}),
        ("Booking ref;Client;Start;End;Status;Service;Price;Booking date", {"Booking date": "booked_on"}),
        ("Code prestation;Prestation;Libellé;Type;TVA %;Minutes de travail", {"Libellé": None}),
        ("Code prestation;Libellé;Type;TVA %;Minutes de travail", {"Libellé": "service"}),
    ],
)
def test_some_words_stand_in_only_where_nothing_else_does(headings: str, means: dict[str, str | None]) -> None:
    match = best(headings)
    assert match is not None
    found = {meaning.heading: meaning.column for meaning in match.why}
    assert {heading: found[heading] for heading in means} == means


def test_what_is_lacking_is_asked_for_with_the_headings_that_may_be_it() -> None:
    with pytest.raises(WorkStopped, match=r"has no column price; .*perhaps 'Betrag'"):
        matched("Termin-Nr.;Kunde;Datum;von;bis;Status;Leistung;Betrag;Rabatt", "Termine.csv")


# What goes first, and what is left open


def test_salon_toml_overrides_contract_and_words() -> None:
    more = '[columns.payments]\n"Preis (Kasse)" = "amount"\n"Art" = "method"\n"betrag" = "fee"'
    found = matched("Datum;Art;Preis (Kasse);BETRAG;Preis (alt)", more=more)
    assert found == {"": "payments", "Datum": "paid_at", "Art": "method", "Preis (Kasse)": "amount", "BETRAG": "fee"}


def test_an_override_means_its_heading_however_it_is_spelt() -> None:
    more = '[columns.payments]\n"Art der Kasse" = "method"'
    assert matched("paid_at;ART-DER KASSE (kurz);amount", more=more)["ART-DER KASSE (kurz)"] == "method"


def test_a_contract_column_twice_stops() -> None:
    with pytest.raises(WorkStopped, match="two columns that mean amount"):
        matched("paid_at;method;amount;Amount (EUR)")


def test_a_column_twice_in_a_table_the_sheet_is_not_is_no_matter() -> None:
    more = '[columns.sales]\n"paid_at" = "sold_at"\n"amount" = "sold_at"'
    assert matched("paid_at;method;amount;fee", more=more)[""] == "payments"


def test_two_general_words_for_one_column_are_both_left_open() -> None:
    match = best("Kundennummer;Kundenname;Telefon;Handy;E-Mail")
    assert {one.heading: one.column for one in match.why}["Telefon"] is None
    assert match.why[3].by == "not used: another heading stands for phone too"


def test_a_general_word_gives_way_to_the_contract_name() -> None:
    match = best("paid_at;Datum;method;amount")
    assert match.places == {"paid_at": 0, "method": 2, "amount": 3}


def test_half_a_name_is_no_client() -> None:
    assert "client" not in best("Kundennummer;Vorname;Name;Telefon", "Kunden.csv").places
    assert best("Kundennummer;Name;Telefon", "Kunden.csv").places["client"] == 1


def test_start_and_end_are_times_beside_a_day_and_moments_without() -> None:
    rest = "Buchungs-Nr;Kunde;Leistung;Preis;Status"
    assert matched(f"{rest};Termindatum;Von;Bis")["Bis"] == "end_time"
    assert matched(f"{rest};Beginn;Ende")["Beginn"] == "starts_at"
    assert matched(f"{rest};starts_at;Beginn;Ende").get("Beginn") is None


def test_a_heading_that_salon_toml_leaves_out_is_not_used_however_well_it_is_known() -> None:
    assert matched("paid_at;Betaalwijze;amount")["Betaalwijze"] == "method"
    more = '[columns.payments]\n"betaalwijze" = ""'
    assert "Betaalwijze" not in matched("paid_at;Betaalwijze;amount;method", more=more)
    rest = "Buchungs-Nr;Kunde;Leistung;Preis;Status;Termindatum;minutes"
    assert matched(f"{rest};Von")["Von"] == "start_time"
    left_out = best(f"{rest};Von", more='[columns.bookings]\n"Von" = ""')
    assert left_out is not None
    assert left_out.why[-1].column is None


def test_why_says_for_each_heading_what_it_was_matched_by() -> None:
    more = '[columns.payments]\n"Soort" = "method"'
    match = best("paid_at;Soort;Bedrag;Opmerking;Montant", more=more)
    assert [(one.heading, one.column, one.by) for one in match.why[:2]] == [
        ("paid_at", "paid_at", "contract name"),
        ("Soort", "method", "[columns.payments] in salon.toml"),
    ]
    assert match.why[3].by == "not used"
    alone = best("Datum;Betaalwijze;Bedrag")
    assert [one.by for one in alone.why] == ["word list (Dutch, German)", "word list (Dutch)", "word list (Dutch)"]
