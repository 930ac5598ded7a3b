"""General words of an office in six languages: headings by table, words in cells, names of files."""

Headings = dict[str, dict[str, str]]


def _read(text: str) -> Headings:
    """'bookings: booking_id Booking no | line Line' -> {'bookings': {'booking_id': 'Booking no', 'line': 'Line'}}."""
    tables = {}
    for block in text.strip().split("\n\n"):
        table, _, pairs = block.partition(":")
        listed = (pair.strip().partition(" ") for pair in pairs.replace("\n", " ").split("|"))
        tables[table.strip()] = {column: heading.strip() for column, _, heading in listed}
    return tables


ENGLISH = _read("""
services: service_id Service no | service Service | kind Category | price List price | tax_rate VAT % |
hands_on_min Working time | processing_min Development time | resets_roots Covers roots | valid_from Valid from

products: product_id Product code | product Product name | kind Product type | pack_g Pack size (g) |
pack_cost Purchase price | strength_percent Strength % | tax_rate VAT % | valid_from Valid from

clients: client_id Client no | client Client name | phone Phone | email E-mail | may_contact May be contacted |
natural_level Natural level | target_level Target level | grey_share Share of grey | patch_tested_on Patch test

bookings: booking_id Appointment no | line Line no | client_id Client no | client Client name | stylist Stylist |
chair Chair | starts_at Start | ends_at End | minutes Duration | status Status | service_id Service no |
service Service | price Price | discount Discount | tip Tip | booked_on Booked on | regrowth_mm Regrowth (mm) |
day Date | start_time Start time | end_time End time

product_log: logged_at Mixed at | booking_id Appointment no | service_id Service no | stylist Stylist |
product_id Product code | product Product | mixed_g Mixed (g) | left_g Left over (g) | time Time

payments: paid_at Date | booking_id Appointment no | method Payment method | amount Amount | fee Transaction fee |
time Time

sales: sold_at Sold at | product_id Product code | product Product | quantity Quantity | price Unit price |
tax_rate VAT % | discount Discount | stylist Sold by | time Time

stock_moves: moved_at Date | product_id Product code | product Product | movement Movement | packs Packs |
unit_cost Cost per pack | time Time
""")

DUTCH = _read("""
services: service_id Behandelcode | service Behandeling | kind Soort | price Prijs | tax_rate Btw % |
hands_on_min Werktijd | processing_min Inwerktijd | resets_roots Kleurt uitgroei | valid_from Geldig vanaf

products: product_id Artikelnr. | product Artikel | kind Soort | pack_g Inhoud (g) | pack_cost Inkoopprijs |
strength_percent Sterkte % | tax_rate Btw % | valid_from Geldig vanaf

clients: client_id Klantnr. | client Naam | phone Telefoon | email E-mail | may_contact Mag benaderd worden |
natural_level Natuurlijke toonhoogte | target_level Gewenste toonhoogte | grey_share Aandeel grijs |
patch_tested_on Allergietest

bookings: booking_id Afspraaknr. | line Regel | client_id Klantnr. | client Klant | stylist Medewerker | chair Stoel |
starts_at Begin | ends_at Einde | minutes Duur | status Status | service_id Behandelcode | service Behandeling |
price Prijs | discount Korting | tip Fooi | booked_on Geboekt op | regrowth_mm Uitgroei (mm) | day Datum |
start_time Begintijd | end_time Eindtijd

product_log: logged_at Datum | booking_id Afspraaknr. | service_id Behandelcode | stylist Medewerker |
product_id Artikelnr. | product Artikel | mixed_g Gemengd (g) | left_g Over (g) | time Tijd

payments: paid_at Betaald op | booking_id Afspraaknr. | method Betaalwijze | amount Bedrag | fee Transactiekosten |
time Tijd

sales: sold_at Datum | product_id Artikelnr. | product Artikel | quantity Aantal | price Stuksprijs | tax_rate Btw % |
discount Korting | stylist Verkocht door | time Tijd

stock_moves: moved_at Datum | product_id Artikelnr. | product Artikel | movement Mutatie | packs Aantal verpakkingen |
unit_cost Inkoopprijs | time Tijd
""")

GERMAN = _read("""
services: service_id Leistungs-Nr. | service Leistung | kind Art | price Preis | tax_rate MwSt. % |
hands_on_min Arbeitszeit | processing_min Einwirkzeit | resets_roots Färbt den Ansatz | valid_from Gültig ab

products: product_id Artikel-Nr. | product Bezeichnung | kind Warengruppe | pack_g Inhalt (g) | pack_cost EK netto |
strength_percent Stärke % | tax_rate MwSt. % | valid_from Gültig ab

clients: client_id Kunden-Nr. | client Name | phone Telefon | email E-Mail | may_contact Kontakt erlaubt |
natural_level Natürliche Tonhöhe | target_level Wunschtonhöhe | grey_share Grauanteil |
patch_tested_on Datum Allergietest

bookings: booking_id Termin-Nr. | line Pos. | client_id Kunden-Nr. | client Kundin | stylist Mitarbeiterin |
chair Platz | starts_at Beginn | ends_at Ende | minutes Dauer | status Status | service_id Leistungs-Nr. |
service Leistung | price Preis | discount Rabatt | tip Trinkgeld | booked_on Gebucht am | regrowth_mm Ansatz (mm) |
day Datum | start_time Uhrzeit von | end_time Uhrzeit bis

product_log: logged_at Angemischt am | booking_id Termin-Nr. | service_id Leistungs-Nr. | stylist Mitarbeiterin |
product_id Artikel-Nr. | product Artikel | mixed_g Menge (g) | left_g Rest (g) | time Uhrzeit

payments: paid_at Bezahlt am | booking_id Termin-Nr. | method Zahlungsart | amount Betrag | fee Gebühr | time Uhrzeit

sales: sold_at Verkauft am | product_id Artikel-Nr. | product Artikel | quantity Menge | price Einzelpreis |
tax_rate MwSt. % | discount Rabatt | stylist Verkauft von | time Uhrzeit

stock_moves: moved_at Datum | product_id Artikel-Nr. | product Artikel | movement Bewegung | packs Anzahl Packungen |
unit_cost Einkaufspreis | time Uhrzeit
""")

FRENCH = _read("""
services: service_id Code prestation | service Prestation | kind Catégorie | price Tarif | tax_rate Taux de TVA |
hands_on_min Temps de travail | processing_min Temps de pose | resets_roots Couvre les racines |
valid_from Valable à partir du

products: product_id Réf. produit | product Désignation | kind Famille | pack_g Poids net (g) |
pack_cost Prix d'achat HT | strength_percent Concentration % | tax_rate Taux de TVA | valid_from En vigueur depuis

clients: client_id N° client | client Nom | phone Téléphone | email Courriel | may_contact Contact autorisé |
natural_level Base naturelle | target_level Niveau souhaité | grey_share Part de cheveux blancs |
patch_tested_on Test cutané

bookings: booking_id N° RDV | line Ligne | client_id N° client | client Cliente | stylist Coiffeuse | chair Fauteuil |
starts_at Début | ends_at Fin | minutes Durée | status Statut | service_id Code prestation | service Prestation |
price Prix | discount Remise | tip Pourboire | booked_on Réservé le | regrowth_mm Repousse (mm) | day Date |
start_time Heure de début | end_time Heure de fin

product_log: logged_at Date et heure | booking_id N° RDV | service_id Code prestation | stylist Préparé par |
product_id Réf. produit | product Produit | mixed_g Quantité mélangée (g) | left_g Reste (g) | time Heure

payments: paid_at Réglé le | booking_id N° RDV | method Mode de règlement | amount Montant | fee Frais | time Heure

sales: sold_at Date de vente | product_id Réf. produit | product Produit | quantity Quantité | price Prix unitaire |
tax_rate Taux de TVA | discount Remise | stylist Vendeuse | time Heure

stock_moves: moved_at Date | product_id Réf. produit | product Produit | movement Mouvement |
packs Nombre d'unités | unit_cost Coût unitaire | time Heure
""")

SPANISH = _read("""
services: service_id Código de servicio | service Servicio | kind Tipo | price Precio | tax_rate IVA % |
hands_on_min Tiempo de trabajo | processing_min Tiempo de exposición | resets_roots Cubre la raíz |
valid_from Válido desde

products: product_id Código de producto | product Producto | kind Tipo de producto | pack_g Contenido (g) |
pack_cost Precio de compra | strength_percent Concentración % | tax_rate IVA % | valid_from Válido desde

clients: client_id Nº cliente | client Nombre | phone Teléfono | email Correo electrónico |
may_contact Acepta contacto | natural_level Nivel natural | target_level Nivel deseado |
grey_share Proporción de canas | patch_tested_on Prueba de alergia

bookings: booking_id Nº cita | line Línea | client_id Nº cliente | client Clienta | stylist Estilista | chair Sillón |
starts_at Inicio | ends_at Fin | minutes Duración | status Estado | service_id Código de servicio |
service Servicio | price Precio | discount Descuento | tip Propina | booked_on Reservado el |
regrowth_mm Crecimiento de raíz (mm) | day Fecha | start_time Hora de inicio | end_time Hora de fin

product_log: logged_at Fecha y hora | booking_id Nº cita | service_id Código de servicio | stylist Mezclado por |
product_id Código de producto | product Producto | mixed_g Cantidad mezclada (g) | left_g Sobrante (g) | time Hora

payments: paid_at Fecha de pago | booking_id Nº cita | method Forma de pago | amount Importe | fee Comisión | time Hora

sales: sold_at Fecha de venta | product_id Código de producto | product Producto | quantity Unidades |
price Precio unitario | tax_rate IVA % | discount Descuento | stylist Vendedora | time Hora

stock_moves: moved_at Fecha | product_id Código de producto | product Producto | movement Movimiento |
packs Envases | unit_cost Coste unitario | time Hora
""")

ITALIAN = _read("""
services: service_id Codice servizio | service Servizio | kind Categoria | price Prezzo | tax_rate Aliquota IVA |
hands_on_min Tempo di lavoro | processing_min Tempo di posa | resets_roots Copre la ricrescita | valid_from Valido dal

products: product_id Codice articolo | product Articolo | kind Tipo prodotto | pack_g Contenuto (g) |
pack_cost Prezzo d'acquisto | strength_percent Concentrazione % | tax_rate Aliquota IVA | valid_from Valido dal

clients: client_id Codice cliente | client Nominativo | phone Cellulare | email E-mail |
may_contact Consenso al contatto | natural_level Base naturale | target_level Livello desiderato |
grey_share Quota di bianchi | patch_tested_on Test allergico

bookings: booking_id N. appuntamento | line Riga | client_id Codice cliente | client Cliente | stylist Operatrice |
chair Poltrona | starts_at Inizio | ends_at Fine | minutes Durata | status Stato | service_id Codice servizio |
service Servizio | price Prezzo | discount Sconto | tip Mancia | booked_on Prenotato il |
regrowth_mm Ricrescita (mm) | day Data | start_time Ora inizio | end_time Ora fine

product_log: logged_at Data | booking_id N. appuntamento | service_id Codice servizio | stylist Operatrice |
product_id Codice articolo | product Articolo | mixed_g Quantità miscelata (g) | left_g Avanzo (g) | time Ora

payments: paid_at Data pagamento | booking_id N. appuntamento | method Metodo di pagamento | amount Importo |
fee Commissione | time Ora

sales: sold_at Data vendita | product_id Codice articolo | product Articolo | quantity Pezzi |
price Prezzo unitario | tax_rate Aliquota IVA | discount Sconto | stylist Venduto da | time Ora

stock_moves: moved_at Data | product_id Codice articolo | product Articolo | movement Movimento | packs Confezioni |
unit_cost Costo unitario | time Ora
""")

Words = dict[str, dict[object, str]]


def _words(text: str) -> Words:
    words: Words = {}
    for line in text.strip().splitlines():
        column, _, pairs = line.partition(":")
        listed = (pair.strip().partition("=") for pair in pairs.split(","))
        words[column.strip()] = {value: word for value, _, word in listed}
    return words


ENGLISH_WORDS = _words("""
status: completed=Done, booked=Confirmed, cancelled=Canceled, no_show=Did not attend
services.kind: root_touch_up=Root colour, full_colour=All-over colour, lightening=Highlights, toner=Toner, \
cut=Haircut, treatment=Treatment, other=Other
products.kind: colour=Hair color, developer=Peroxide, lightener=Bleach, retail=Retail
method: cash=Cash, card=Credit card, bank=Bank transfer, voucher=Gift card
movement: delivery=Delivered, count=Stock count, returned=Return, discarded=Thrown away
yes_no: True=Y, False=N
total: total=Grand total
""")
DUTCH_WORDS = _words("""
status: completed=Afgerond, booked=Ingepland, cancelled=Afgezegd, no_show=Niet verschenen
services.kind: root_touch_up=Uitgroei, full_colour=Volledige kleuring, lightening=Balayage, toner=Toner, cut=Knippen, \
treatment=Verzorging, other=Overig
products.kind: colour=Verf, developer=Waterstof, lightener=Blondeerpoeder, retail=Verkoop
method: cash=Contant, card=Pin, bank=Overboeking, voucher=Cadeaubon
movement: delivery=Levering, count=Telling, returned=Retour, discarded=Weggegooid
yes_no: True=ja, False=nee
total: total=Totaal
""")
GERMAN_WORDS = _words("""
status: completed=Erledigt, booked=Gebucht, cancelled=Storniert, no_show=Nicht erschienen
services.kind: root_touch_up=Ansatz, full_colour=Komplettfärbung, lightening=Strähnen, toner=Toner, cut=Haarschnitt, \
treatment=Pflege, other=Sonstiges
products.kind: colour=Farbe, developer=Oxidant, lightener=Blondierpulver, retail=Verkaufsware
method: cash=Bar, card=EC-Karte, bank=Überweisung, voucher=Gutschein
movement: delivery=Lieferung, count=Inventur, returned=Retoure, discarded=Entsorgt
yes_no: True=Ja, False=Nein
total: total=Summe
""")
FRENCH_WORDS = _words("""
status: completed=Effectué, booked=Confirmé, cancelled=Annulé, no_show=Absent
services.kind: root_touch_up=Racines, full_colour=Coloration complète, lightening=Mèches, toner=Patine, cut=Coupe, \
treatment=Soin, other=Autre
products.kind: colour=Coloration, developer=Oxydant, lightener=Poudre décolorante, retail=Revente
method: cash=Espèces, card=CB, bank=Virement, voucher=Bon cadeau
movement: delivery=Livraison, count=Inventaire, returned=Retour, discarded=Jeté
yes_no: True=Oui, False=Non
total: total=TOTAL
""")
SPANISH_WORDS = _words("""
status: completed=Realizada, booked=Confirmada, cancelled=Anulada, no_show=No se presentó
services.kind: root_touch_up=Retoque de raíz, full_colour=Color completo, lightening=Mechas, toner=Matiz, cut=Corte, \
treatment=Tratamiento, other=Otros
products.kind: colour=Tinte, developer=Oxidante, lightener=Decolorante, retail=Venta
method: cash=Efectivo, card=Tarjeta, bank=Transferencia, voucher=Vale
movement: delivery=Entrega, count=Recuento, returned=Devolución, discarded=Desechado
yes_no: True=Sí, False=No
total: total=Total general
""")
ITALIAN_WORDS = _words("""
status: completed=Completato, booked=Prenotato, cancelled=Disdetto, no_show=Non presentato
services.kind: root_touch_up=Ricrescita, full_colour=Colore completo, lightening=Schiariture, toner=Tonalizzante, \
cut=Taglio, treatment=Trattamento, other=Altro
products.kind: colour=Tinta, developer=Ossigeno, lightener=Decolorante, retail=Rivendita
method: cash=Contanti, card=Bancomat, bank=Bonifico, voucher=Buono regalo
movement: delivery=Consegna, count=Inventario, returned=Reso, discarded=Smaltito
yes_no: True=sì, False=no
total: total=Totale
""")

#   names of files: services, products, clients, bookings, product_log, payments, sales, stock_moves
ENGLISH_FILES = "price list, product list, clients, appointments, mixing log, payments, retail, stock movements"
DUTCH_FILES = "prijslijst, artikelen, klanten, afspraken, menglijst, betalingen, verkoop, voorraad"
GERMAN_FILES = "Leistungen, Artikel, Kunden, Termine, Mischprotokoll, Zahlungen, Verkäufe, Lagerbewegungen"
FRENCH_FILES = "prestations, produits, clientes, rendez-vous, mélanges, encaissements, ventes, stock"
SPANISH_FILES = "servicios, productos, clientes, citas, mezclas, cobros, ventas, existencias"
ITALIAN_FILES = "listino, articoli, clienti, appuntamenti, miscele, incassi, vendite, magazzino"
