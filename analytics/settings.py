"""salon.toml -> one frozen object; every mistake is one sentence that names the key.

The defaults stated here are the ones the manual prints: this file is the only place that knows them.
"""

import codecs
import re
import tomllib
from datetime import date
from decimal import Decimal
from itertools import pairwise
from pathlib import Path
from typing import Annotated, Any, Literal
from zoneinfo import available_timezones

from babel import Locale, UnknownLocaleError
from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationError, field_validator, model_validator

from analytics.definitions.tables import SERVICE_KINDS, TABLES
from analytics.money import is_currency
from analytics.stops import WorkStopped

FILE_NAME = "salon.toml"
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
DAY_MINUTES = 24 * 60

Span = tuple[int, int]
"""Opening and closing, minutes after midnight of the day it opens; closing may lie past 1440."""


def _minutes(clock: str) -> int:
    found = re.fullmatch(r"(\d{1,2}):(\d{2})", clock.strip())
    if not found or int(found[2]) > 59 or int(found[1]) * 60 + int(found[2]) > DAY_MINUTES:
        raise ValueError(f"{clock.strip()!r} is not a time of day such as 09:00")
    return int(found[1]) * 60 + int(found[2])


def _span(text: str) -> Span:
    opens, dash, closes = text.partition("-")
    if not dash:
        raise ValueError(f"{text.strip()!r} is not a span such as 09:00-18:00")
    start, end = _minutes(opens), _minutes(closes)
    if start in (end, DAY_MINUTES):
        raise ValueError(f"{text.strip()!r} is not a span such as 09:00-18:00; a whole day is 00:00-24:00")
    return start, end if end > start else end + DAY_MINUTES


def _spans(value: Any) -> tuple[Span, ...]:
    """'09:00-12:30, 13:30-18:00' -> minutes; a span that ends before it starts ends on the next day."""
    if not isinstance(value, str):
        raise ValueError("expected text such as 09:00-18:00")
    spans = tuple(sorted(_span(part) for part in value.split(",") if part.strip()))
    if any(later[0] < earlier[1] for earlier, later in pairwise(spans)):
        raise ValueError("two opening spans overlap")
    return spans


def _text_list(value: Any) -> Any:
    return tuple(value) if isinstance(value, list) else value


def _days(value: Any) -> Any:
    """A list of days as text or as TOML dates."""
    if not isinstance(value, list):
        raise ValueError('expected a list of days such as ["2026-12-25"]')
    return tuple(_a_day(day) for day in value)


def _a_day(value: Any) -> date:
    if type(value) is date:
        return value
    try:
        return date.fromisoformat(value)
    except (TypeError, ValueError):
        raise ValueError(f"{value!r} is not a day such as 2026-12-25") from None


def _number(value: Any) -> Any:
    """A number as TOML writes it: neither yes/no nor text."""
    if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
        raise ValueError(f"{value!r} is not a number")
    return value


Number = Annotated[float, BeforeValidator(_number)]
Exact = Annotated[Decimal, BeforeValidator(_number)]
Spans = Annotated[tuple[Span, ...], BeforeValidator(_spans)]
Texts = Annotated[tuple[str, ...], BeforeValidator(_text_list)]
Days = Annotated[tuple[date, ...], BeforeValidator(_days)]


class Section(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, str_strip_whitespace=True)


class SalonSection(Section):
    name: str = Field(min_length=1)
    currency: str = "EUR"
    locale: str = "en_GB"
    timezone: str = "Europe/Amsterdam"
    chairs: Texts = ()

    @model_validator(mode="after")
    def _known(self) -> "SalonSection":
        if not is_currency(self.currency):
            raise ValueError(f"currency {self.currency!r} is not a three-letter ISO 4217 code such as EUR")
        if self.timezone not in available_timezones() or self.timezone in ("localtime", "Factory"):
            raise ValueError(f"timezone {self.timezone!r} is not a known zone such as Europe/Amsterdam")
        try:
            Locale.parse(self.locale)
        except (UnknownLocaleError, ValueError):
            raise ValueError(f"locale {self.locale!r} is not a known one such as en_GB") from None
        return self


class Tax(Section):
    prices: Literal["included", "added"] = "included"
    round_per: Literal["booking", "line"] = "booking"
    default_rate: Exact = Field(default=Decimal(21), ge=0, le=100, decimal_places=4)


class Hours(Section):
    """Opening hours; where salon.toml has no [hours] at all, Monday to Saturday 09:00-18:00 is taken."""

    mon: Spans = ()
    tue: Spans = ()
    wed: Spans = ()
    thu: Spans = ()
    fri: Spans = ()
    sat: Spans = ()
    sun: Spans = ()
    closed: Days = ()

    def of(self, day: date) -> tuple[Span, ...]:
        spans: tuple[Span, ...] = () if day in self.closed else getattr(self, WEEKDAYS[day.weekday()])
        return spans


class Costs(Section):
    per_month: Exact = Field(default=Decimal(0), ge=0, le=10**9)
    card_fee_percent: Exact = Field(default=Decimal(0), ge=0, le=100)
    target_per_chair_hour: Exact = Field(default=Decimal(0), ge=0, le=10**9)


class Stock(Section):
    """delivery_days, cover_weeks and service_level are common practice: an order a month, there within three days, and
    of twenty orders one that runs short before the next."""

    valuation: Literal["average", "fifo"] = "average"
    delivery_days: int = Field(default=3, ge=0, le=365, strict=True)
    cover_weeks: Number = Field(default=4, gt=0, le=104)
    service_level: Number = Field(default=0.95, ge=0.5, le=0.999)


class Accounting(Section):
    tolerance: Exact = Field(default=Decimal(0), ge=0, le=10**6)
    tips: Literal["outside", "inside"] = "outside"
    vouchers: Literal["multi_purpose", "single_purpose"] = "multi_purpose"
    voucher_tax_rate: Exact | None = Field(default=None, ge=0, le=100, decimal_places=4)
    exempt: Texts = ()


AccountName = Annotated[str, Field(min_length=1, max_length=80)]


class Accounts(Section):
    """What the accounts of the journal are called; an accountant's numbers do as well."""

    cash: AccountName = "Cash"
    card: AccountName = "Card payments"
    bank: AccountName = "Bank"
    other: AccountName = "Other payments"
    open_items: AccountName = "Open items"
    fees: AccountName = "Payment fees"
    services: AccountName = "Services"
    retail: AccountName = "Retail"
    charges: AccountName = "Service charges"
    tips: AccountName = "Tips owed"
    vouchers: AccountName = "Vouchers owed"
    tax: AccountName = "Tax owed"


class Wages(Section):
    per_hour: dict[str, Annotated[Exact, Field(ge=0, le=10**9)]] = {}
    share_percent: dict[str, Annotated[Exact, Field(ge=0, le=100)]] = {}


class RootLengths(Section):
    touch_up_from_mm: Number = Field(default=10, gt=0, le=500)
    touch_up_by_mm: Number = Field(default=30, gt=0, le=500)
    growth_mm_per_day: Number = Field(default=0.35, ge=0.01, le=2)
    growth_sd: Number = Field(default=0.075, ge=0.0001, le=1)
    patch_test_hours: Number = Field(default=48, ge=0, le=1000)

    @model_validator(mode="after")
    def _order(self) -> "RootLengths":
        if self.touch_up_by_mm <= self.touch_up_from_mm:
            raise ValueError("touch_up_by_mm must be more than touch_up_from_mm")
        return self


class Roots(RootLengths):
    by_kind: dict[str, RootLengths] = {}

    def of(self, kind: str) -> RootLengths:
        return self.by_kind.get(kind, self)


class Mixing(Section):
    minutes: Number = Field(default=5, ge=0, le=60)
    step_g: Number = Field(default=5, gt=0, le=100)
    second_bowl_g: Number = Field(default=10, gt=0, le=200)


class Dates(Section):
    order: Literal["dmy", "mdy", "ymd"] | None = None


class Numbers(Section):
    decimal: Literal[".", ","] | None = None


class Files(Section):
    encoding: str = "cp1252"

    @field_validator("encoding")
    @classmethod
    def _known(cls, name: str) -> str:
        try:
            codecs.lookup(name)
        except LookupError:
            raise ValueError(f"encoding {name!r} is not a known alphabet such as cp1252 or cp1250") from None
        return name


class Settings(Section):
    salon: SalonSection
    tax: Tax = Tax()
    hours: Hours = Hours(**dict.fromkeys(WEEKDAYS[:6], "09:00-18:00"))  # type: ignore[arg-type]
    costs: Costs = Costs()
    stock: Stock = Stock()
    accounting: Accounting = Accounting()
    accounts: Accounts = Accounts()
    wages: Wages = Wages()
    roots: Roots = Roots()
    mixing: Mixing = Mixing()
    tables: dict[str, str] = {}
    columns: dict[str, dict[str, str]] = {}
    words: dict[str, dict[str, str]] = {}
    dates: Dates = Dates()
    numbers: Numbers = Numbers()
    files: Files = Files()

    @property
    def of_reading(self) -> str:
        """All that says how exports are read, as JSON: a book made under other ones is not what a load would make."""
        salon = self.salon.model_dump_json(include={"currency", "timezone"})
        return salon + self.model_dump_json(include={"tables", "columns", "words", "dates", "numbers", "files"})

    @model_validator(mode="after")
    def _known_tables(self) -> "Settings":
        every_column = {name for table in TABLES.values() for name in table.names}
        for file, table in self.tables.items():
            if table and table not in TABLES:
                raise ValueError(
                    f'[tables] {file!r} = {table!r} is not a table; the tables are {", ".join(TABLES)}, and "" leaves '
                    "the file out"
                )
        for table, headings in self.columns.items():
            if table not in TABLES:
                raise ValueError(f"[columns.{table}] is not a table; the tables are {', '.join(TABLES)}")
            for heading, column in headings.items():
                if column and column not in TABLES[table].headings:
                    raise ValueError(f"[columns.{table}] {heading!r} = {column!r} is not a column of {table}")
        for column, own in self.words.items():
            if column not in every_column:
                raise ValueError(f"[words.{column}] is not a column of any table")
            known = _words_of(column)
            wrong = next((value for value in own.values() if known and value not in known), None)
            if wrong is not None:
                raise ValueError(f"[words.{column}] {wrong!r} is none of the words of {column}: {', '.join(known)}")
        return self


def _words_of(column: str) -> tuple[str, ...]:
    """The words a column of this name may hold, in any table; empty where it holds anything."""
    columns = [one for table in TABLES.values() for one in table.columns if one.name == column]
    yes_no = ("yes", "no") if any(one.type == "yes_no" for one in columns) else ()
    return (*yes_no, *dict.fromkeys(word for one in columns for word in one.words))


def _with_kinds(document: dict[str, Any]) -> dict[str, Any]:
    """Move [roots.<kind>] into by_kind, each kind starting from what [roots] itself says."""
    roots = document.get("roots")
    if not isinstance(roots, dict):
        return document
    if "by_kind" in roots:
        raise WorkStopped(f"{FILE_NAME}: [roots] by_kind is not a setting we know; write [roots.<kind>] instead.")
    common = {key: value for key, value in roots.items() if not isinstance(value, dict)}
    kinds = {key: value for key, value in roots.items() if isinstance(value, dict)}
    for kind in kinds:
        if kind not in SERVICE_KINDS:
            raise WorkStopped(
                f"{FILE_NAME}: [roots.{kind}] is not a kind of service; use one of {', '.join(SERVICE_KINDS)}."
            )
    by_kind = {kind: common | own for kind, own in kinds.items()}
    return document | {"roots": common | ({"by_kind": by_kind} if by_kind else {})}


def _sentence(error: ValidationError) -> str:
    """The first mistake as one sentence."""
    first = error.errors()[0]
    place = [str(part) for part in first["loc"] if part != "by_kind"]
    key = f"[{'.'.join(place[:-1])}] {place[-1]}" if len(place) > 1 else ".".join(place)
    key = f"{FILE_NAME}: {key}".rstrip(": ")
    if first["type"] == "extra_forbidden":
        return f"{key} is not a setting we know; check its spelling and section against the manual, or take it out."
    if first["type"] == "missing":
        return f'{key} is missing; write it, for example [salon] name = "My salon".'
    if first["type"] == "value_error":
        return f"{key}: {first['ctx']['error']}; correct it and run the command again."
    message = first["msg"][0].lower() + first["msg"][1:]
    return f"{key} is {first['input']!r}, but {message}; correct it and run the command again."


def parse_settings(text: str) -> Settings:
    """Settings from the text of salon.toml. Raises WorkStopped naming the key that is wrong."""
    try:
        document = tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise WorkStopped(f"{FILE_NAME} cannot be read: {error}; correct that line.") from None
    try:
        return Settings(**_with_kinds(document))
    except ValidationError as error:
        raise WorkStopped(_sentence(error)) from None


def read_settings(folder: Path) -> Settings:
    """Settings of the salon in this folder. Raises WorkStopped where there is none or a key is wrong."""
    if not folder.is_dir():
        raise WorkStopped(f"There is no folder {folder}; name the salon's folder with --salon.")
    path = folder / FILE_NAME
    if not path.is_file():
        raise WorkStopped(
            f'{folder} has no {FILE_NAME}; write one with at least [salon] and name = "…", and put exports in exports/.'
        )
    try:
        return parse_settings(path.read_text(encoding="utf-8-sig"))
    except UnicodeDecodeError:
        raise WorkStopped(f"{FILE_NAME} is not UTF-8 text; save it as UTF-8.") from None
