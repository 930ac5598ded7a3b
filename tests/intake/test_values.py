"""Each text of a cell is read as what it says, or not at all."""

import pytest
from value_cases import AMERICAN, DAYS, DUTCH, MARCH, MINUTES, MOMENTS, NO_DAYS, NO_NUMBERS, NUMBERS, OPEN

from analytics.intake.cells.values import (
    Dialect,
    canonical_day,
    canonical_minutes,
    canonical_moment,
    canonical_number,
    joined_moment,
)

SWEDISH = Dialect("ymd", ",", "Europe/Stockholm")


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


NO_MOMENTS = [
    "09:30", "0930", "2026-03-14 24:01", "14-03-26 24:00 PM", "2026-03-14 09:60", "2026-03-14 09:30:60",
    "14/03/2026 14:30 PM",
    "14/03/2026 0:30 AM", "14/03/2026 930", "14/03/2026 9", "2026-03-14 09:30-10:30", "14/03/2026 09:30 - 10:30",
    "2026-03-14 09:30 CET", "2026-03-14 09:30+99:00", "31/02/2026 09:30", "46095 0.25 0.25", "46095.5 09:30",
    "2026-03-14 0.25", "202603140960", "20260314093", "14/03/2026 09:30 10:30", "14/03/2026 -09:30", "12345 morgen",
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
