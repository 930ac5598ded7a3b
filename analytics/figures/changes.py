"""Why net revenue changed: price, volume and mix of each service, against the month before and the year before.

Volume is what the service would have changed by had all services grown as the number of all lines did; mix is what it
grew or shrank beyond that, at its average price before; price is the rest of its change, which is what the average net
charged for a line (discounts taken off) changed by, times the lines now. A service that was not sold before has no
price before: it is mix. A refund is no line sold; it takes its net off, which shows as price. Retail is one row, split
within itself by product and pieces. Price, volume and mix add up to the change of their row to the cent, and the
changes to the difference of net revenue of the two months. A part-month stands against the same days.
"""

from collections.abc import Callable, Mapping
from datetime import date
from fractions import Fraction

import polars as pl

from analytics.definitions.results import (
    COMPARED,
    COMPARISONS,
    MONEY,
    MONTH_KEY,
    QUANTITY,
    TEXT,
    Column,
    Figure,
    Result,
)
from analytics.methods.price_volume_mix import Sold, price_volume_mix
from analytics.money import digits_of, round_parts
from analytics.periods import Period, in_spans
from analytics.records.chairs.lines import completed_lines
from analytics.records.money.earned import by_retail_product, by_service
from analytics.records.product.retail import retail_rows
from analytics.settings import Settings

RESULT = Result(
    "one row per month, comparison and service, and one for retail",
    key=("month", "compared_with", "service_id"),
    columns={
        **MONTH_KEY,
        **COMPARED,
        "service_id": Column(TEXT, "line of the menu; empty for retail"),
        "service": Column(TEXT, "its name"),
        "kind": Column(TEXT, "kind of work, or retail"),
        "quantity": Column(QUANTITY, "completed lines; pieces for retail"),
        "quantity_before": Column(QUANTITY, "the same of the month compared with"),
        "net": Column(MONEY, "charged, without tax"),
        "net_before": Column(MONEY, "the same of the month compared with"),
        "change": Column(MONEY, "net − net before"),
        "price_effect": Column(MONEY, "of the change, from what a line brought"),
        "volume_effect": Column(MONEY, "of the change, from how many lines there were in all"),
        "mix_effect": Column(MONEY, "of the change, from more of this and less of that"),
    },
)

Earned = Callable[[pl.DataFrame, Mapping[str, Period]], pl.DataFrame]
KEY = ["compared_with", "month"]
SUMS = ["quantity", "quantity_before", "net", "net_before", "change", "price_effect", "volume_effect", "mix_effect"]


def changes(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    sales: pl.DataFrame,
    products: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
    cover: Period,
    as_of: date,
) -> pl.DataFrame:
    """One row per month, comparison that the cover reaches back to, and service sold in either; in the currency."""
    lines, retail = completed_lines(bookings, services, settings), retail_rows(sales, products, settings)
    digits = digits_of(settings.salon.currency)
    sides = (period, cover, as_of)
    of_services = _split(_both(by_service, lines, *sides), digits)
    of_retail = _split(_both(by_retail_product, retail, *sides), digits)
    one_row = of_retail.group_by(*KEY, "service", "kind").agg(pl.col(SUMS).sum())
    return RESULT.shape(
        pl.concat([of_services.rename({"item": "service_id"}), one_row], how="diagonal").sort(
            *KEY, "service_id", nulls_last=True
        )
    ).sort("month", maintain_order=True)


def changes_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """The completed lines of the later side."""
    return in_spans(completed_lines(bookings, services, settings), "starts_at", period.parts())


def _both(earned: Earned, rows: pl.DataFrame, period: Period, cover: Period, as_of: date) -> pl.DataFrame:
    """Per comparison, month and item sold on either side: quantity and net now and before, and the change."""
    return pl.concat(
        _paired(earned, rows, period.parts(), period.same_days(months, cover, as_of)).with_columns(
            compared_with=pl.lit(name)
        )
        for name, months in COMPARISONS.items()
    ).sort(*KEY, "item")


def _paired(
    earned: Earned, rows: pl.DataFrame, now: Mapping[str, Period], before: Mapping[str, Period]
) -> pl.DataFrame:
    later = earned(rows, {month: now[month] for month in before})
    earlier = earned(rows, before)
    return later.join(earlier, on=["month", "item"], how="full", coalesce=True, suffix="_before").select(
        "month",
        "item",
        service=pl.coalesce("service", "service_before"),
        kind=pl.coalesce("kind", "kind_before"),
        quantity=pl.col("quantity").fill_null(0),
        quantity_before=pl.col("quantity_before").fill_null(0),
        net=pl.col("net").fill_null(0),
        net_before=pl.col("net_before").fill_null(0),
        change=pl.col("net").fill_null(0) - pl.col("net_before").fill_null(0),
    )


def _split(pairs: pl.DataFrame, digits: int) -> pl.DataFrame:
    """Pairs with their effects; price and volume of a month are rounded as a whole and shared by largest remainder."""
    schema = pairs.schema | {"price_effect": MONEY.dtype, "volume_effect": MONEY.dtype}
    months = [_effects(month, digits) for _, month in pairs.group_by(KEY, maintain_order=True)]
    return pl.concat([pl.DataFrame(schema=schema), *months]).with_columns(
        mix_effect=pl.col("change") - pl.col("price_effect") - pl.col("volume_effect")
    )


def _effects(month: pl.DataFrame, digits: int) -> pl.DataFrame:
    effects = price_volume_mix(_sold(month, "_before"), _sold(month, ""))
    price = round_parts([effect.price for effect in effects], digits)
    volume = round_parts([effect.volume for effect in effects], digits)
    rounded = {"price_effect": price, "volume_effect": volume}
    return month.with_columns(pl.Series(name, amounts, MONEY.dtype) for name, amounts in rounded.items())


def _sold(month: pl.DataFrame, side: str) -> list[Sold]:
    pairs = month.select(f"quantity{side}", f"net{side}").iter_rows()
    return [Sold(Fraction(quantity), Fraction(amount)) for quantity, amount in pairs]


FIGURE = Figure(changes, changes_rows, RESULT)
