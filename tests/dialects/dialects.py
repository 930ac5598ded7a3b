"""The dialects the invented salon is written in."""

import csv
from dataclasses import replace

from dialects import languages as said
from dialects import numbers_and_days as ways
from dialects.writer import Dialect

ENGLISH = Dialect("english", said.ENGLISH, said.ENGLISH_WORDS, said.ENGLISH_FILES)
DUTCH = Dialect("dutch", said.DUTCH, said.DUTCH_WORDS, said.DUTCH_FILES)
GERMAN = Dialect("german", said.GERMAN, said.GERMAN_WORDS, said.GERMAN_FILES)
FRENCH = Dialect("french", said.FRENCH, said.FRENCH_WORDS, said.FRENCH_FILES)
SPANISH = Dialect("spanish", said.SPANISH, said.SPANISH_WORDS, said.SPANISH_FILES)
ITALIAN = Dialect("italian", said.ITALIAN, said.ITALIAN_WORDS, said.ITALIAN_FILES)

BY_NAME = {
    "clients": {"client_id": ""},
    "bookings": {"client_id": "", "service_id": "service", "line": ""},
    "product_log": {"product_id": "product"},
    "sales": {"product_id": "product"},
    "stock_moves": {"product_id": "product"},
}
SERVICES_BY_NAME = {"bookings": {"service_id": "service", "line": ""}}
CENTRAL_NAMES = {
    "Anouk d'Hérelle": "Anna Kądziołka", "Böhm Zita": "Bożena Říčařová", "Fenna Hoogstra": "Ľubica Šťastná",
    "Hélène Prévôt": "Halina Wójcik", "Léonie Nuñez": "Łucja Ďurišová", "Soin à l'argile": "Masáž s hlínou",
    "Grège 8.1": "Světlá 8.1", "Crème 6 %": "Krém 6 %",
}  # fmt: skip

CONTRACT = Dialect("contract")
DIALECTS = [
    replace(
        GERMAN, name="german semicolons in cp1252", delimiter=";", encoding="cp1252", newline="\r\n",
        day=ways.german_day, moment=ways.german_moment, money=ways.german_money, number=ways.comma,
        percent=ways.percent, below=True,
    ),
    replace(
        DUTCH, name="dutch tabs in UTF-16 LE", delimiter="\t", encoding="utf-16", newline="\r\n", day=ways.dutch_day,
        moment=ways.dutch_moment, money=ways.dutch_money, number=ways.comma, minutes=ways.said_minutes,
        percent=ways.percent_comma,
    ),
    replace(
        FRENCH, name="french with titles and narrow blanks", delimiter=";", encoding="utf-8-sig", newline="\r\n",
        day=ways.french_day, moment=ways.french_moment, money=ways.french_money, number=ways.comma,
        minutes=ways.hours_and_minutes, percent=ways.percent, below=True, blank_lines=True,
        above=("Salon Zilverdraad", "Export du 16/04/2026 à 18h05", ""), settings='[dates]\norder = "dmy"\n',
    ),
    replace(
        ENGLISH, name="american dollars and twelve hours", quoting=csv.QUOTE_ALL, day=ways.american_day,
        moment=ways.american_moment, money=ways.american_money, minutes=ways.clock_minutes, percent=ways.percent,
        below=True,
    ),
    replace(
        GERMAN, name="swiss apostrophes with a sep= line", delimiter=";", newline="\r\n", encoding="utf-8-sig",
        day=ways.short_day, moment=ways.short_moment, money=ways.swiss_money, above=("sep=;",),
        instead={"bookings": {"ends_at": "minutes"}}, minutes=ways.clock_minutes, settings='[dates]\norder = "dmy"\n',
    ),
    replace(
        SPANISH, name="spanish bars and spelt months", delimiter="|", day=ways.spanish_day, moment=ways.spanish_moment,
        money=ways.spanish_money, number=ways.comma, percent=ways.comma, repeated_headings=True,
    ),
    replace(
        ITALIAN, name="italian days and times apart", delimiter=";", newline="\r\n", apart=True,
        instead={"bookings": {"ends_at": "minutes"}}, day=ways.italian_day, moment=ways.iso_moment,
        clock=ways.italian_clock, money=ways.italian_money, number=ways.comma, minutes=ways.hours_and_minutes,
        percent=ways.percent,
    ),
    replace(
        DUTCH, name="dutch begin and end times beside the day", delimiter=";", apart=True, day=ways.german_day,
        instead={"bookings": {"ends_at": "end_time"}}, money=ways.spanish_money, number=ways.comma, below=True,
        blank_lines=True,
    ),
    replace(
        ENGLISH, name="workbook with typed cells", container="xlsx", day=ways.same, moment=ways.same, clock=ways.same,
        money=ways.as_float, number=ways.as_float, minutes=ways.as_float, percent=ways.as_share,
    ),
    replace(
        GERMAN, name="opendocument sheets with titles", container="ods", day=ways.same, moment=ways.same,
        clock=ways.same, money=ways.as_float, number=ways.as_float, minutes=ways.as_float, percent=ways.as_share,
        above=("Salon Zilverdraad", "Stand April"), apart=True, instead={"bookings": {"ends_at": "end_time"}},
    ),
    replace(FRENCH, name="french archive", container="zip", delimiter=";", encoding="utf-16-be", newline="\n",
            day=ways.italian_day, moment=ways.dotted_moment, money=ways.spanish_money, number=ways.comma),
    replace(
        ENGLISH, name="moments with time zones", encoding="utf-16-le", moment=ways.zoned_moment,
        instead=SERVICES_BY_NAME, repeated_headings=True, blank_lines=True,
    ),
    replace(
        ITALIAN, name="serial numbers for days", delimiter="\t", day=ways.serial_day, moment=ways.serial_moment,
        money=ways.spanish_money, number=ways.comma, newline="\r",
    ),
    replace(
        GERMAN, name="central European letters by setting", delimiter=";", encoding="cp1250", newline="\r\n",
        day=ways.german_day, moment=ways.german_moment, money=ways.german_money, number=ways.comma,
        settings='[files]\nencoding = "cp1250"\n', renamed=CENTRAL_NAMES,
    ),
    replace(
        SPANISH, name="everything by name", delimiter=";", encoding="cp1252", newline="\r\n", day=ways.italian_day,
        moment=ways.german_moment, money=ways.german_money, number=ways.comma, percent=ways.percent, instead=BY_NAME,
        words={**said.SPANISH_WORDS, "yes_no": {"True": "S", "False": "N"}},
    ),
    replace(
        DUTCH, name="one row per visit", delimiter=";", encoding="utf-8-sig", day=ways.dutch_day,
        moment=ways.german_moment, money=ways.spanish_money, number=ways.comma,
        several=(" + ", ", ", "; ", " / ", " & ", "\n"), instead=SERVICES_BY_NAME,
    ),
    replace(
        ENGLISH, name="one row per visit by name in a workbook", container="xlsx", day=ways.american_day,
        moment=ways.american_moment, money=ways.american_money, minutes=ways.hours_and_minutes,
        several=(" + ", ", ", "/"), instead=BY_NAME, apart=True, clock=ways.american_clock,
    ),
]  # fmt: skip
