"""General German words of a salon's office, by what they mean; alternatives stand between bars."""

# Columns that mean the same in every table that has them.
COMMON = {
    "booking_id": "Terminnummer | Termin-Nr | Termin-ID | Terminkennung | Buchungsnummer | Buchungs-Nr | Buchung Nr | "
    "Buchungs-ID | Besuchsnummer | Besuch Nr | Reservierungsnummer | Reservierungs-Nr",
    "client_id": "Kundennummer | Kunden-Nr | Kunde Nr | Kd-Nr | Kunden-ID | Kundencode | Kundinnennummer | KdNr",
    "client": "Kunde | Kundin | Kundenname | Kunde/Kundin | Kunde/in | Name des Kunden | Name der Kundin | "
    "Kundinnenname | Gast | Vollständiger Name | Vor- und Nachname",
    "stylist": "Mitarbeiter | Mitarbeiterin | Friseur | Friseurin | Stylist | Stylistin | Frisör | Frisörin | "
    "Bearbeiter | Bearbeiterin | Colorist | Coloristin | Ausgeführt von | Mitarbeitername | Friseuse",
    "chair": "Stuhl | Stuhlnummer | Stuhl-Nr | Platz | Bedienplatz | Frisierplatz | Arbeitsplatz | Platznummer | "
    "Platz-Nr",
    "service_id": "Leistungsnummer | Leistungs-Nr | Leistung Nr | Leistungs-ID | Leistungscode | "
    "Dienstleistungsnummer | Dienstleistungs-Nr | Dienstleistungs-ID",
    "service": "Leistung | Dienstleistung | Behandlung | Service | Leistungsname | Name der Leistung | "
    "Leistungsbezeichnung | Bezeichnung der Leistung",
    "product_id": "Produktnummer | Produkt-Nr | Produkt-ID | Produktcode | Artikelnummer | Artikel-Nr | Art-Nr | "
    "ArtNr | Artikel-ID | Artikelcode",
    "product": "Produkt | Produktname | Artikel | Artikelname | Artikelbezeichnung | Produktbezeichnung",
    "discount": "Rabatt | Nachlass | Rabattbetrag | Preisnachlass | Ermäßigung",
    "tip": "Trinkgeld | Trinkgelder",
    "tax_rate": "MwSt % | MwSt-Satz | USt % | USt-Satz | Steuersatz | Mehrwertsteuersatz | Umsatzsteuersatz | "
    "Mehrwertsteuer % | Steuer % | Umsatzsteuer %",
    "valid_from": "Gültig ab | Gültig seit | Gültig von | Gilt ab | Gültigkeit ab | "
    "Gültigkeitsbeginn | Datum ab | Ab Datum",
    "site": "Filiale | Salon | Salonname | Niederlassung",
    "time": "Uhrzeit | Zeit | Zeitpunkt Uhrzeit",
}

PARTICULAR = {
    "bookings": {
        "line": "Zeile | Zeilennummer | Zeilen-Nr | Position | Pos | Pos-Nr | Positionsnummer | Positionsnr",
        "starts_at": "Datum und Uhrzeit | Datum/Uhrzeit | Datum Uhrzeit | Datum/Zeit | Datum und Zeit | "
        "Beginn Datum und Uhrzeit | Terminbeginn Datum und Uhrzeit",
        "ends_at": "Ende Datum und Uhrzeit",
        "day": "Datum | Termindatum | Datum des Termins | Besuchsdatum | Behandlungsdatum | Besuchstag | Termintag",
        "start_time": "Uhrzeit | Zeit | Startzeit | Anfangszeit | Beginnzeit | Uhrzeit Beginn | Uhrzeit von | "
        "Zeit von | Beginn Uhrzeit",
        "end_time": "Endzeit | Uhrzeit Ende | Uhrzeit bis | Zeit bis | Ende Uhrzeit",
        "minutes": "Dauer | Minuten | Dauer in Minuten | Zeitdauer | Termindauer | Behandlungsdauer | Anzahl Minuten",
        "status": "Status | Terminstatus | Buchungsstatus | Stand",
        "price": "Preis | Leistungspreis | Listenpreis | Preis vor Rabatt | Preis der Leistung",
        "booked_on": "Gebucht am | Vereinbart am | Termin gebucht am | Reserviert am",
        "regrowth_mm": "Ansatz (mm) | Ansatz in mm | Nachwuchs | Nachwuchs (mm) | Ansatzlänge | Gemessener Ansatz",
    },
    "services": {
        "service_id": "Behandlungsnummer | Behandlungs-Nr | Beh-Nr | Behandlungscode",
        "service": "Name | Bezeichnung",
        "kind": "Art | Typ | Kategorie | Leistungsart | Art der Leistung | Leistungsgruppe | Leistungskategorie",
        "price": "Preis | Listenpreis | Leistungspreis | Preis der Leistung",
        "hands_on_min": "Arbeitszeit | Arbeitsminuten | Aktive Zeit | Arbeitszeit in Minuten | Handzeit | "
        "Bedienzeit | Handarbeit | Handarbeitsminuten",
        "processing_min": "Einwirkzeit | Einwirkdauer | Einwirkminuten | Einwirkzeit in Minuten",
        "resets_roots": "Färbt den Ansatz | Färbt Ansatz | Ansatz gefärbt | Ansatz wird gefärbt | Ansatz mitgefärbt",
    },
    "product_log": {
        "logged_at": "Datum | Datum und Uhrzeit | Datum/Uhrzeit | Datum/Zeit | Gemischt am | Angemischt am | "
        "Mischdatum | Angerührt am | Datum der Mischung | Mischungsdatum",
        "stylist": "Gemischt von | Angemischt von | Angerührt von",
        "mixed_g": "Angemischt | Gemischt | Menge (g) | Mischmenge | Angemischte Menge | Gemischte Menge | "
        "Angemischte Gramm | Angerührt | Angerührte Menge | Einwaage | Gramm gemischt | Gramm angemischt | "
        "Menge angemischt | Menge gemischt",
        "left_g": "Rest | Restmenge | Übrig | Übrige Menge | Rest in der Schale | Übrig geblieben | Rückwaage | Reste",
        "time": "Mischzeit",
    },
    "products": {
        "product": "Name | Bezeichnung",
        "kind": "Art | Typ | Kategorie | Produktart | Produktgruppe | Warengruppe | Artikelgruppe | "
        "Produktkategorie | Art des Produkts | Verwendung",
        "pack_g": "Inhalt (g) | Packungsinhalt (g) | Packungsgröße (g) | Gebindegröße (g) | Gebinde (g) | "
        "Füllmenge (g) | Nettogewicht (g) | Gewicht (g) | Packung (g) | Packungsgewicht | Gramm je Packung | "
        "Gramm pro Packung",
        "pack_cost": "Einkaufspreis | EK | EK-Preis | Einkaufspreis netto | EK netto | Netto-Einkaufspreis | "
        "Netto-EK | Einkaufspreis je Packung | Einkaufspreis pro Packung | Packungspreis netto | "
        "Einkauf netto je Packung | Einkaufspreis netto je Packung",
        "strength_percent": "Stärke | Stärke % | Konzentration | Konzentration % | Peroxid % | "
        "Wasserstoffperoxid % | Oxidstärke | Wasserstoffperoxid | Oxidgehalt | H2O2 | H2O2-Gehalt",
    },
    "clients": {
        "client": "Name",
        "phone": "Telefon | Telefonnummer | Telefon-Nr | Tel | Tel-Nr | Handy | Handynummer | Handy-Nr | Mobil | "
        "Mobilnummer | Mobiltelefon | Rufnummer | Mobil-Nr",
        "email": "E-Mail | E-Mail-Adresse | Mail | Mailadresse",
        "may_contact": "Kontakt erlaubt | Darf kontaktiert werden | Kontakterlaubnis | Kontakteinwilligung | "
        "Einwilligung Kontakt | Einwilligung zur Kontaktaufnahme | Werbung erlaubt | Werbeeinwilligung",
        "natural_level": "Naturtonhöhe | Natürliche Tonhöhe | Naturhöhe | Tonhöhe natur | Naturton-Stufe | "
        "Natürliche Tiefe | Naturtontiefe | Naturtiefe | Ausgangstiefe | Naturhaartiefe",
        "target_level": "Zieltonhöhe | Wunschtonhöhe | Gewünschte Tonhöhe | Tonhöhe Ziel | Zieltontiefe | "
        "Wunschtontiefe | Zieltiefe | Wunschtiefe | Gewünschte Tiefe",
        "grey_share": "Grauanteil | Weißanteil | Anteil grau | Anteil Grau | Grauanteil % | Weißanteil % | Grau % | "
        "Anteil grauer Haare",
        "patch_tested_on": "Hauttest | Hauttest am | Datum Hauttest | Allergietest | Allergietest am | "
        "Datum Allergietest | Letzter Hauttest | Letzter Allergietest | Verträglichkeitstest | "
        "Verträglichkeitstest am | Datum des Hauttests",
    },
    "payments": {
        "paid_at": "Datum | Datum und Uhrzeit | Datum/Uhrzeit | Datum/Zeit | Bezahlt am | Zahldatum | Zahlungsdatum | "
        "Gezahlt am | Datum der Zahlung",
        "method": "Zahlungsart | Zahlart | Zahlungsmittel | Zahlungsweise | Zahlungsmethode | Art der Zahlung | "
        "Bezahlart | Bezahlt mit | Womit bezahlt",
        "amount": "Betrag | Zahlbetrag | Zahlungsbetrag | Gezahlter Betrag | Bezahlter Betrag | Summe | "
        "Erhaltener Betrag",
        "fee": "Gebühr | Gebühren | Transaktionsgebühr | Kartengebühr | Zahlungsgebühr",
        "time": "Zahlungszeit",
        "purpose": "Zahlungszweck | Verwendungszweck | Zahlung für",
        "voucher": "Gutscheinnummer | Gutschein-Nr | Gutscheincode",
    },
    "sales": {
        "sold_at": "Datum | Datum und Uhrzeit | Datum/Uhrzeit | Datum/Zeit | Verkauft am | Verkaufsdatum | "
        "Datum des Verkaufs | Datum Verkauf",
        "quantity": "Menge | Anzahl | Stückzahl | Stück | Verkaufte Menge | Anzahl Stück",
        "price": "Preis | Einzelpreis | Stückpreis | Preis pro Stück | Preis je Stück | Preis/Stück | Verkaufspreis | "
        "VK | VK-Preis",
        "stylist": "Verkauft von | Verkäufer | Verkäuferin",
        "time": "Verkaufszeit",
    },
    "stock_moves": {
        "moved_at": "Datum | Datum und Uhrzeit | Datum/Uhrzeit | Datum/Zeit | Bewegungsdatum | Datum der Bewegung",
        "movement": "Bewegung | Bewegungsart | Art der Bewegung | Lagerbewegung | Buchungsart | Vorgang",
        "packs": "Packungen | Anzahl | Anzahl Packungen | Stück | Stückzahl | Menge (Stück) | Anzahl Stück | Gebinde",
        "grams": "Gramm | Gewicht | Gewicht (g) | Menge (g)",
        "unit_cost": "Einkaufspreis | EK | EK-Preis | Stückkosten | Einkaufspreis je Packung | "
        "Einkaufspreis pro Packung | Kosten je Packung | Preis je Packung | Preis pro Packung",
        "expires_on": "Haltbar bis | Ablaufdatum | Verfallsdatum | Verfalldatum | Mindesthaltbarkeitsdatum | MHD | "
        "Mindestens haltbar bis | Mindesthaltbarkeit",
    },
    "vouchers": {
        "number": "Gutschein | Gutscheinnummer | Gutschein-Nr | Gutscheincode",
        "sold_on": "Verkauft am | Verkaufsdatum | Ausgestellt am | Ausstellungsdatum",
        "face": "Nennwert | Gutscheinwert | Wert",
        "paid": "Bezahlt | Bezahlter Betrag | Verkaufspreis | Preis",
        "expires_on": "Gültig bis | Läuft ab am | Ablaufdatum | Verfällt am",
        "used": "Eingelöst | Verbraucht | Eingelöster Betrag",
    },
}

# Words that stand for a column only where no other heading does, as each can mean something else beside one.
STAND_INS = {
    "day": "Tag",
    "amount": "Betrag",
    "booked": "Buchungsdatum | Reservierungsdatum",
    "description": "Beschreibung",
}

# Words for the start and end of a booking: with the day in a column apart they are times, without it moments.
STARTS = "Beginn | Anfang | Start | Von | Terminbeginn | Termin von | Beginn des Termins"
ENDS = "Ende | Bis | Schluss | Terminende | Termin bis | Ende des Termins | Fertig um"
HALF_NAMES = "Vorname | Nachname | Familienname | Zuname"
# A sheet with one of these is about buying, not about clients, sales or takings, whatever else it says.
BUYING = "Lieferant | Lieferanten | Bestellung | Bestellungen | Einkauf | Einkäufe | Kreditor | Ausgaben"

VALUES = {
    "status": {
        "completed": "erledigt | abgeschlossen | durchgeführt | ausgeführt | wahrgenommen | erschienen | fertig",
        "booked": "gebucht | bestätigt | geplant | reserviert | vereinbart",
        "cancelled": "storniert | abgesagt | Absage | Storno",
        "no_show": "nicht erschienen | nicht gekommen | nicht wahrgenommen",
    },
    "services.kind": {
        "root_touch_up": "Ansatz | Ansatzfarbe | Ansatzfärbung | Ansatz färben | Ansatzcoloration | "
        "Ansatzkoloration | Ansatzbehandlung | Nachwuchs färben",
        "full_colour": "Komplettfärbung | Komplettfarbe | Vollcoloration | Vollkoloration | Komplettcoloration | "
        "Farbe komplett | Färbung komplett | Ganzkopffärbung | Vollfärbung",
        "lightening": "Blondierung | Strähnen | Foliensträhnen | Aufhellung | Balayage | Blondieren | Strähnchen | "
        "Highlights",
        "toner": "Toner | Abmattierung | Mattierung | Tönung",
        "cut": "Schnitt | Haarschnitt | Schneiden | Haare schneiden",
        "styling": "Styling | Föhnen | Frisieren | Hochstecken | Hochsteckfrisur",
        "treatment": "Pflege | Haarpflege | Kur | Haarkur | Pflegebehandlung | Haarmaske | Intensivpflege",
        "other": "Sonstiges | Sonstige | Andere | Anderes",
    },
    "products.kind": {
        "colour": "Farbe | Haarfarbe | Coloration | Koloration | Cremefarbe | Farbcreme",
        "developer": "Entwickler | Oxidant | Oxidationsmittel | Wasserstoffperoxid | Peroxid | Oxid",
        "lightener": "Blondierung | Blondierpulver | Blondiermittel | Blondiercreme | Aufheller | Bleichpulver",
        "additive": "Zusatz | Additiv | Zusatzmittel",
        "retail": "Verkauf | Verkaufsware | Verkaufsprodukt | Verkaufsartikel | Handelsware",
    },
    "purpose": {
        "visit": "Besuch | Termin | Behandlung",
        "deposit": "Anzahlung | Vorauszahlung | Vorkasse",
        "voucher": "Gutscheinverkauf | Gutschein verkauft | Gutschein",
    },
    "method": {
        "cash": "bar | Barzahlung | Bargeld | in bar",
        "card": "Karte | Kartenzahlung | EC | EC-Karte | Kreditkarte | Bankkarte | Debitkarte",
        "bank": "Bank | Überweisung | Banküberweisung | Lastschrift",
        "voucher": "Gutschein | Geschenkgutschein | Geschenkkarte | Wertgutschein | Gutscheine",
        "other": "Sonstiges | Sonstige | Andere",
    },
    "movement": {
        "delivery": "Lieferung | geliefert | Wareneingang | Zugang | Anlieferung",
        "count": "Zählung | Inventur | gezählt | Bestandsaufnahme",
        "returned": "Retoure | zurückgeschickt | zurückgesandt | Rücksendung | Rückgabe | Retour",
        "discarded": "entsorgt | weggeworfen | Entsorgung | vernichtet | Abfall",
    },
    "yes_no": {"yes": "ja | j | wahr", "no": "nein | n | falsch"},
}

TOTALS = "Summe | Gesamt | Gesamtsumme | Zwischensumme | Endsumme | Insgesamt | Total | Summen | Gesamtbetrag"

TABLES = {
    "bookings": "Termin | Termine | Buchungen | Terminbuch | Terminliste | Kalender",
    "services": "Leistungen | Dienstleistungen | Preisliste | Leistungsliste | Leistungskatalog",
    "product_log": "Mischprotokoll | Mischliste | Mischungen | Farbprotokoll | Mischbuch",
    "products": "Produkte | Artikel | Produktliste | Artikelliste | Artikelstamm",
    "clients": "Kunden | Kundenliste | Kundinnen | Kundenkartei | Kundenstamm",
    "payments": "Zahlung | Zahlungen | Kasse | Kassenbuch | Einnahmen",
    "sales": "Verkauf | Verkäufe | Warenverkauf",
    "stock_moves": "Lager | Lagerbewegungen | Bestand | Lieferungen | Inventur | Wareneingang",
    "vouchers": "Gutscheine | Gutschein | Gutscheinliste | Gutscheinregister",
}
