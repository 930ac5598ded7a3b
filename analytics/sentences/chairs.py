"""What an hour in the chair brought, and what an open one costs."""

import polars as pl

from analytics import wording
from analytics.sentences.judged import against, row_of
from analytics.settings import Settings


def chairs_sentence(
    chairs: pl.DataFrame, month_frame: pl.DataFrame, cost: float | None, settings: Settings, month: str
) -> str:
    """What an hour in the chair brought, whether that is news, and how many services stay under its cost."""
    title, row = wording.month_title(month, settings), row_of(month_frame, month, "net_per_chair_hour")
    if row is None or row["value"] is None:
        return f"No chair was taken in {title}, so there is nothing to divide."
    brought = wording.money(row["value"], settings)
    if row["part_month"]:
        start = f"So far in {title}, an hour in the chair has brought {brought} net; the month is not over"
    else:
        start = f"An hour in the chair brought {brought} net in {title}{against(row, settings)}"
    return f"{start}; {_under(chairs, cost, settings)}."


def _under(chairs: pl.DataFrame, cost: float | None, settings: Settings) -> str:
    if cost is None:
        return "salon.toml names no costs per month, so no service is held against them"
    names, price = under_cost(chairs, cost), wording.money(cost, settings)
    if not names:
        return f"every service clears the {price} an open chair hour costs, product paid"
    stay = "service stays" if len(names) == 1 else "services stay"
    return f"{len(names)} {stay} under the {price} an open chair hour costs, product paid"


def under_sentence(chairs: pl.DataFrame, cost: float | None, settings: Settings) -> str:
    """Which services stay under the cost of an open chair hour, with what they bring; empty where none does."""
    names = [] if cost is None else under_cost(chairs, cost)
    brings = dict(chairs.select("service", "after_product_per_chair_hour").iter_rows())
    parts = [f"{name} ({wording.money(brings[name], settings)})" for name in names]
    return f"Under it, after product and per chair hour: {wording.listed(parts)}." if parts else ""


def under_cost(chairs: pl.DataFrame, cost: float) -> list[str]:
    """Services whose net per chair hour, product paid, stays under the cost of an open chair hour; lowest first."""
    lines = chairs.filter((pl.col("lines") > 0) & (pl.col("after_product_per_chair_hour") < cost))
    return [str(name) for name in lines.sort("after_product_per_chair_hour", "service_id")["service"]]


def cost_per_open_hour(occupancy: pl.DataFrame, settings: Settings) -> float | None:
    """Costs per month × months ÷ open chair hours of those months; None without costs or open hours."""
    opened = float(occupancy["open_hours"].sum())
    months = occupancy["month"].n_unique()
    return float(settings.costs.per_month) * months / opened if opened > 0 and settings.costs.per_month else None
