"""How dear each month was beside the first: a chained index of the prices of what was done and sold.

Each month's step is the mean change of the logarithm of the median price of every item since it was last sold, weighted
by the mean of its shares of the money then and now (Törnqvist's index, chained; ILO/IMF Consumer Price Index Manual
2020, ch. 1; from memory). An item's first price is no change, and neither is a discount.
"""

from collections.abc import Mapping

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.periods import Period, in_spans

Floats = NDArray[np.float64]

SERVICES, RETAIL, ALL, ALL_GROSS, PRODUCT = "services", "retail", "all", "all_gross", "product"


def price_levels(
    lines: pl.DataFrame, retail: pl.DataFrame, log: pl.DataFrame | None, spans: Mapping[str, Period]
) -> dict[str, Floats]:
    """Per group of prices: one level per span, in order; the first is 1, and none without a price before it moves.

    services, retail and all of them without tax, all_gross with it; product: what a gram mixed costs, where a log is
    given.
    """
    held = {name: span for name, span in spans.items() if not span.empty}
    done = _priced(in_spans(lines, "starts_at", held), "service_id")
    sold = _priced(in_spans(retail, "sold_at", held), "product_id")
    both = pl.concat([done, sold.with_columns(item=pl.lit("retail ") + pl.col("item"))])
    groups = {SERVICES: done, RETAIL: sold, ALL: both, ALL_GROSS: both.with_columns(price="gross_price")}
    if log is not None:
        groups[PRODUCT] = in_spans(log, "logged_at", held).select(
            "month", item="product_id", price=_number("mixed_cost") / _number("mixed_g"), amount=_number("mixed_cost")
        )
    return _levels(groups, list(spans))


def _number(column: str) -> pl.Expr:
    return pl.col(column).cast(pl.Float64)


def _priced(rows: pl.DataFrame, item: str) -> pl.DataFrame:
    """month, item, price and gross_price of one before discount, and amount: what all brought without tax."""
    each = _number("price") / _number("charged")
    return rows.filter((pl.col("price") > 0) & (pl.col("charged") > 0)).select(
        "month",
        item=item,
        price=each * _number("net"),
        gross_price=each * _number("gross"),
        amount=_number("net"),
    )


def _levels(groups: Mapping[str, pl.DataFrame], months: list[str]) -> dict[str, Floats]:
    """groups: rows of month, item, price of one, and amount."""
    item, weight = ["group", "item"], pl.col("share") + pl.col("share").shift()
    every = [
        rows.select(pl.lit(name).alias("group"), "month", "item", "price", "amount") for name, rows in groups.items()
    ]
    steps = (
        pl.concat(every)
        .lazy()
        .filter((pl.col("price") > 0) & (pl.col("amount") > 0) & pl.col("item").is_not_null())
        .group_by(*item, "month")
        .agg(pl.col("price").median(), pl.col("amount").sum())
        .sort(*item, "month")
        .with_columns(share=pl.col("amount") / pl.col("amount").sum().over("group", "month"))
        .with_columns(rise=pl.col("price").log().diff().over(item), weight=weight.over(item))
        .drop_nulls("rise")
        .group_by("group", "month", maintain_order=True)
        .agg(step=(pl.col("rise") * pl.col("weight")).sum() / pl.col("weight").sum())
        .collect()
    )
    place = {month: at for at, month in enumerate(months)}
    logarithms = {name: np.zeros(len(months)) for name in groups}
    for group, month, step in steps.iter_rows():
        logarithms[group][place[month]] = step
    return {name: np.exp(np.cumsum(rises)) for name, rises in logarithms.items()}
