"""Units and remarks that stand behind a heading, by what they mean, and which of them suits which column."""

UNITS = {
    "EUR": "€ | eur | euro | euros",
    "CHF": "chf | sfr | fr",
    "GBP": "£ | gbp | pound | pounds",
    "USD": "$ | usd | dollar | dollars",
    "grams": "g | gr | gram | grams | gramm | grammen | gramme | grammes | gramo | gramos | grammo | grammi",
    "kilograms": "kg | kilo | kilos | kilogram | kilograms | kilogramm | kilogramme | kilogramos | chilogrammi",
    "millilitres": "ml | cl | l | liter | litre | litres | litros | litri | milliliter | millilitre | oz",
    "minutes": "min | mins | minute | minutes | minuut | minuten | minuto | minutos | minuti",
    "hours": "h | hr | hrs | hour | hours | std | stunde | stunden | uur | uren | u | heures | horas | ore",
    "clock": "uhr | hh mm | hh mm ss | uu mm | o clock",
    "percent": "% | percent | per cent | pct | procent | prozent | pourcent | pour cent | por ciento | per cento",
    "promille": "‰ | promille",
    "millimetres": "mm | millimeter | millimetre | millimetres | milimetros | millimetri",
    "centimetres": "cm | centimeter | centimetre | centimetres | centimetros | centimetri",
    "pieces": "pc | pcs | piece | pieces | st | stk | stück | stuk | stuks | pièce | pièces | unit | units | unidad | "
    "unidades | ud | uds | pieza | piezas | pezzo | pezzi | pz",
    "level": "1 10",
    "share": "0 1",
    "yes_no": "yes no | y n | ja nee | ja nein | j n | oui non | o n | sí no | s n",
    "with_tax": "incl btw | inclusief btw | inkl mwst | inkl ust | inklusive mwst | incl vat | inc vat | "
    "including vat | incl tax | incl taxes | ttc | tvac | tva incl | tva comprise | iva incl | iva incluido | "
    "iva inclusa | iva inclusiva | con iva | ivato | brutto | bruto | brut | gross | lordo",
    "without_tax": "excl btw | exclusief btw | ex btw | exkl mwst | zzgl mwst | zzgl ust | ohne mwst | excl vat | "
    "ex vat | excluding vat | excl tax | plus vat | ht | htva | hors tva | hors taxe | hors taxes | sans tva | "
    "sin iva | senza iva | iva esclusa | iva excl | iva no incluido | netto | net | neto | plus mwst",
}

SUITS = {
    "minutes": {"minutes"},
    "hands_on_min": {"minutes"},
    "processing_min": {"minutes"},
    "regrowth_mm": {"millimetres"},
    "strength_percent": {"percent"},
    "natural_level": {"level"},
    "target_level": {"level"},
    "grey_share": {"share", "percent"},
    "packs": {"pieces"},
    "day": {"date_format"},
    "start_time": {"clock", "hours"},
    "end_time": {"clock", "hours"},
    "time": {"clock", "hours"},
    "pack_cost": {"without_tax"},
    "unit_cost": {"without_tax"},
}
"""Units that say no more than the column does, beside those of its type."""

SUITS_TYPE = {
    "grams": {"grams"},
    "percent": {"percent"},
    "quantity": {"pieces"},
    "yes_no": {"yes_no"},
    "day": {"date_format"},
    "moment": {"date_format"},
    "moment_or_day": {"date_format"},
}

# Words that say in brackets that a clock time is meant, as in "Beginn (Uhrzeit)".
CLOCK_WORDS = {"time", "tijd", "uhrzeit", "zeit", "heure", "hora", "ora"}

# Words that a heading may have or lack without meaning anything else, and the ways to write "number".
FILLERS = {"de", "du", "des", "d", "di", "del", "della", "dello", "dell", "la", "le", "l", "el", "il", "lo"}
FILLERS |= {"los", "las", "les", "the", "of", "van", "der", "die", "das", "den", "het", "een", "al"}
NUMBER_WORDS = {"no", "n", "nr", "num", "numero", "nummer", "number", "nro", "nbr"}
