"""General Italian words of a salon's office, by what they mean; alternatives stand between bars."""

# Columns that mean the same in every table that has them.
COMMON = {
    "booking_id": "Numero appuntamento | N. appuntamento | N° appuntamento | ID appuntamento | Codice appuntamento | "
    "Numero dell'appuntamento | Numero prenotazione | N. prenotazione | ID prenotazione | Codice prenotazione | "
    "Numero visita | N. visita",
    "client_id": "Numero cliente | N. cliente | N° cliente | ID cliente | Codice cliente | Cod cliente",
    "client": "Cliente | Nome cliente | Nome del cliente | Nome della cliente | Nominativo | Nominativo cliente | "
    "Nome e cognome | Cognome e nome | Nome completo",
    "stylist": "Stilista | Parrucchiere | Parrucchiera | Colorista | Operatore | Operatrice | Dipendente | "
    "Collaboratore | Collaboratrice | Eseguito da | Addetto | Addetta",
    "chair": "Poltrona | N. poltrona | Numero poltrona | Sedia | Postazione | N. postazione",
    "service_id": "Numero servizio | N. servizio | ID servizio | Codice servizio | Cod servizio | "
    "Codice trattamento | ID trattamento | N. trattamento",
    "service": "Servizio | Trattamento | Nome servizio | Nome del servizio | Prestazione | Nome trattamento",
    "product_id": "Numero prodotto | N. prodotto | ID prodotto | Codice prodotto | Cod prodotto | Codice articolo | "
    "Cod articolo | N. articolo | ID articolo",
    "product": "Prodotto | Nome prodotto | Nome del prodotto | Articolo | Nome articolo",
    "discount": "Sconto | Importo sconto | Importo dello sconto | Riduzione | Ribasso",
    "tip": "Mancia | Mance",
    "tax_rate": "IVA % | Aliquota IVA | Aliquota | Percentuale IVA | Aliquota IVA %",
    "valid_from": "Valido dal | Valida dal | Valido da | In vigore dal | Valido a partire dal | Validità dal | "
    "Decorrenza | Data decorrenza | Data inizio validità",
    "site": "Filiale | Salone | Nome salone | Sede",
    "time": "Ora | Orario",
}

PARTICULAR = {
    "bookings": {
        "line": "Riga | N. riga | Numero riga | Riga n.",
        "starts_at": "Data e ora | Data/ora | Data ora | Data e ora inizio | Data e ora di inizio | "
        "Data e ora appuntamento | Data e ora dell'appuntamento",
        "ends_at": "Data e ora fine | Data e ora di fine",
        "day": "Data | Data appuntamento | Data dell'appuntamento | Data visita | Data della visita",
        "start_time": "Ora | Ora inizio | Ora di inizio | Orario | Orario inizio | Orario di inizio | "
        "Ora appuntamento | Ora dell'appuntamento",
        "end_time": "Ora fine | Ora di fine | Orario fine | Orario di fine",
        "minutes": "Durata | Durata in minuti | Minuti | Numero minuti | Durata appuntamento | "
        "Durata dell'appuntamento",
        "status": "Stato | Stato appuntamento | Stato dell'appuntamento | Stato prenotazione | Esito | "
        "Esito appuntamento",
        "price": "Prezzo | Tariffa | Prezzo servizio | Prezzo del servizio | Prezzo di listino | "
        "Prezzo prima dello sconto",
        "booked_on": "Prenotato il | Appuntamento preso il | Prenotazione fatta il",
        "regrowth_mm": "Ricrescita | Ricrescita mm | Ricrescita in mm | Ricrescita misurata",
    },
    "services": {
        "service": "Nome | Denominazione",
        "kind": "Tipo | Categoria | Genere | Tipo servizio | Tipo di servizio | Categoria servizio | Tipologia",
        "price": "Prezzo | Tariffa | Prezzo di listino | Prezzo servizio | Prezzo del servizio | Listino",
        "hands_on_min": "Tempo di lavoro | Minuti di lavoro | Tempo attivo | Tempo di lavoro in minuti | "
        "Tempo lavorazione | Tempo di lavorazione | Lavoro manuale",
        "processing_min": "Tempo di posa | Posa | Minuti di posa | Tempo posa | Durata posa",
        "resets_roots": "Colora la ricrescita | Copre la ricrescita | Colora le radici | Copre le radici",
    },
    "product_log": {
        "logged_at": "Data | Data e ora | Data/ora | Data ora | Miscelato il | Data miscela | Data miscelazione | "
        "Preparato il",
        "stylist": "Miscelato da | Preparato da",
        "mixed_g": "Quantità miscelata | Miscelato | Miscelata | Quantità (g) | Grammi miscelati | "
        "Quantità preparata | Preparato | Peso miscelato",
        "left_g": "Avanzo | Resto | Rimanenza | Avanzato | Quantità avanzata | Residuo | Rimasto | Quantità rimasta | "
        "Grammi avanzati | Quantità residua",
        "time": "Ora miscela",
    },
    "products": {
        "product": "Nome | Denominazione",
        "kind": "Tipo | Categoria | Genere | Tipo prodotto | Tipo di prodotto | Categoria prodotto | Tipologia | Uso",
        "pack_g": "Contenuto (g) | Contenuto confezione (g) | Peso netto (g) | Confezione (g) | Peso (g) | "
        "Formato (g) | Grammi per confezione | Peso netto | Contenuto netto (g) | Peso confezione",
        "pack_cost": "Prezzo di acquisto | Prezzo d'acquisto | Costo di acquisto | Costo d'acquisto | "
        "Costo confezione | Costo per confezione | Prezzo d'acquisto senza IVA | Prezzo d'acquisto netto | "
        "Costo senza IVA",
        "strength_percent": "Forza % | Concentrazione | Concentrazione % | Perossido % | Acqua ossigenata % | "
        "Forza | Ossigeno % | H2O2",
    },
    "clients": {
        "client": "Nome",
        "phone": "Telefono | Numero di telefono | Numero telefono | N. telefono | Tel | Cellulare | "
        "Numero cellulare | N. cellulare | Telefono cellulare | Recapito telefonico",
        "email": "E-mail | Indirizzo e-mail | Posta elettronica | Indirizzo di posta elettronica | Mail | "
        "Indirizzo mail",
        "may_contact": "Può essere contattato | Può essere contattata | Contatto consentito | Consenso al contatto | "
        "Consenso contatto | Contattabile | Si può contattare | Vuole essere contattata",
        "natural_level": "Altezza di tono naturale | Altezza tono naturale | Livello naturale | Base naturale | "
        "Altezza naturale | Tono naturale",
        "target_level": "Altezza di tono desiderata | Altezza tono desiderata | Livello desiderato | "
        "Altezza desiderata | Altezza di tono obiettivo | Tono desiderato | Tono obiettivo",
        "grey_share": "Quota di grigi | Quota di bianchi | Parte di capelli bianchi | Quota capelli bianchi | "
        "Capelli bianchi % | Percentuale di bianchi | Bianchi % | Percentuale di capelli bianchi",
        "patch_tested_on": "Test allergico | Data test allergico | Prova allergica | Data prova allergica | "
        "Test cutaneo | Data test cutaneo | Test allergia | Data test allergia | Ultimo test allergico | "
        "Test di allergia | Patch test | Data patch test",
    },
    "payments": {
        "paid_at": "Data | Data e ora | Data/ora | Data ora | Pagato il | Data pagamento | Data di pagamento | "
        "Data del pagamento | Data incasso",
        "method": "Metodo di pagamento | Metodo pagamento | Modalità di pagamento | Modalità pagamento | "
        "Tipo di pagamento | Tipo pagamento | Forma di pagamento | Mezzo di pagamento | Pagato con",
        "amount": "Importo | Importo pagato | Somma pagata | Importo pagamento | Importo incassato | Incassato",
        "fee": "Commissione | Commissioni | Costo transazione | Commissione bancaria | Spese di transazione",
        "time": "Ora pagamento | Ora di pagamento",
        "purpose": "Causale | Pagamento per | Causale del pagamento",
        "voucher": "N. buono | Numero buono | Codice buono | Numero del buono",
    },
    "sales": {
        "sold_at": "Data | Data e ora | Data/ora | Data ora | Venduto il | Data vendita | Data di vendita | "
        "Data della vendita",
        "quantity": "Quantità | Qtà | Q.tà | Pezzi | Unità | Quantità venduta | Numero pezzi | N. pezzi",
        "price": "Prezzo | Prezzo unitario | Prezzo di vendita | Prezzo vendita | Prezzo al pezzo | "
        "Prezzo per pezzo | Prezzo cadauno | Prezzo cad.",
        "stylist": "Venduto da | Venditore | Venditrice",
        "time": "Ora vendita | Ora di vendita",
    },
    "stock_moves": {
        "moved_at": "Data | Data e ora | Data/ora | Data ora | Data movimento | Data del movimento",
        "movement": "Movimento | Tipo movimento | Tipo di movimento | Causale movimento | Movimento di magazzino | "
        "Causale | Operazione",
        "packs": "Confezioni | Numero confezioni | N. confezioni | Pezzi | Unità | Numero pezzi | Quantità (pezzi)",
        "grams": "Grammi | Peso | Peso (g) | Quantità (g)",
        "unit_cost": "Costo unitario | Prezzo di acquisto | Prezzo d'acquisto | Costo per confezione | "
        "Costo confezione | Prezzo per confezione | Prezzo di acquisto per confezione",
        "expires_on": "Data di scadenza | Scadenza | Scade il | Data scadenza | Da usare entro",
    },
    "vouchers": {
        "number": "Buono | Buono regalo | N. buono | Numero buono | Codice buono | Numero del buono",
        "sold_on": "Venduto il | Data di vendita | Emesso il | Data di emissione",
        "face": "Valore nominale | Valore del buono | Valore",
        "paid": "Pagato | Importo pagato | Prezzo di vendita | Prezzo",
        "expires_on": "Scade il | Data di scadenza | Valido fino al",
        "used": "Usato | Utilizzato | Importo usato | Speso",
    },
}

# Words that stand for a column only where no other heading does, as each can mean something else beside one.
STAND_INS = {
    "day": "Giorno",
    "amount": "Importo",
    "booked": "Data prenotazione | Data della prenotazione",
    "description": "Descrizione",
}

# Words for the start and end of a booking: with the day in a column apart they are times, without it moments.
STARTS = "Inizio | Inizio appuntamento | Dalle"
ENDS = "Fine | Alle | Fine appuntamento"
HALF_NAMES = "Cognome | Nome di battesimo"
# A sheet with one of these is about buying, not about clients, sales or takings, whatever else it says.
BUYING = "Fornitore | Fornitori | Ordine | Ordini | Acquisti | Spese"

VALUES = {
    "status": {
        "completed": "completato | completata | terminato | terminata | eseguito | eseguita | effettuato | "
        "effettuata | fatto | fatta | concluso | conclusa",
        "booked": "prenotato | prenotata | confermato | confermata | programmato | programmata | previsto | "
        "prevista | in programma",
        "cancelled": "annullato | annullata | cancellato | cancellata | disdetto | disdetta",
        "no_show": "non presentato | non presentata | non si è presentato | non si è presentata | assente | mancato | "
        "non venuto | non venuta",
    },
    "services.kind": {
        "root_touch_up": "ricrescita | colore ricrescita | ritocco ricrescita | ritocco radici | radici | "
        "colore radici | tinta ricrescita",
        "full_colour": "colore completo | colorazione completa | tinta completa | colore totale",
        "lightening": "decolorazione | schiaritura | schiariture | colpi di sole | balayage | mèches",
        "toner": "tonalizzante | tonalizzazione | toner | riflessante",
        "cut": "taglio | taglio capelli | taglio di capelli",
        "styling": "piega | messa in piega | acconciatura | raccolto | asciugatura",
        "treatment": "trattamento | trattamento capelli | cura | maschera | trattamento ristrutturante | trattamenti",
        "other": "altro | altri | altra | altre | varie",
    },
    "products.kind": {
        "colour": "colore | tinta | colorazione | tintura",
        "developer": "ossidante | ossigeno | rivelatore | acqua ossigenata | perossido",
        "lightener": "decolorante | polvere decolorante | crema decolorante | schiarente",
        "additive": "additivo | additivi",
        "retail": "vendita | rivendita | prodotto in vendita | al dettaglio",
    },
    "purpose": {
        "visit": "visita | appuntamento | trattamento",
        "deposit": "acconto | caparra | anticipo",
        "voucher": "vendita buono | buono venduto | buono regalo",
    },
    "method": {
        "cash": "contanti | in contanti | contante",
        "card": "carta | carta di credito | carta di debito | bancomat | con carta",
        "bank": "banca | bonifico | bonifico bancario | addebito diretto",
        "voucher": "buono | buono regalo | carta regalo",
        "other": "altro | altri",
    },
    "movement": {
        "delivery": "consegna | consegnato | ricevimento | ricevuto | entrata merce | arrivo merce | carico",
        "count": "conteggio | inventario | conta | contato",
        "returned": "reso | restituito | restituzione | reso al fornitore",
        "discarded": "scartato | smaltito | buttato | gettato | eliminato | smaltimento | scarto | scarti",
    },
    "yes_no": {"yes": "sì | s | vero", "no": "no | n | falso"},
}

TOTALS = "totale | totali | subtotale | totale generale | somma | totale complessivo"

TABLES = {
    "bookings": "appuntamento | appuntamenti | prenotazioni | agenda",
    "services": "servizi | listino | listino prezzi | trattamenti",
    "product_log": "miscele | registro miscele | registro delle miscele | scheda miscele | miscelazioni",
    "products": "prodotti | articoli | elenco prodotti",
    "clients": "clienti | elenco clienti | clientela | anagrafica clienti",
    "payments": "pagamenti | pagamento | incassi | cassa",
    "sales": "vendite | vendita",
    "stock_moves": "magazzino | movimenti di magazzino | scorte | consegne | inventario",
    "vouchers": "buoni | buoni regalo | buono regalo | registro dei buoni",
}
