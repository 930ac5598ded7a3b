"""salon.toml as one frozen object: every section and key with its default and its meaning.

The defaults stated here and in the sections beside it (accounts, money, work) are the ones the reference prints:
nothing else knows them.
"""

from datetime import date
from functools import cache
from typing import Literal
from zoneinfo import available_timezones

from babel import Locale, UnknownLocaleError
from pydantic import Field, field_validator, model_validator

from analytics.money import is_currency
from analytics.settings.accounts import Accounts, Section
from analytics.settings.money_sections import Accounting, Costs, Tax, Wages
from analytics.settings.names import wrong_column, wrong_constant, wrong_table, wrong_word
from analytics.settings.values import Days, Number, Span, Spans, Texts
from analytics.settings.work_sections import Mixing, Roots, Stock

SPANS_SAY = (
    'spans such as "09:00-12:30, 13:30-18:00"; a day left out is closed; a span may end after midnight. Without '
    "[hours], Monday to Saturday 09:00-18:00"
)
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@cache
def _timezones() -> frozenset[str]:
    """Looked for on the disk, which takes longer than all else that is read of the settings."""
    return frozenset(available_timezones())


class SalonSection(Section):
    name: str = Field(min_length=1, description="the salon's name")
    currency: str = Field(default="EUR", description="ISO 4217 code")
    locale: str = Field(default="en_GB", description="how numbers, money and the order of a date are written")
    timezone: str = Field(default="Europe/Amsterdam", description="where the wall clock hangs")
    chairs: Texts = Field(default=(), description="names of the chairs, a list; by default those seen")
    open_chairs: Literal["all", "at_work"] = Field(
        default="all",
        description='chairs that count as open on a day: "all", or no more than stylists "at_work" that day, by the '
        "bookings; all by default, since a stylist who waits for nobody stands in no booking",
    )

    @model_validator(mode="after")
    def _known(self) -> "SalonSection":
        if not is_currency(self.currency):
            raise ValueError(f"currency {self.currency!r} is not a three-letter ISO 4217 code such as EUR")
        if self.timezone not in _timezones() or self.timezone in ("localtime", "Factory"):
            raise ValueError(f"timezone {self.timezone!r} is not a known zone such as Europe/Amsterdam")
        try:
            Locale.parse(self.locale)
        except (UnknownLocaleError, ValueError):
            raise ValueError(f"locale {self.locale!r} is not a known one such as en_GB") from None
        return self


class Hours(Section):
    """Opening hours; where salon.toml has no [hours] at all, Monday to Saturday 09:00-18:00 is taken."""

    mon: Spans = Field(default=(), description=SPANS_SAY)
    tue: Spans = Field(default=(), description=SPANS_SAY)
    wed: Spans = Field(default=(), description=SPANS_SAY)
    thu: Spans = Field(default=(), description=SPANS_SAY)
    fri: Spans = Field(default=(), description=SPANS_SAY)
    sat: Spans = Field(default=(), description=SPANS_SAY)
    sun: Spans = Field(default=(), description=SPANS_SAY)
    closed: Days = Field(default=(), description='closed days such as ["2026-12-25"]')

    def of(self, day: date) -> tuple[Span, ...]:
        spans: tuple[Span, ...] = () if day in self.closed else getattr(self, WEEKDAYS[day.weekday()])
        return spans


class Dates(Section):
    order: Literal["dmy", "mdy", "ymd"] | None = Field(
        default=None, description='"dmy", "mdy" or "ymd", for files that leave it open'
    )


class Numbers(Section):
    decimal: Literal[".", ","] | None = Field(
        default=None, description='"." or ",", for files that leave open what 1.234 is'
    )


class Files(Section):
    encoding: str = Field(
        default="cp1252", description="the alphabet of text files that are not Unicode, for example cp1250"
    )

    @field_validator("encoding")
    @classmethod
    def _known(cls, name: str) -> str:
        try:
            "a".encode(name)  # of nothing at all no name is looked up
        except (LookupError, UnicodeError, ValueError):  # of no name we know, or not of text
            raise ValueError(f"encoding {name!r} is not a known alphabet such as cp1252 or cp1250") from None
        return name


class Access(Section):
    stylists_see: Literal["own", "all"] = Field(
        default="own", description='"own" or "all": whose clients somebody who signs in as a stylist sees'
    )
    signed_in_hours: Number = Field(
        default=12,
        ge=0.25,
        le=24 * 7,
        description="how long a sign-in on a phone lasts until the passphrase is asked for",
    )


class Keeping(Section):
    months_without_visit: int | None = Field(
        default=None,
        ge=1,
        le=1200,
        description="after so many months without a visit a client's records should go; by default they are kept until "
        "they are erased. Nothing goes by itself, and how long records must be kept for tax is a local rule",
    )


READING = {"tables", "columns", "words", "constants", "dates", "numbers", "files"}
"""Sections that say how exports are read."""


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
    tables: dict[str, str] = Field(
        default={}, description='"name of an export" = "table", or "" to leave it out; `*` stands for anything'
    )
    columns: dict[str, dict[str, str]] = Field(
        default={},
        description='[columns.<table>] "Heading in the export" = "column", or "" for one that is not to be used',
    )
    words: dict[str, dict[str, str]] = Field(
        default={}, description='[words.<column>] "Word in the export" = "word of the column"'
    )
    constants: dict[str, dict[str, str]] = Field(
        default={},
        description='[constants.<file>] column = "what all rows of the file say", such as method = "card"; '
        'amounts = "cents" for a file that writes them so',
    )
    dates: Dates = Dates()
    numbers: Numbers = Numbers()
    files: Files = Files()
    access: Access = Access()
    keeping: Keeping = Keeping()

    @property
    def of_reading(self) -> str:
        """All that says how exports are read, as JSON: a book made under other ones is not what a load would make."""
        salon = self.salon.model_dump_json(include={"currency", "timezone"})
        return salon + self.model_dump_json(include=READING)

    @model_validator(mode="after")
    def _known_names(self) -> "Settings":
        for wrong in (
            wrong_table(self.tables),
            wrong_column(self.columns),
            wrong_word(self.words),
            wrong_constant(self.constants),
        ):
            if wrong:
                raise ValueError(wrong)
        return self
