"""Cells as exports write them: tables by hand, what is refused, what a file decides, and properties over many texts."""

import re
from collections.abc import Callable
from datetime import date, datetime, time, timedelta
from decimal import Decimal

import pytest
from babel.dates import format_date, format_time
from babel.numbers import format_currency, format_decimal
from hypothesis import given
from hypothesis import strategies as st

from analytics.intake.cells.casts import CLOCK, DAY
from analytics.intake.cells.values import (
    DayOrder,
    DecimalSign,
    Dialect,
    canonical_day,
    canonical_minutes,
    canonical_moment,
    canonical_number,
    date_order,
    decimal_sign,
    joined_moment,
)

DUTCH = Dialect("dmy", ",", "Europe/Amsterdam")
AMERICAN = Dialect("mdy", ".", "America/New_York")
SWEDISH = Dialect("ymd", ",", "Europe/Stockholm")
OPEN = Dialect(None, None, "Europe/Amsterdam")

MARCH = "2026-03-14"

# Days that no dialect is needed for.
DAYS = [
    (MARCH, MARCH),
    (f" {MARCH} ", MARCH),
    ("2026/3/14", MARCH),
    ("2026.03.14", MARCH),
    ("2026 03 14", MARCH),
    ("2026. 3. 14", MARCH),
    ("20260314", MARCH),
    ("46095", MARCH),
    ("46095.0", MARCH),
    ("46095,00", MARCH),
    ("20000", "1954-10-03"),
    ("80000", "2119-01-11"),
    ("２０２６-０３-１４", MARCH),
    ("٢٠٢٦-٠٣-١٤", MARCH),
    ("\u200e14 March 2026\u200e", MARCH),
    # English
    ("14 Mar 2026", MARCH),
    ("14 March 2026", MARCH),
    ("14-Mar-26", MARCH),
    ("14-MAR-2026", MARCH),
    ("14Mar2026", MARCH),
    ("14 Mar '26", MARCH),
    ("14th March 2026", MARCH),
    ("1st of May 2026", "2026-05-01"),
    ("March 14, 2026", MARCH),
    ("Mar. 14 2026", MARCH),
    ("March 14th, 2026", MARCH),
    ("2026-Mar-14", MARCH),
    ("Sat 14 Mar 2026", MARCH),
    ("Saturday, March 14, 2026", MARCH),
    ("Thurs. 10 Sept 2026", "2026-09-10"),
    # Dutch
    ("14 mrt 2026", MARCH),
    ("14 mrt. 2026", MARCH),
    ("14 maart 2026", MARCH),
    ("14-mrt-26", MARCH),
    ("zaterdag 14 maart 2026", MARCH),
    ("za 14 mrt 2026", MARCH),
    ("1 mei 2026", "2026-05-01"),
    ("3 okt 2026", "2026-10-03"),
    ("1 augustus 2026", "2026-08-01"),
    # German
    ("3. März 2026", "2026-03-03"),
    ("3. Marz 2026", "2026-03-03"),
    ("3.Maerz 2026", "2026-03-03"),
    ("3. Mrz. 2026", "2026-03-03"),
    ("Samstag, 14. März 2026", MARCH),
    ("Sa., 14. Dez. 2026", "2026-12-14"),
    ("2. Jänner 2026", "2026-01-02"),
    ("14. Mai 2026", "2026-05-14"),
    # French
    ("1er août 2026", "2026-08-01"),
    ("1ᵉʳ AOÛT 2026", "2026-08-01"),
    ("14 févr. 2026", "2026-02-14"),
    ("samedi 14 mars 2026", MARCH),
    ("mar. 14 avril 2026", "2026-04-14"),
    ("mardi 20260414", "2026-04-14"),
    ("14 juil. 2026", "2026-07-14"),
    ("31 décembre 2026", "2026-12-31"),
    # Spanish
    ("14 de marzo de 2026", MARCH),
    ("14 marzo del 2026", MARCH),
    ("sábado, 14 de marzo de 2026", MARCH),
    ("miércoles 2 sept 2026", "2026-09-02"),
    ("14 ene 2026", "2026-01-14"),
    ("14ago26", "2026-08-14"),
    # Italian
    ("1º agosto 2026", "2026-08-01"),
    ("1° gennaio 2026", "2026-01-01"),
    ("sabato 14 marzo 2026", MARCH),
    ("lunedì 14 set 2026", "2026-09-14"),
    ("14 ottobre 2026", "2026-10-14"),
    ("14 mag 2026", "2026-05-14"),
    # of moments the local day
    ("2026-03-14 09:30", MARCH),
    ("2026-03-14T23:30:00Z", "2026-03-15"),
]

# Three numbers without a year of four digits first: dmy, mdy, ymd.
ORDERED = [
    ("14/03/2026", MARCH, None, None),
    ("14-3-2026", MARCH, None, None),
    ("14.03.2026", MARCH, None, None),
    ("14. 3. 2026", MARCH, None, None),
    ("14 03 2026", MARCH, None, None),
    ("14 / 03 / 2026", MARCH, None, None),
    ("za 14/03/2026", MARCH, None, None),
    ("mar. 14/04/2026", "2026-04-14", None, None),
    ("mar 14 04 2026", "2026-04-14", None, None),
    ("14/03/26", MARCH, None, "2014-03-26"),
    ("26-03-14", "2014-03-26", None, MARCH),
    ("3/14/2026", None, MARCH, None),
    ("3/14/26", None, MARCH, None),
    ("03/04/2026", "2026-04-03", "2026-03-04", None),
    ("03/04/05", "2005-04-03", "2005-03-04", "2003-04-05"),
    ("14/3/6", None, None, "2014-03-06"),
    ("01/01/69", "2069-01-01", "2069-01-01", None),
    ("01/01/70", "1970-01-01", "1970-01-01", None),
    ("29/02/2028", "2028-02-29", None, None),
    ("14/03/2026 09:30", MARCH, None, None),
]

NO_DAYS = [
    "31/02/2026", "29/02/2026", "2026-02-30", "31 feb 2026", "20260230", "00/00/0000", "0000-00-00", "2026-14-03",
    "14/03", "14 mrt", "March 2026", "mrt 26", "2026", "14/03-2026", "14/2026/03", "2026/03/2026",
    "14/03/226", "14 foo 2026", "45 March 2026", "19999", "80001", "45730.39.58", "457300.39", "1773480600", "14032026",
    "0026-03-14", "0001-01-01", "14/03/0026", "14 mrt 0930", "9999-12-31", "14/03/2026.", "tomorrow", "n/a", "-", "",
    " ", "²⁶-03-14", "14/03/2026 x", "March 14 09:30", "14 mrt 09.30", "2026-W11-6", "9" * 500,
]  # fmt: skip

MOMENTS = [
    ("2026-03-14 09:30", "2026-03-14 09:30"),
    ("2026-03-14 09:30:15", "2026-03-14 09:30:15"),
    ("2026-03-14T09:30", "2026-03-14 09:30"),
    ("2026-03-14t09:30:15", "2026-03-14 09:30:15"),
    ("2026-03-14 00:00:00", "2026-03-14 00:00:00"),
    ("2026-03-14T09:30:15.4", "2026-03-14 09:30:15"),
    ("2026-03-14T09:29:59.999999", "2026-03-14 09:30:00"),
    ("2026-03-14 23:59:59,9", "2026-03-15 00:00:00"),
    ("2026-03-14T08:30:00Z", "2026-03-14 09:30:00"),
    ("2026-03-14T08:30Z", "2026-03-14 09:30"),
    ("2026-07-14T08:30:00Z", "2026-07-14 10:30:00"),
    ("2026-03-14T09:30:00+01:00", "2026-03-14 09:30:00"),
    ("2026-03-14 09:30:00+01", "2026-03-14 09:30:00"),
    ("2026-03-14 09:30:00 +0000", "2026-03-14 10:30:00"),
    ("2026-03-14 08:30:00 UTC", "2026-03-14 09:30:00"),
    ("2026-03-14T09:30-05:00", "2026-03-14 15:30"),
    ("2026-03-14T23:30:00.000Z", "2026-03-15 00:30:00"),
    ("Sat, 14 Mar 2026 09:30:00 +0100", "2026-03-14 09:30:00"),
    ("Sat Mar 14 2026 09:30:00 GMT+0100", "2026-03-14 09:30:00"),
    ("45730.3958", "2025-03-14 09:29:57"),
    ("45730.395833333", "2025-03-14 09:30:00"),
    ("45730,5", "2025-03-14 12:00:00"),
    ("45730.999999", "2025-03-15 00:00:00"),
    ("45730", "2025-03-14"),
    ("46095 09:30", "2026-03-14 09:30"),
    ("46095 0.25", "2026-03-14 06:00:00"),
    ("2026-03-14 0.395833333", "2026-03-14 09:30:00"),
    ("20260314T0930", "2026-03-14 09:30"),
    ("20260314T083000Z", "2026-03-14 09:30:00"),
    ("20260314 0930", "2026-03-14 09:30"),
    ("202603140930", "2026-03-14 09:30"),
    ("20260314093015", "2026-03-14 09:30:15"),
    ("14/03/2026", MARCH),
    ("14/03/2026 9:30", "2026-03-14 09:30"),
    ("14-03-2026 09.30", "2026-03-14 09:30"),
    ("14.03.26 09.30", "2026-03-14 09:30"),
    ("14 03 2026 09.30.15", "2026-03-14 09:30:15"),
    ("14/03/2026 9h30", "2026-03-14 09:30"),
    ("14/03/2026 à 9 h 30", "2026-03-14 09:30"),
    ("14/03/2026 à 9h", "2026-03-14 09:00"),
    ("14/03/2026 9u30", "2026-03-14 09:30"),
    ("14/03/2026 0930", "2026-03-14 09:30"),
    ("14/03/2026\u00a009:30", "2026-03-14 09:30"),
    ("14/03/2026\n09:30", "2026-03-14 09:30"),
    ("14/03/2026, 09:30", "2026-03-14 09:30"),
    ("14/03/2026 - 09:30", "2026-03-14 09:30"),
    ("14 mrt 2026 om 9:30", "2026-03-14 09:30"),
    ("za 14 mrt 2026, 09:30 uur", "2026-03-14 09:30"),
    ("14 March 2026 at 9:30 am", "2026-03-14 09:30"),
    ("Samstag, 14. März 2026 um 9:30 Uhr", "2026-03-14 09:30"),
    ("14. März 2026, 9 Uhr", "2026-03-14 09:00"),
    ("sábado, 14 de marzo de 2026 a las 14:30", "2026-03-14 14:30"),
    ("14 marzo 2026 alle 9:30", "2026-03-14 09:30"),
    ("14 marzo 2026 alle ore 9.30", "2026-03-14 09:30"),
    ("14/03/2026 2:30 PM", "2026-03-14 14:30"),
    ("14/03/2026 2:30:15\u202fPM", "2026-03-14 14:30:15"),
    ("14/03/2026 2.30 pm", "2026-03-14 14:30"),
    ("14/03/2026 2:30 p. m.", "2026-03-14 14:30"),
    ("14/03/2026 2pm", "2026-03-14 14:00"),
    ("14/03/2026 12:05 a.m.", "2026-03-14 00:05"),
    ("14/03/2026 12:05 PM", "2026-03-14 12:05"),
    ("mar 14 2026 0930", "2026-03-14 09:30"),
]

NO_MOMENTS = [
    "09:30", "0930", "2026-03-14 24:01", "14-03-26 24:00 PM", "2026-03-14 09:60", "2026-03-14 09:30:60",
    "14/03/2026 14:30 PM",
    "14/03/2026 0:30 AM", "14/03/2026 930", "14/03/2026 9", "2026-03-14 09:30-10:30", "14/03/2026 09:30 - 10:30",
    "2026-03-14 09:30 CET", "2026-03-14 09:30+99:00", "31/02/2026 09:30", "46095 0.25 0.25", "46095.5 09:30",
    "2026-03-14 0.25", "202603140960", "20260314093", "14/03/2026 09:30 10:30", "14/03/2026 -09:30", "12345 morgen",
]  # fmt: skip

# As read where the sign is open: these need none.
NUMBERS = [
    ("12", "12"),
    ("12.5", "12.5"),
    ("12.50", "12.50"),
    ("0", "0"),
    ("-12.5", "-12.5"),
    ("-0", "0"),
    ("-0,00", "0.00"),
    ("12,5", "12.5"),
    ("0.125", "0.125"),
    ("0,125", "0.125"),
    ("012.345", "012.345"),
    ("1234.567", "1234.567"),
    ("1234,567", "1234.567"),
    ("1.2345", "1.2345"),
    ("1.234,50", "1234.50"),
    ("1,234.50", "1234.50"),
    ("1,234.567", "1234.567"),
    ("1.234.567", "1234567"),
    ("1,234,567", "1234567"),
    ("1.234.567,8", "1234567.8"),
    ("1,234,567.891", "1234567.891"),
    ("1 234", "1234"),
    ("1 234,50", "1234.50"),
    ("1\u00a0234,50", "1234.50"),
    ("1\u2009234,50", "1234.50"),
    ("1\u202f234\u202f567.5", "1234567.5"),
    ("1 234.567", "1234.567"),
    ("1'234.50", "1234.50"),
    ("1’234’567", "1234567"),
    ("€ 12", "12"),
    ("€12,50", "12.50"),
    ("12 €", "12"),
    ("12,50€", "12.50"),
    ("EUR 12,50", "12.50"),
    ("12.50 eur", "12.50"),
    ("EUR12,50", "12.50"),
    ("12,50 euro", "12.50"),
    ("£12", "12"),
    ("US$ 12.50", "12.50"),
    ("kr 1 234,50", "1234.50"),
    ("12,50 kr.", "12.50"),
    ("12,50 zł", "12.50"),
    ("12,50 Kč", "12.50"),
    ("CHF 12.–", "12"),
    ("Fr. 12.50", "12.50"),
    ("Fr.12.50", "12.50"),
    ("12.-", "12"),
    ("12,-", "12"),
    ("12,--", "12"),
    ("1.234,-", "1234"),
    ("1'234.—", "1234"),
    ("12-", "-12"),
    ("12,50-", "-12.50"),
    ("(12.00)", "-12.00"),
    ("(€ 12,00)", "-12.00"),
    ("€ (12,00)", "-12.00"),
    ("(12,00) €", "-12.00"),
    ("−12", "-12"),
    ("–12", "-12"),
    ("- 12", "-12"),
    ("-€ 12", "-12"),
    ("€ -12", "-12"),
    ("€-12", "-12"),
    ("-12 €", "-12"),
    ("+12", "12"),
    (".5", "0.5"),
    ("-.5", "-0.5"),
    (",5", "0.5"),
    ("5.", "5"),
    ("5,", "5"),
    ("12 %", "12"),
    ("21%", "21"),
    ("12,5\u00a0%", "12.5"),
    ("60 g", "60"),
    ("60g", "60"),
    ("60 gr", "60"),
    ("60 gr.", "60"),
    ("42,5 Gramm", "42.5"),
    ("12 mm", "12"),
    ("1.2E-05", "0.000012"),
    ("1,2E-05", "0.000012"),
    ("1E+03", "1000"),
    ("1.234E+05", "123400"),
    ("-1.5e2", "-150"),
    ("１２．５", "12.5"),
    ("٢١", "21"),
    ("12345678901234567890.12", "12345678901234567890.12"),
]

NO_NUMBERS = [
    "1,23,4.5", "12.34.5", "1.234.5", "1,234,56", "1.234.567.8", "1,234.567.8", "1'23", "1 23", "12 34", "1 2345",
    "0 123", "1..5", "1,,234", ".", ",", "-", "–", "—", "+", "€", "€ -", "()", "%", "n/a", "free", "gratis", "",
    "--12", "-12-", "(-12)", "+12-", "(12", "12)", "€ 12 €", "€ 12 %", "12 % g", "12 €-", "12–", "12 -", "CHF -.50",
    "–.50", "1 kg", "60 ml", "2 oz", "12 ‰", "50¢", "12p", "2x", "12E", "1E", "1E999", "1 E 5", "1.234.567E2",
    "1,234.5E2", "12²", "1½", "½", "①", "Ⅻ", "0x12", "1_000", "12/2", "9:30", "2026-03-14", "14.03.2026", "inf", "nan",
    "1.234.-", "12'",
]  # fmt: skip

# One separator before exactly three digits: with the sign "," and with the sign ".".
EITHER = [
    ("1.234", "1234", "1.234"),
    ("1,234", "1.234", "1234"),
    ("-12.345", "-12345", "-12.345"),
    ("€ 123,456", "123.456", "123456"),
    ("(1.000)", "-1000", "-1.000"),
    ("1.234 g", "1234", "1.234"),
]

MINUTES = [
    ("90", "90"), ("90.5", "90.5"), ("90,5", "90.5"), ("-90", "-90"), ("90 min", "90"), ("90min.", "90"),
    ("90 m", "90"), ("90'", "90"), ("90′", "90"), ("90 minutes", "90"), ("90 minuten", "90"), ("90 Minuten", "90"),
    ("90 minuti", "90"), ("90 minutos", "90"), ("1 minuut", "1"), ("1:30", "90"), ("0:45", "45"), ("01:30:00", "90"),
    ("1:30:30", "90.5"), ("1:00:20", "60.333333"), ("26:00", "1560"), ("1:30 h", "90"), ("1h30", "90"),
    ("1 h 30", "90"), ("1h05", "65"), ("1h 30m", "90"), ("1 h 30 min", "90"), ("1 hr 30 mins", "90"),
    ("1 hour and 30 minutes", "90"), ("1u30", "90"), ("1 uur en 30 minuten", "90"), ("1 Std. 30 Min.", "90"),
    ("1 Stunde und 30 Minuten", "90"), ("1 heure et 30 minutes", "90"), ("1 hora y 30 minutos", "90"),
    ("1 ora e 30 minuti", "90"), ("2 hours", "120"), ("1h", "60"), ("1,5 h", "90"), ("1.5h", "90"), ("0,75 uur", "45"),
    (".5 h", "30"), ("1,5 Stunden", "90"), ("PT1H30M", "90"), ("PT90M", "90"), ("PT1H", "60"), ("PT1.5H", "90"),
    ("P0DT1H30M", "90"), ("PT5400S", "90"), ("1899-12-30 01:30:00", "90"), ("1899-12-31 01:30:00", "90"),
    ("1 200", "1200"), ("１：３０", "90"),
]  # fmt: skip

NO_MINUTES = [
    "1:75", "1h90", "1:3", "-1:30", "1:30 PM", "1h30m20", "PT", "P1D", "PT1H30", "1 day", "€ 90", "90 g", "90 %",
    "90-100", "2x45", "1½ h", "n/a", "-", "", "h", "min", "1 h min", "1.2.3 h", "1,5 h 30",
]  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), DAYS)
@pytest.mark.parametrize("dialect", [DUTCH, OPEN])
def test_days_that_need_no_order(text: str, expected: str, dialect: Dialect) -> None:
    assert canonical_day(text, dialect) == expected


@pytest.mark.parametrize(("text", "dmy", "mdy", "ymd"), ORDERED)
def test_days_of_three_numbers(text: str, dmy: str | None, mdy: str | None, ymd: str | None) -> None:
    read = [canonical_day(text, dialect) for dialect in (DUTCH, AMERICAN, SWEDISH, OPEN)]
    assert read == [dmy, mdy, ymd, None]


@pytest.mark.parametrize("text", NO_DAYS)
def test_no_days(text: str) -> None:
    assert [canonical_day(text, dialect) for dialect in (DUTCH, AMERICAN, SWEDISH, OPEN)] == [None] * 4


@pytest.mark.parametrize(("text", "expected"), MOMENTS)
def test_moments(text: str, expected: str) -> None:
    assert canonical_moment(text, DUTCH) == expected


@pytest.mark.parametrize("text", [*NO_MOMENTS, *NO_DAYS])
def test_no_moments(text: str) -> None:
    assert canonical_moment(text, DUTCH) is None


def test_a_moment_in_utc_follows_the_salons_own_zone() -> None:
    assert canonical_moment("2026-03-14T13:30:00Z", AMERICAN) == "2026-03-14 09:30:00"
    assert canonical_day("2026-03-14T02:30:00Z", AMERICAN) == "2026-03-13"


@pytest.mark.parametrize(
    ("day_text", "time_text", "joined", "expected"),
    [
        ("14/03/2026", "9:30", "14/03/2026 9:30", "2026-03-14 09:30"),
        (" 14/03/2026 ", " 2:30 PM ", "14/03/2026 2:30 PM", "2026-03-14 14:30"),
        ("2026-03-14 00:00:00", "09:30:00", "2026-03-14 09:30:00", "2026-03-14 09:30:00"),
        ("14/3/2026 12:00:00 AM", "9:30", "14/3/2026 9:30", "2026-03-14 09:30"),
        ("2026-03-14T00:00", "1899-12-30 09:30:00", "2026-03-14 09:30:00", "2026-03-14 09:30:00"),
        ("14/03/2026", "30/12/1899 09:30", "14/03/2026 09:30", "2026-03-14 09:30"),
        ("14/03/2026", "1/0/1900 9:30 AM", "14/03/2026 9:30 AM", "2026-03-14 09:30"),
        ("46095", "0.395833333333333", "46095 0.395833333333333", "2026-03-14 09:30:00"),
        ("46095.0", "0.25", "46095 0.25", "2026-03-14 06:00:00"),
        ("2026-03-14 00:00:00", "2026-03-14 09:30:00", "2026-03-14 09:30:00", "2026-03-14 09:30:00"),
        ("14/03/2026", "", "14/03/2026", MARCH),
        ("14/03/2026", "0930", "14/03/2026 0930", "2026-03-14 09:30"),
        ("", "09:30", "09:30", None),
        ("", "", "", None),
        ("14/03/2026 08:00", "09:30", "14/03/2026 08:00 09:30", None),
        ("2026-03-14", "2026-03-15 09:30", "2026-03-14 2026-03-15 09:30", None),
    ],
)
def test_date_and_time_columns_apart(day_text: str, time_text: str, joined: str, expected: str | None) -> None:
    assert joined_moment(day_text, time_text) == joined
    assert canonical_moment(joined, DUTCH) == expected


@pytest.mark.parametrize(("text", "expected"), NUMBERS)
@pytest.mark.parametrize("dialect", [DUTCH, AMERICAN, OPEN])
def test_numbers_that_need_no_sign(text: str, expected: str, dialect: Dialect) -> None:
    assert canonical_number(text, dialect) == expected


@pytest.mark.parametrize(("text", "comma", "dot"), EITHER)
def test_numbers_that_depend_on_the_file(text: str, comma: str, dot: str) -> None:
    assert [canonical_number(text, dialect) for dialect in (DUTCH, AMERICAN, OPEN)] == [comma, dot, None]


@pytest.mark.parametrize("text", NO_NUMBERS)
def test_no_numbers(text: str) -> None:
    assert [canonical_number(text, dialect) for dialect in (DUTCH, AMERICAN, OPEN)] == [None] * 3


@pytest.mark.parametrize(("text", "expected"), MINUTES)
@pytest.mark.parametrize("dialect", [DUTCH, OPEN])
def test_minutes(text: str, expected: str, dialect: Dialect) -> None:
    assert canonical_minutes(text, dialect) == expected


@pytest.mark.parametrize("text", NO_MINUTES)
def test_no_minutes(text: str) -> None:
    assert canonical_minutes(text, DUTCH) is None


def test_minutes_that_depend_on_the_file() -> None:
    assert [canonical_minutes("1.234", dialect) for dialect in (DUTCH, AMERICAN, OPEN)] == ["1234", "1.234", None]
    assert [canonical_minutes("1.125 h", dialect) for dialect in (AMERICAN, OPEN)] == ["67.5", None]


@pytest.mark.parametrize(
    ("texts", "decided", "example", "needed"),
    [
        ([], None, None, False),
        (["2026-03-14", "14 mrt 2026", "46095", "20260314", "nonsense", ""], None, None, False),
        (["14/03/2026"], "dmy", None, True),
        (["3/14/2026 2:30 PM"], "mdy", None, True),
        (["za 14/03/2026 om 9:30"], "dmy", None, True),
        (["3/14/26"], "mdy", None, True),
        (["99-03-14"], "ymd", None, True),
        (["26-03-99"], "dmy", None, True),
        (["03/04/2026", "2026-03-14"], None, "03/04/2026", True),
        (["26-03-14"], None, "26-03-14", True),
        (["14/03/26", "03/04/26"], None, "14/03/26", True),
        (["14/03/26", "4/3/26"], "dmy", None, True),  # 14 is no month, 4 no year
        (["14/03/26", "03/04/2026"], "dmy", None, True),  # 14 is no month, 2026 no day
        (["31/02/2026"], "dmy", None, True),  # no such day, and yet no month 31
        (["45/45/2026", "14/03/2026 x", "phone 06-12-34"], None, None, False),
        (["14/03/2026", "03/14/2026"], None, "03/14/2026", True),
        (["14/03/2026"] * 9 + ["03/14/2026"], None, "03/14/2026", True),
        (["14/03/2026"] * 10 + ["03/14/2026"], "dmy", None, True),
        (["14/03/2026"] + ["03/14/2026"] * 10, "mdy", None, True),
        (["14/03/26"] * 20 + ["41/03/26"], None, "14/03/26", True),  # one slip decides nothing
        (["26-03-14"] * 20 + ["6-03-14"], None, "26-03-14", True),
        (["14/03/26"] * 5 + ["41/03/26"], "ymd", None, True),
        (["03/14/26"] * 5 + ["14/03/26"] * 50, None, "14/03/26", True),
    ],
)
def test_date_order(texts: list[str], decided: DayOrder | None, example: str | None, needed: bool) -> None:
    order = date_order(iter(texts))
    assert (order.decided, order.example, order.needed) == (decided, example, needed)


def test_date_order_says_what_is_possible_and_what_fits_alone() -> None:
    order = date_order(["14/03/26", "03/04/26", "03/14/2026"])
    assert (order.possible, order.only) == ((), {"dmy": 0, "mdy": 1, "ymd": 0})
    assert date_order(["14/03/26"]).possible == ("dmy", "ymd")
    assert date_order([]).possible == ("dmy", "mdy", "ymd")


@pytest.mark.parametrize(
    ("texts", "decided", "example", "needed"),
    [
        ([], None, None, False),
        (["12", "1 234", "1'234", "n/a", "-", "1.2.3", "12.5 kg"], None, None, False),
        (["12.5"], ".", None, False),
        (["12,50 €", "1.234"], ",", None, True),
        (["1.234"], None, "1.234", True),
        (["1,234", "12"], None, "1,234", True),
        (["1.234.567"], ",", None, False),
        (["1,234,567"], ".", None, False),
        (["0.125", "1.125"], ".", None, True),
        (["1.2E-05"], ".", None, False),
        (["12,-"], ",", None, False),
        (["CHF 12.–"], ".", None, False),
        (["12.5", "12,5"], None, None, False),
        (["12.5", "12,5", "1.234"], None, "1.234", True),
        (["12.5"] * 9 + ["12,5", "1.234"], None, "1.234", True),
        (["12.5"] * 10 + ["12,5", "1.234"], ".", None, True),
    ],
)
def test_decimal_sign(texts: list[str], decided: DecimalSign | None, example: str | None, needed: bool) -> None:
    sign = decimal_sign(iter(texts))
    assert (sign.decided, sign.example, sign.needed) == (decided, example, needed)


def test_decimal_sign_counts_what_can_be_read_with_one_sign_alone() -> None:
    assert decimal_sign(["12.5", "12,5", "0,125", "1.234", "12"]).only == {".": 1, ",": 2}


# Properties.

DIALECTS = [DUTCH, AMERICAN, Dialect("ymd", ",", "Asia/Kathmandu"), Dialect(None, None, "Pacific/Apia")]
CANONICAL: list[tuple[Callable[[str, Dialect], str | None], str]] = [
    (canonical_day, DAY),
    (canonical_moment, rf"{DAY}( \d{{2}}:\d{{2}}(:\d{{2}})?)?"),
    (canonical_number, r"-?\d+(\.\d+)?"),
    (canonical_minutes, r"-?\d+(\.\d+)?"),
]
ODD = "0123456789 .,:/-–−'’()€%+eEgTZhumPpMaAtrzjnvsdol\u00a0\u202f²½٣３\u200e\n\x00"
LIKELY = st.sampled_from([*(text for text, *_ in DAYS + MOMENTS + NUMBERS + MINUTES), *NO_DAYS, *NO_NUMBERS])
ANY_TEXT = st.one_of(
    st.text(),
    st.text(ODD, max_size=30),
    st.from_regex(r"\d{1,5}[./ ,'-]\d{1,4}([./ ,'-]\d{1,4}( \d{1,2}[:.h]\d\d)?)?", fullmatch=True),
    st.tuples(LIKELY, LIKELY).map("".join),
    st.tuples(LIKELY, st.text(ODD, max_size=3)).map("".join),
)
ANY_DAY = st.dates(date(1900, 1, 1), date(2199, 12, 31))
RECENT_DAY = st.dates(date(1970, 1, 1), date(2069, 12, 31))
ORDER = st.sampled_from(["dmy", "mdy", "ymd"])
MARK = st.sampled_from(["/", "-", ".", " ", ". "])
AMOUNT = st.decimals(-10_000_000, 10_000_000, places=2)
LOCALES = ["en_GB", "en_US", "nl", "nl_BE", "de", "de_AT", "de_CH", "fr", "fr_CH", "fr_CA", "es", "es_MX", "it"]


def printed(day: date, order: str, mark: str, *, short: bool, padded: bool) -> str:
    year = f"{day.year % 100:02}" if short else str(day.year)
    parts = {"y": year, "m": f"{day.month:02}", "d": f"{day.day:02}"}
    return mark.join(parts[letter] if padded or letter == "y" else str(int(parts[letter])) for letter in order)


def dialect_of(order: str) -> Dialect:
    return next(dialect for dialect in DIALECTS if dialect.order == order)


@given(ANY_TEXT)
def test_never_raises_and_answers_canonical_text(text: str) -> None:
    for dialect in DIALECTS:
        for function, pattern in CANONICAL:
            answer = function(text, dialect)
            assert answer is None or re.fullmatch(pattern, answer, re.ASCII), (function.__name__, answer)
            if answer and function in (canonical_day, canonical_moment):
                assert function(answer, dialect) == answer
    date_order([text])
    decimal_sign([text])


@given(ANY_TEXT, ANY_TEXT)
def test_joined_texts_never_raise(day_text: str, time_text: str) -> None:
    for dialect in DIALECTS:
        answer = canonical_moment(joined_moment(day_text, time_text), dialect)
        assert answer is None or re.fullmatch(f"{DAY}({CLOCK})?", answer, re.ASCII)


@given(ANY_DAY, ORDER, MARK, st.booleans())
def test_days_printed_in_an_order_read_back(day: date, order: str, mark: str, padded: bool) -> None:
    text = printed(day, order, mark, short=False, padded=padded)
    assert canonical_day(text, dialect_of(order)) == day.isoformat()


@given(RECENT_DAY, ORDER, MARK, st.booleans())
def test_days_with_short_years_read_back(day: date, order: str, mark: str, padded: bool) -> None:
    text = printed(day, order, mark, short=True, padded=padded)
    assert canonical_day(text, dialect_of(order)) == day.isoformat()


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("style", ["medium", "long", "full"])
def test_every_month_and_weekday_of_another_program_reads_back(locale: str, style: str) -> None:
    days = [date(2026, month, day) for month in range(1, 13) for day in range(1, 15)]
    read = [canonical_day(format_date(day, style, locale), DUTCH) for day in days]
    assert read == [day.isoformat() for day in days]


@given(ANY_DAY, st.times(), st.sampled_from(LOCALES), st.sampled_from(["medium", "long", "full"]))
def test_moments_printed_by_another_program_read_back(day: date, clock: time, locale: str, style: str) -> None:
    order = "mdy" if locale == "en_US" else "dmy"
    text = f"{format_date(day, style, locale)}, {format_time(clock, 'short', locale=locale)}"
    assert canonical_moment(text, dialect_of(order)) == f"{day} {clock:%H:%M}"


@given(st.datetimes(datetime(1955, 1, 1), datetime(2118, 1, 1)).map(lambda moment: moment.replace(microsecond=0)))
def test_serials_and_instants_read_back(moment: datetime) -> None:
    since = moment - datetime(1899, 12, 30)
    serial = Decimal(since.days) + Decimal(since.seconds) / 86400
    expected = moment.date().isoformat() if serial == since.days else str(moment)
    assert canonical_moment(f"{serial:.9f}", OPEN) == expected
    instant = moment - timedelta(hours=3)
    assert canonical_moment(f"{instant:%Y%m%dT%H%M%S}Z", Dialect(None, None, "Etc/GMT-3")) == str(moment)


@given(
    AMOUNT,
    st.sampled_from([("", "."), (",", "."), (" ", "."), ("'", "."), ("", ","), (".", ","), (" ", ","), ("’", ",")]),
    st.integers(0, 4),
    st.sampled_from(["{}", "€ {}", "{} €", "EUR {}", "{}%", "{} g"]),
)
def test_amounts_with_every_grouping_read_back(
    amount: Decimal, style: tuple[str, str], places: int, around: str
) -> None:
    group, sign = style
    plain = f"{amount:.{places}f}"
    text = f"{Decimal(plain):,.{places}f}".replace(",", "G").replace(".", sign).replace("G", group)
    read = canonical_number(around.format(text), Dialect(None, sign, "UTC"))  # type: ignore[arg-type]
    assert read is not None
    assert (Decimal(read), len(read.partition(".")[2])) == (Decimal(plain), places)


@given(AMOUNT, st.sampled_from(LOCALES))
def test_amounts_printed_by_another_program_read_back(amount: Decimal, locale: str) -> None:
    sign: DecimalSign = "," if "," in str(format_decimal(Decimal("0.5"), locale=locale)) else "."
    for text in (format_decimal(amount, locale=locale), format_currency(amount, "EUR", locale=locale)):
        read = canonical_number(text, Dialect(None, sign, "UTC"))
        assert read is not None
        assert Decimal(read) == amount


@given(st.integers(0, 5999))
def test_minutes_in_every_form_read_back(minutes: int) -> None:
    hours, rest = divmod(minutes, 60)
    forms = [f"{minutes}", f"{minutes} min", f"{hours}:{rest:02}", f"{hours}:{rest:02}:00", f"{hours}h{rest:02}"]
    forms += [f"{hours} h {rest}", f"PT{hours}H{rest}M", f"PT{minutes}M", f"1899-12-30 {hours:02}:{rest:02}:00"]
    assert {canonical_minutes(form, OPEN) for form in forms} == {str(minutes)}


@given(st.lists(ANY_DAY, min_size=40, max_size=60), st.sampled_from(["dmy", "mdy"]), MARK, st.booleans())
def test_a_day_above_twelve_decides_the_order(days: list[date], order: str, mark: str, padded: bool) -> None:
    found = date_order(printed(day, order, mark, short=False, padded=padded) for day in days)
    assert found.decided == (order if any(day.day > 12 for day in days) else None)
    assert found.needed


@given(st.lists(ANY_DAY.map(lambda day: day.replace(day=day.day % 12 + 1)), min_size=40, max_size=60))
def test_days_up_to_twelve_leave_the_order_open(days: list[date]) -> None:
    texts = [printed(day, "dmy", "/", short=False, padded=True) for day in days]
    found = date_order(texts)
    assert (found.decided, found.example, found.possible) == (None, texts[0], ("dmy", "mdy"))
