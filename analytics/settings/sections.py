"""salon.toml as one frozen object: every section and key with its default and its meaning.

The defaults stated here are the ones the reference prints: this file is the only place that knows them.
"""

from datetime import date
from decimal import Decimal
from functools import cache
from typing import Annotated, Literal
from zoneinfo import available_timezones

from babel import Locale, UnknownLocaleError
from pydantic import Field, field_validator, model_validator

from analytics.money import is_currency
from analytics.settings.accounts import Accounts, Section
from analytics.settings.names import wrong_column, wrong_constant, wrong_table, wrong_word
from analytics.settings.values import Days, Exact, Number, Span, Spans, Texts

SPANS_SAY = (
    'spans such as "09:00-12:30, 13:30-18:00"; a day left out is closed; a span may end after midnight. Without '
    "[hours], Monday to Saturday 09:00-18:00"
)
WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@cache
def _timezones() -> frozenset[str]:
    """Looked for on the disk, which takes longer than all else that is read of the settings."""
    return frozenset(available_timezones())


Owed = Annotated[Exact, Field(ge=0, le=10**9)]


class SalonSection(Section):
    name: str = Field(min_length=1, description="the salon's name")
    currency: str = Field(default="EUR", description="ISO 4217 code")
    locale: str = Field(default="en_GB", description="how numbers, money and the order of a date are written")
    timezone: str = Field(default="Europe/Amsterdam", description="where the wall clock hangs")
    chairs: Texts = Field(default=(), description="names of the chairs, a list; by default those seen")

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


class Tax(Section):
    prices: Literal["included", "added"] = Field(
        default="included", description='tax is "included" in prices or "added" to them'
    )
    round_per: Literal["booking", "line"] = Field(
        default="booking", description='tax is rounded per "booking" and rate, or per "line"'
    )
    default_rate: Exact = Field(
        default=Decimal(21),
        ge=0,
        le=100,
        decimal_places=4,
        description="percent, where neither row nor product names a rate",
    )


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


class Costs(Section):
    per_month: Exact = Field(
        default=Decimal(0),
        ge=0,
        le=10**9,
        description="rent, energy, wages…, without tax: the cost of the open chair hours",
    )
    card_fee_percent: Exact = Field(
        default=Decimal(0),
        ge=0,
        le=100,
        description="what card payments cost, percent; assumed for the accountant where no payment states a fee",
    )
    target_per_chair_hour: Exact = Field(
        default=Decimal(0),
        ge=0,
        le=10**9,
        description="what an hour in a chair should bring, product paid; 0: no target",
    )


class Stock(Section):
    """delivery_days, cover_weeks and service_level are common practice: an order a month, there within three days, and
    of twenty orders one that runs short before the next."""

    valuation: Literal["average", "fifo"] = Field(
        default="average", description='stock at cost by moving "average" or first in, first out: "fifo"'
    )
    unsaleable_after_days: int = Field(
        default=365,
        ge=0,
        le=36500,
        strict=True,
        description="days without a movement other than a count after which a product is written down to nothing "
        "(IAS 2); 0: never",
    )
    delivery_days: int = Field(default=3, ge=0, le=365, strict=True, description="days from an order to its delivery")
    cover_weeks: Number = Field(default=4, gt=0, le=104, description="weeks an order has to last")
    service_level: Number = Field(
        default=0.95,
        ge=0.5,
        le=0.999,
        description="share of orders that last until the next one comes (0.5–0.999)",
    )


class Accounting(Section):
    tolerance: Exact = Field(
        default=Decimal(0),
        ge=0,
        le=10**6,
        description="a visit's difference up to this amount is listed, but counts as agreed",
    )
    tips: Literal["outside", "inside"] = Field(
        default="outside",
        description='"outside" the tax (freely given) or "inside" (a compulsory charge, taxed at its line\'s rate)',
    )
    vouchers: Literal["multi_purpose", "single_purpose"] = Field(
        default="multi_purpose",
        description='"multi_purpose": taxed when used; "single_purpose": taxed when sold',
    )
    voucher_tax_rate: Exact | None = Field(
        default=None,
        ge=0,
        le=100,
        decimal_places=4,
        description="percent, for single-purpose vouchers; by default [tax] default_rate",
    )
    deposits: Literal["on_receipt", "on_service"] | None = Field(
        default=None,
        description='a deposit is taxed "on_receipt", where its visit says at which rate (Directive 2006/112/EC art. '
        '65), or "on_service", with its visit; by default the first where prices include tax, else the second',
    )
    missed_deposits: Literal["returned", "kept"] = Field(
        default="returned",
        description='after a no-show a deposit is still owed until it is "returned", or it is "kept" as income',
    )
    kept_deposits: Literal["outside", "inside"] = Field(
        default="outside",
        description='a deposit that is kept is "outside" the tax (a compensation, C-277/05) or "inside" (C-295/17), '
        "both from memory: ask whoever does your tax return",
    )
    vouchers_opening: Owed | dict[str, Owed] = Field(
        default=Decimal(0),
        description="owed for vouchers sold before the records begin, an amount, or in a group { North = 60 }",
    )
    voucher_months: int | None = Field(
        default=None,
        ge=1,
        le=600,
        strict=True,
        description="how long a voucher may be used that says nothing of it, months; by default for ever",
    )
    breakage: Literal["at_expiry", "in_proportion"] = Field(
        default="at_expiry",
        description='what is never used of vouchers is earned "at_expiry", or "in_proportion" to what is used',
    )
    breakage_percent: Exact = Field(
        default=Decimal(0),
        ge=0,
        lt=100,
        decimal_places=4,
        description="of what is paid for vouchers, the percent never used; earned in proportion to what is used",
    )
    exempt: Texts = Field(
        default=(),
        description="of the services and products at 0 %, the ids that are exempt; the others are zero-rated",
    )


class Wages(Section):
    per_hour: dict[str, Annotated[Exact, Field(ge=0, le=10**9)]] = Field(
        default={}, description="by stylist, such as { Mila = 18.5 }: adds hours and a wages base to the folder"
    )
    share_percent: dict[str, Annotated[Exact, Field(ge=0, le=100)]] = Field(
        default={}, description="by stylist, percent of the net revenue of her lines: adds it to the wages base"
    )


class RootLengths(Section):
    touch_up_from_mm: Number = Field(default=10, gt=0, le=500, description="regrowth at which a touch-up makes sense")
    touch_up_by_mm: Number = Field(default=30, gt=0, le=500, description="regrowth one root application still covers")
    growth_mm_per_day: Number = Field(default=0.35, ge=0.01, le=2, description="growth before anything was measured")
    growth_sd: Number = Field(default=0.075, ge=0.0001, le=1, description="its spread (standard deviation), mm a day")
    patch_test_hours: Number = Field(
        default=48,
        ge=0,
        le=1000,
        description="how long before a colour visit you plan the skin test; the maker's leaflet decides",
    )

    @model_validator(mode="after")
    def _order(self) -> "RootLengths":
        if self.touch_up_by_mm <= self.touch_up_from_mm:
            raise ValueError("touch_up_by_mm must be more than touch_up_from_mm")
        return self


class Roots(RootLengths):
    by_kind: dict[str, RootLengths] = Field(default={}, description="any key of [roots] for one kind of service")

    def of(self, kind: str) -> RootLengths:
        return self.by_kind.get(kind, self)


class Mixing(Section):
    minutes: Number = Field(default=5, ge=0, le=60, description="chair minutes that mixing again takes")
    step_g: Number = Field(
        default=5, gt=0, le=100, description="grams that advised amounts are rounded to, as a scale and a tube allow"
    )
    second_bowl_g: Number = Field(
        default=10,
        gt=0,
        le=200,
        description="the least that is mixed again when a bowl runs out, grams of colour or lightener",
    )


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
            b"".decode(name)
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
