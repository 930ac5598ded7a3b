"""The sections of salon.toml about money: tax, costs, what of the books is done how, and wages."""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import Field

from analytics.settings.accounts import Section
from analytics.settings.values import Exact, Texts

Owed = Annotated[Exact, Field(ge=0, le=10**9)]


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
