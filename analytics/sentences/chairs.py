"""What an hour in the chair brought, and which services carry a taken hour or cover at least their own open time."""

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


def costs_of(chairs: pl.DataFrame, month: str) -> tuple[float | None, float | None]:
    """What an open chair hour of the month costs and what a taken one must carry; None without costs or hours."""
    found = chairs.filter(month=month).head(1).to_dicts()
    return (found[0]["cost_per_open_hour"], found[0]["cost_per_taken_hour"]) if found else (None, None)


def _under(chairs: pl.DataFrame, settings: Settings, month: str) -> str:
    opened, taken = costs_of(chairs, month)
    if opened is None or taken is None:
        return "salon.toml names no costs per month, so no service is compared with them"
    under = under_cost(chairs, month)
    hour = f"the {wording.money(taken, settings)} that a taken hour must, product paid"
    if not under:
        return f"every service carries {hour}"
    not_even = [row for row in under if not row["covers_open_hour"]]
    carry = "service does not carry" if len(under) == 1 else "services do not carry"
    more = (
        f", {len(not_even)} of them not even the {wording.money(opened, settings)} of an open hour" if not_even else ""
    )
    return f"{len(under)} {carry} {hour}{more}"


def under_sentence(chairs: pl.DataFrame, settings: Settings, month: str) -> str:
    """Which services do not carry a taken hour, with what they bring; empty where every one does."""
    parts = [
        f"{row['service']} ({wording.money(row['after_product_per_chair_hour'], settings)})"
        for row in under_cost(chairs, month)
    ]
    return (
        f"Less than a taken hour must carry, after product and per chair hour: {wording.listed(parts)}."
        if parts
        else ""
    )


def under_cost(chairs: pl.DataFrame, month: str) -> list[Row]:
    """The month's services whose chair hours, product paid, bring less than a taken one must carry; lowest first."""
    lines = chairs.filter((pl.col("month") == month) & (pl.col("lines") > 0) & ~pl.col("carries_taken_hour"))
    return lines.sort("after_product_per_chair_hour", "service_id").to_dicts()
