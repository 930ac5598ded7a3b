"""The sections of salon.toml about the work itself: what stands on the shelves, roots and bowls."""

from typing import Literal

from pydantic import Field, model_validator

from analytics.settings.accounts import Section
from analytics.settings.values import Number


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
