"""What an hour in the chair brought, and which services cover their own open time."""

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.sentences.judged import against, row_of
from analytics.settings import Settings


def chairs_sentence(chairs: pl.DataFrame, month_frame: pl.DataFrame, settings: Settings, month: str) -> str:
    """What an hour in the chair brought, whether that is news, and how many services do not cover their open time."""
    title, row = wording.month_title(month, settings), row_of(month_frame, month, "net_per_chair_hour")
    if row is None or row["value"] is None:
        return f"No chair was taken in {title}, so there is nothing to divide."
    brought = wording.money(row["value"], settings)
    if row["part_month"]:
        start = f"So far in {title}, an hour in the chair has brought {brought} net; the month is not over"
    else:
        start = f"An hour in the chair brought {brought} net in {title}{against(row, settings)}"
    return f"{start}; {_under(chairs, settings, month)}."


def cost_of(chairs: pl.DataFrame, month: str) -> float | None:
    """What an open chair hour of the month costs; None without costs or open hours."""
    costs = chairs.filter(pl.col("month") == month)["cost_per_open_hour"]
    return costs[0] if costs.len() else None


def _under(chairs: pl.DataFrame, settings: Settings, month: str) -> str:
    cost = cost_of(chairs, month)
    if cost is None:
        return "salon.toml names no costs per month, so no service is compared with them"
    count, hour = len(under_cost(chairs, month)), f"({wording.money(cost, settings)} an open chair hour), product paid"
    if not count:
        return f"every service covers its own open time {hour}"
    cover = "service does not cover its" if count == 1 else "services do not cover their"
    return f"{count} {cover} own open time {hour}"


def under_sentence(chairs: pl.DataFrame, settings: Settings, month: str) -> str:
    """Which services do not cover their own open time, with what they bring; empty where every one does."""
    parts = [
        f"{row['service']} ({wording.money(row['after_product_per_chair_hour'], settings)})"
        for row in under_cost(chairs, month)
    ]
    return f"Less than it costs, after product and per chair hour: {wording.listed(parts)}." if parts else ""


def under_cost(chairs: pl.DataFrame, month: str) -> list[Row]:
    """The month's services whose chair hours, product paid, bring less than an open one costs; lowest first."""
    lines = chairs.filter((pl.col("month") == month) & (pl.col("lines") > 0) & ~pl.col("clears_cost"))
    return lines.sort("after_product_per_chair_hour", "service_id").to_dicts()
