"""What was to be expected of each figure of a month from before that month alone, and the range its misses give it.

Sums and counts are taken by the usual open day and at constant prices, means of money at constant prices, shares as
they are; methods/steady_scale brings each to a scale on which it wobbles alike, methods/expectation says what was to be
expected there and how far that has missed. The range holds COVERED of a month's values if months go on as they went;
where few months lie before it, it is wide. There is none before LEAST_BEFORE months. Expected is at the month's own
prices, so that a price rise alone lifts nothing above it.

The daily clock (records/clock) does as well at a month (5.8 % outside, 74 % of the months without a fifth found,
against 77 %) but is fitted anew for each day it is asked on, a hundred times slower.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.definitions.results import AMOUNT
from analytics.methods import expectation as method
from analytics.methods import steady_scale as scale
from analytics.records.clients.due import STANDINGS
from analytics.records.months import price_levels as prices

Floats = NDArray[np.float64]

COVERED = 0.93  # on salons of tests/simulated/seasons one month in twenty lies outside
LEAST_BEFORE = 3  # months
BEYOND_SENSE = 1e15
USUAL_DAYS = 25.0  # of a month; any number would do
USUAL_THINGS = 30.0
TWICE = 2.0  # the first guess: things vary twice as much as by chance alone
SHARE_VARIES = 0.25  # a share of one thing, on its scale


@dataclass(frozen=True)
class Nature:
    """What a figure is: a `sum` of things (by open day, unless a `count` on one day), a `mean` or a `share` of them, or
    how far open days are `filled` by them.

    of: the measure that counts the things. price: the prices it goes by. spread: how far one thing's amount scatters
    beside it, for a mean; how far a share's wobble is from that of drawn lots, for a share.
    """

    kind: str
    of: str
    price: str | None = None
    spread: float = 1.0


NATURES = {
    "net_revenue": Nature("sum", "visits", prices.ALL),
    "gross_revenue": Nature("sum", "visits", prices.ALL_GROSS),
    "service_net": Nature("sum", "visits", prices.SERVICES),
    "visits": Nature("sum", "visits"),
    "clients": Nature("sum", "clients"),
    "new_clients": Nature("sum", "new_clients"),
    "average_visit": Nature("mean", "visits", prices.SERVICES, 0.4),
    "chair_hours": Nature("sum", "visits"),
    "occupied_share": Nature("filled", "visits"),
    "net_per_chair_hour": Nature("mean", "visits", prices.SERVICES, 0.3),
    "product_cost": Nature("sum", "bowls", prices.PRODUCT),
    "product_share": Nature("share", "visits", spread=0.2),
    "left_cost": Nature("sum", "weighed", prices.PRODUCT),
    "retail_net": Nature("sum", "retail_items", prices.RETAIL),
    "retail_share": Nature("share", "visits"),
    "discounts": Nature("sum", "discounted", prices.SERVICES),
    "tips": Nature("sum", "tipped"),
    "no_show_share": Nature("share", "due"),
    "no_show_empty_hours": Nature("sum", "missed"),
    "no_show_net": Nature("sum", "missed", prices.SERVICES),
    "cancelled_share": Nature("share", "called"),
    "cancelled_empty_hours": Nature("sum", "cancelled"),
    "rebooked_share": Nature("share", "visits"),
    "roots_ready": Nature("count", "roots_ready"),
    **{name: Nature("sum", name) for name in ("clients_due", "clients_came", *STANDINGS)},
}
PER_OPEN_DAY = {"net_per_open_day": "net_revenue", "gross_per_open_day": "gross_revenue"}
LOOKED_NEW = ("new_clients", "clients_due", "clients_came", *STANDINGS)
TOLD = pl.Schema(
    dict.fromkeys(("expected", "usual_low", "usual_high", "slope"), AMOUNT) | {"months_before": pl.Int64()}
)


@dataclass(frozen=True)
class Scaled:
    """A figure on its steady scale, per month: values, noise and guess of methods/expectation, and the way back."""

    values: Floats
    noise: Floats
    guess: Floats
    back: Callable[[Floats], Floats]


def expected(
    measured: pl.DataFrame, days: Floats, levels: Mapping[str, Floats], looks_new: NDArray[np.bool_]
) -> pl.DataFrame:
    """One row per month and figure of NATURES and PER_OPEN_DAY that is measured.

    Columns: month, figure, expected, usual_low, usual_high, slope (what a month adds where a year's drift is steady)
    and months_before (how many known months it rests on).
    measured: months in order, as of records/months/measures. days: usual open days of each. levels: of prices.
    looks_new: months so near the start of the book that everybody looks new.
    """
    figures = [figure for figure in NATURES if figure in measured.columns]
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        each = {figure: _scaled(figure, measured, days, levels, looks_new) for figure in figures}
        parts = (np.array([getattr(one, name) for one in each.values()]) for name in ("values", "noise", "guess"))
        found = method.expectation(*(part.reshape(len(each), measured.height) for part in parts))
        told = [_told(one, found, at) for at, one in enumerate(each.values())]
    of_figures = pl.DataFrame({"figure": figures, "month": [measured["month"]] * len(figures)}).explode("month")
    long = of_figures.select("month", "figure").hstack(
        pl.DataFrame({name: np.concatenate([one[name] for one in told]) for name in TOLD}, nan_to_null=True).cast(TOLD)
    )
    return pl.concat([long, *_per_open_day(long, measured)])


def _scaled(
    figure: str, measured: pl.DataFrame, days: Floats, levels: Mapping[str, Floats], looks_new: NDArray[np.bool_]
) -> Scaled:
    nature = NATURES[figure]
    value, things = _floats(measured, figure), np.nan_to_num(_floats(measured, nature.of))
    level = levels[nature.price] if nature.price else np.ones(len(value))
    open_at_all = np.where(days > 0, days, np.nan)
    visited = np.where(_floats(measured, "visits") > 0, 1.0, np.nan)  # a month without anybody says nothing of the next
    if nature.kind == "sum":
        told = np.where(looks_new & (figure in LOOKED_NEW), np.nan, visited)
        return _sum(value * told, things, level, open_at_all / USUAL_DAYS)
    if nature.kind == "filled":
        opened = _floats(measured, "open_days")
        hours = _sum(value * visited * opened, things, level, open_at_all / USUAL_DAYS)
        return replace(hours, back=lambda middle: np.clip(hours.back(middle) / opened, 0, 1))
    if nature.kind == "count":
        return _sum(value * visited, things, level, np.ones(len(value)))
    few = np.maximum(things, 1.0)
    noise = USUAL_THINGS / few
    if nature.kind == "mean":
        values = np.log(np.where(value > 0, value / level, np.nan))
        return Scaled(values, noise, _guess(nature.spread**2, few), lambda middle: np.exp(middle) * level)
    guess = _guess(nature.spread * SHARE_VARIES, few)
    return Scaled(scale.of_shares(value, few), noise, guess, lambda middle: scale.shares_of(middle, few))


def _guess(varies: float, things: Floats) -> Floats:
    return np.full(len(things), TWICE * varies / USUAL_THINGS)


def _sum(value: Floats, things: Floats, level: Floats, per: Floats) -> Scaled:
    """A sum of things over so many usual months of open days."""
    rate = value / level / per
    unit = np.full(len(value), _unit(value / level, things))
    begun = np.cumsum(~np.isnan(rate)) - ~np.isnan(rate)
    usual = (np.cumsum(np.nan_to_num(rate)) - np.nan_to_num(rate)) / np.maximum(begun, 1)
    guess = TWICE * scale.variance_of_sums(np.where(begun > 0, np.maximum(usual, 0), unit), unit)
    return Scaled(scale.of_sums(rate, unit), 1 / per, guess, lambda middle: scale.sums_of(middle, unit) * per * level)


def _unit(value: Floats, things: Floats) -> float:
    """What one thing brought in the first month that had any."""
    had = np.flatnonzero((things > 0) & (value > 0))
    return float(value[had[0]] / things[had[0]]) if len(had) else 1.0


def _floats(measured: pl.DataFrame, column: str) -> Floats:
    out: Floats = measured[column].cast(pl.Float64).fill_null(np.nan).to_numpy()
    return out


def _told(one: Scaled, found: method.Expectation, at: int) -> dict[str, Floats]:
    """The columns of one figure; NaN where too few months lie before, or amounts are beyond all sense."""
    reach = scale.student(COVERED, found.freedom[at]) * found.spread[at]
    middle, slope = found.middle[at], found.slope[at]
    amounts = {
        "expected": one.back(middle),
        "usual_low": one.back(middle - reach),
        "usual_high": one.back(middle + reach),
        "slope": one.back(middle + slope / 2) - one.back(middle - slope / 2),
    }
    before = np.cumsum(~np.isnan(one.values)) - ~np.isnan(one.values)
    enough = (before >= LEAST_BEFORE) & (amounts["usual_high"] < BEYOND_SENSE)
    columns: dict[str, Floats] = {name: np.where(enough, np.round(of, 4), np.nan) for name, of in amounts.items()}
    return columns | {"months_before": before.astype(np.float64)}


def _per_open_day(long: pl.DataFrame, measured: pl.DataFrame) -> list[pl.DataFrame]:
    """What holds for a month's money, by its open days."""
    amounts, days = pl.col("expected", "usual_low", "usual_high", "slope"), pl.col("open_days").cast(pl.Float64)
    per_day = [name for name in PER_OPEN_DAY if name in measured.columns]
    if not per_day:
        return []
    by_day = (
        long.filter(pl.col("figure").is_in(PER_OPEN_DAY.values()))
        .join(measured.select("month", "open_days"), on="month", maintain_order="left")
        .with_columns(pl.when(days > 0).then(amounts.cast(pl.Float64) / days).round(4).cast(AMOUNT))
        .drop("open_days")
    )
    return [by_day.filter(figure=PER_OPEN_DAY[name]).with_columns(figure=pl.lit(name)) for name in per_day]
