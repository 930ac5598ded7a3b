"""Whatever text: no error, and what another program printed reads back."""

import re
from collections.abc import Callable
from datetime import date, datetime, time, timedelta
from decimal import Decimal

import pytest
from babel.dates import format_date, format_time
from babel.numbers import format_currency, format_decimal
from hypothesis import given
from hypothesis import strategies as st
from value_cases import AMERICAN, DAYS, DUTCH, MINUTES, MOMENTS, NO_DAYS, NO_NUMBERS, NUMBERS, OPEN

from analytics.intake.cells.casts import CLOCK, DAY
from analytics.intake.cells.values import (
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
