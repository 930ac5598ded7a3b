"""General Dutch words of a salon's office, by what they mean; alternatives stand between bars."""

# Columns that mean the same in every table that has them.
COMMON = {
    "booking_id": "Afspraaknummer | Afspraak-ID | Afspraak nr | Afspraakcode | Boekingsnummer | Boeking nr | "
    "Boeking-ID | Bezoeknummer | Bezoek nr | Reserveringsnummer | Nummer afspraak",
    "client_id": "Klantnummer | Klant-ID | Klant nr | Klantcode | Cliëntnummer | Cliënt nr | Nummer klant",
    "client": "Klant | Klantnaam | Naam klant | Cliënt | Gast | Naam van de klant | Volledige naam",
    "stylist": "Kapper | Kapster | Stylist | Styliste | Medewerker | Medewerkster | Kleurspecialist | Colorist | "
    "Coloriste | Naam medewerker | Kapper/kapster | Behandelaar | Uitgevoerd door",
    "chair": "Stoel | Stoelnummer | Stoel nr | Kappersstoel | Werkplek",
    "service_id": "Behandelingsnummer | Behandelnummer | Behandeling nr | Behandelcode | Behandelingscode | "
    "Behandeling-ID | Dienstnummer | Dienst nr | Dienstcode | Dienst-ID | Code behandeling | Nummer behandeling",
    "service": "Behandeling | Dienst | Naam behandeling | Behandelnaam | Naam dienst | "
    "Omschrijving behandeling | Naam van de behandeling",
    "product_id": "Productnummer | Product-ID | Product nr | Productcode | Artikelnummer | Artikel nr | Artikelcode | "
    "Artikel-ID",
    "product": "Product | Productnaam | Artikel | Artikelnaam | Naam product | Productomschrijving | "
    "Artikelomschrijving",
    "discount": "Korting | Kortingsbedrag | Bedrag korting",
    "tip": "Fooi | Fooien | Tip | Fooibedrag",
    "tax_rate": "Btw % | Btw-tarief | Btw-percentage | Btw tarief % | Percentage btw | Tarief btw | Btw-pct",
    "valid_from": "Geldig vanaf | Geldig van | Geldig sinds | Ingangsdatum | Vanaf datum | Geldt vanaf | "
    "Datum vanaf | Met ingang van",
    "site": "Vestiging | Filiaal | Salon | Vestigingsnaam | Naam salon",
    "time": "Tijd | Tijdstip | Kloktijd",
}

PARTICULAR = {
    "bookings": {
        "line": "Regel | Regelnummer | Regel nr",
        "starts_at": "Datum en tijd | Datum/tijd | Datum tijd | Begindatum en -tijd | Datum en begintijd | "
        "Startdatum en tijd | Datum en aanvangstijd",
        "ends_at": "Einddatum en -tijd | Einddatum en tijd | Datum en eindtijd",
        "day": "Datum | Afspraakdatum | Datum afspraak | Bezoekdatum | Datum bezoek | Datum behandeling | "
        "Behandeldatum",
        "start_time": "Begintijd | Starttijd | Aanvangstijd | Tijd | Tijdstip | Begin tijd | Start tijd | Tijd van | "
        "Aanvangsuur | Beginuur | Tijdstip begin",
        "end_time": "Eindtijd | Eind tijd | Tijd tot | Einduur | Tijdstip einde | Tijd klaar",
        "minutes": "Duur | Tijdsduur | Duur in minuten | Minuten | Aantal minuten | Behandelduur | Duur afspraak",
        "status": "Status | Afspraakstatus | Status afspraak | Stand van zaken",
        "price": "Prijs | Behandelprijs | Prijs behandeling | Prijs voor korting | Lijstprijs",
        "booked_on": "Geboekt op | Gemaakt op | Afspraak gemaakt op | Datum geboekt | Gereserveerd op",
        "regrowth_mm": "Uitgroei | Uitgroei mm | Uitgroei in mm | Gemeten uitgroei",
        "service": "Soort behandeling",
    },
    "services": {
        "service": "Naam | Omschrijving behandeling",
        "kind": "Soort | Type | Categorie | Soort dienst | Groep behandeling | Behandelgroep | Behandelcategorie | "
        "Type behandeling | Soort werk | Soort behandeling",
        "price": "Prijs | Lijstprijs | Prijs behandeling | Behandelprijs",
        "hands_on_min": "Werktijd | Arbeidstijd | Arbeidsminuten | Werkminuten | Handentijd | Actieve tijd | "
        "Handwerkminuten",
        "processing_min": "Inwerktijd | Inwerkminuten | Inwerken | Inwerktijd in minuten | Intrektijd",
        "resets_roots": "Kleurt uitgroei | Uitgroei gekleurd | Kleurt de aanzet | Dekt de uitgroei | "
        "Uitgroei bijgewerkt",
    },
    "product_log": {
        "logged_at": "Datum | Datum en tijd | Datum/tijd | Gemengd op | Mengdatum | Datum gemengd | Aangemaakt op",
        "stylist": "Gemengd door | Aangemaakt door",
        "mixed_g": "Gemengd | Gemengde hoeveelheid | Hoeveelheid gemengd | Aangemaakt (g) | Hoeveelheid (g) | "
        "Gram gemengd | Gemengd gewicht | Aangemengd | Aangemaakte hoeveelheid",
        "left_g": "Rest | Restant | Over | Overgebleven | Resthoeveelheid | Hoeveelheid over | Rest in kom | Restje | "
        "Gram over | Overschot",
        "time": "Mengtijd",
    },
    "products": {
        "product": "Naam",
        "kind": "Soort | Type | Categorie | Productsoort | Productgroep | Artikelgroep | Productcategorie | "
        "Producttype | Soort product | Gebruikt als",
        "pack_g": "Inhoud (g) | Inhoud verpakking (g) | Verpakking (g) | Verpakkingsinhoud (g) | Netto inhoud (g) | "
        "Gewicht (g) | Verpakkingsgewicht | Gram per verpakking | Verpakkingsgrootte (g) | Nettogewicht (g)",
        "pack_cost": "Inkoopprijs | Inkoop | Inkoopprijs per verpakking | Inkoopprijs excl btw | Inkoopbedrag | "
        "Inkoopkosten | Netto inkoopprijs | Kostprijs per verpakking",
        "strength_percent": "Sterkte | Sterkte % | Waterstofpercentage | Peroxide % | Waterstof % | "
        "Percentage waterstof | Concentratie | Waterstofperoxide | Percentage H2O2",
    },
    "clients": {
        "client": "Naam",
        "phone": "Telefoon | Telefoonnummer | Telefoon nr | Tel | Tel nr | Mobiel | Mobiel nummer | Mobiele nummer | "
        "Gsm | Gsm-nummer | Mobiele telefoon",
        "email": "E-mail | E-mailadres | Mail | Mailadres",
        "may_contact": "Mag benaderd worden | Contact toegestaan | Toestemming contact | Mag gecontacteerd worden | "
        "Toestemming voor contact | Mag contact",
        "natural_level": "Natuurlijke toonhoogte | Natuurlijke diepte | Natuurlijke toonhoogte (1-10) | "
        "Eigen toonhoogte | Natuurlijk niveau | Natuurlijke hoogte | Natuurlijke basis | Eigen kleurdiepte | "
        "Natuurlijke kleurdiepte",
        "target_level": "Gewenste toonhoogte | Doeltoonhoogte | Gewenste diepte | Gewenst niveau | Gewenste hoogte | "
        "Gewenste kleurdiepte | Doeldiepte",
        "grey_share": "Grijsaandeel | Aandeel grijs | Grijs aandeel | Grijs % | Percentage grijs | Grijspercentage",
        "patch_tested_on": "Allergietest | Datum allergietest | Allergietest op | Huidtest | Datum huidtest | "
        "Huidtest op | Laatste allergietest | Laatste huidtest | Plakproef | Datum plakproef | Allergietest datum",
    },
    "payments": {
        "paid_at": "Datum | Datum en tijd | Datum/tijd | Betaald op | Betaaldatum | Datum betaling | Betalingsdatum",
        "method": "Betaalwijze | Betaalmethode | Betaalmiddel | Wijze van betalen | Betaling via | Soort betaling | "
        "Betaalvorm | Betaald met | Manier van betalen | Betalingswijze",
        "amount": "Bedrag | Betaald bedrag | Bedrag betaald | Betaald | Ontvangen bedrag | Ontvangen",
        "fee": "Transactiekosten | Kosten transactie | Betaalkosten | Provisie | Pinkosten",
        "time": "Tijd betaling | Betaaltijd | Tijd van betaling",
        "purpose": "Waarvoor | Betaling voor | Betaald voor",
        "voucher": "Bonnummer cadeaubon | Cadeaubonnummer | Nummer cadeaubon",
    },
    "sales": {
        "sold_at": "Datum | Datum en tijd | Datum/tijd | Verkocht op | Verkoopdatum | Datum verkoop",
        "quantity": "Aantal | Stuks | Aantal stuks | Hoeveelheid | Aantal verkocht",
        "price": "Prijs | Stuksprijs | Stukprijs | Prijs per stuk | Prijs/stuk | Verkoopprijs | Eenheidsprijs",
        "stylist": "Verkocht door | Verkoper | Verkoopster",
        "time": "Tijd verkoop | Verkooptijd",
    },
    "stock_moves": {
        "moved_at": "Datum | Datum en tijd | Datum/tijd | Mutatiedatum | Datum mutatie",
        "movement": "Mutatie | Soort mutatie | Mutatiesoort | Beweging | Soort beweging | Type mutatie | "
        "Voorraadmutatie | Wat gebeurd",
        "packs": "Verpakkingen | Aantal | Aantal verpakkingen | Stuks | Aantal stuks | Aantal (stuks)",
        "grams": "Gram | Gewicht | Gewicht (g) | Aantal gram | Hoeveelheid (g)",
        "unit_cost": "Inkoopprijs | Kosten per verpakking | Inkoopprijs per stuk | Inkoopprijs per verpakking | "
        "Prijs per verpakking | Kostprijs per stuk | Kostprijs per verpakking",
        "expires_on": "Houdbaar tot | Vervaldatum | Houdbaarheidsdatum | Uiterste gebruiksdatum | THT | "
        "Ten minste houdbaar tot",
    },
    "vouchers": {
        "number": "Cadeaubon | Cadeaubonnummer | Nummer cadeaubon | Bonnummer",
        "sold_on": "Verkocht op | Verkoopdatum | Uitgegeven op | Uitgiftedatum",
        "face": "Nominale waarde | Waarde | Waarde cadeaubon",
        "paid": "Betaald | Betaald bedrag | Verkoopprijs | Prijs",
        "expires_on": "Verloopt op | Vervaldatum | Geldig tot | Geldig t/m",
        "used": "Gebruikt | Verzilverd | Gebruikt bedrag | Ingeleverd",
    },
}

# Words that stand for a column only where no other heading does, as each can mean something else beside one.
STAND_INS = {
    "day": "Dag",
    "amount": "Bedrag",
    "booked": "Boekdatum | Boekingsdatum | Reserveringsdatum | Datum gemaakt",
    "description": "Omschrijving",
}

# Words for the start and end of a booking: with the day in a column apart they are times, without it moments.
STARTS = "Begin | Aanvang | Start | Van | Begin afspraak | Start afspraak | Aanvang afspraak"
ENDS = "Einde | Eind | Tot | Einde afspraak | Eind afspraak | Klaar om"
HALF_NAMES = "Voornaam | Achternaam | Familienaam"
# A sheet with one of these is about buying, not about clients, sales or takings, whatever else it says.
BUYING = "Leverancier | Leveranciers | Bestelling | Bestellingen | Inkopen | Crediteur | Facturen"

VALUES = {
    "status": {
        "completed": "afgerond | voltooid | uitgevoerd | gedaan | klaar | geweest | afgehandeld",
        "booked": "geboekt | gepland | bevestigd | gereserveerd | ingepland",
        "cancelled": "geannuleerd | afgezegd | afgemeld | geannuleerd door klant | annulering | afzegging",
        "no_show": "niet verschenen | niet gekomen | niet opgedaagd | niet op komen dagen",
    },
    "services.kind": {
        "root_touch_up": "uitgroei | uitgroei kleuren | uitgroeikleuring | uitgroei verven | uitgroei bijwerken | "
        "uitgroei bijkleuren | aanzet kleuren",
        "full_colour": "volledige kleuring | hele hoofd kleuren | complete kleuring | hele haar kleuren | "
        "kleuring volledig | volledige kleur",
        "lightening": "ontkleuren | blonderen | blondering | ontkleuring | folies | highlights | lokken | balayage",
        "toner": "toner | toning | kleurspoeling",
        "cut": "knippen | knipbeurt | snit",
        "styling": "föhnen | styling | opsteken | watergolf | stylen",
        "treatment": "verzorging | haarverzorging | haarmasker | haarkuur | kuur",
        "other": "overig | overige | anders | diversen | divers",
    },
    "products.kind": {
        "colour": "kleur | haarkleur | verf | haarverf | kleuring | kleurcrème",
        "developer": "waterstof | waterstofperoxide | oxidant | ontwikkelaar | oxidatiecrème",
        "lightener": "blondeerpoeder | blondeermiddel | blondeercrème | ontkleuringspoeder | blondering | bleekpoeder",
        "additive": "toevoeging | additief | toevoegmiddel | toevoegsel",
        "retail": "verkoop | verkoopproduct | verkoopartikel | winkelverkoop",
    },
    "purpose": {
        "visit": "bezoek | afspraak | behandeling",
        "deposit": "aanbetaling | vooruitbetaling | voorschot",
        "voucher": "cadeaubon verkocht | verkoop cadeaubon | cadeaubon",
    },
    "method": {
        "cash": "contant | cash | contanten | kontant",
        "card": "pin | pinnen | gepind | kaart | pinpas | bankpas | creditcard | pinbetaling | bankkaart",
        "bank": "bank | overschrijving | overboeking | overgemaakt | bankoverschrijving",
        "voucher": "cadeaubon | cadeaukaart | tegoedbon | waardebon | kadobon",
        "other": "overig | overige | anders",
    },
    "movement": {
        "delivery": "levering | geleverd | ontvangst | ontvangen | binnengekomen",
        "count": "telling | geteld | inventarisatie | voorraadtelling | inventaris",
        "returned": "retour | geretourneerd | teruggestuurd | retour leverancier | retourzending",
        "discarded": "weggegooid | weggedaan | vernietigd | afval",
    },
    "yes_no": {"yes": "ja | j | waar", "no": "nee | neen | n | onwaar"},
}

TOTALS = "totaal | totalen | subtotaal | eindtotaal | som | algemeen totaal"

TABLES = {
    "bookings": "afspraak | afspraken | boekingen | agenda | reserveringen",
    "services": "behandelingen | diensten | prijslijst | menukaart | dienstenlijst",
    "product_log": "mengbeker | mengstaat | menglijst | mengboek | kleurlog | mengregister",
    "products": "producten | artikelen | productlijst | artikellijst",
    "clients": "klanten | klantenlijst | klantenbestand | cliënten",
    "payments": "betaling | betalingen | kassa | ontvangsten",
    "sales": "verkoop | verkopen | winkelverkoop",
    "stock_moves": "voorraad | voorraadmutaties | leveringen | inventaris | telling",
    "vouchers": "cadeaubonnen | cadeaubon | waardebonnen | bonnenregister",
}
