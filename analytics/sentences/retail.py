"""What retail brought, what of it stays, and in how many visits something was sold."""

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.sentences.judged import against, row_of
from analytics.settings import Settings

SELLS_MORE = pl.col("share") > pl.col("like_share")


def retail_sentence(retail: pl.DataFrame, month_frame: pl.DataFrame, settings: Settings, month: str) -> str:
    """Net and margin of the month's retail, whether that is news, and the share of visits with a sale."""
    title = wording.month_title(month, settings)
    sold = retail.filter(pl.col("month") == month)
    if sold.is_empty():
        return f"Nothing was sold over the counter in {title}."
    all_of_it, row = sold.row(0, named=True), row_of(month_frame, month, "retail_net")
    net = wording.money(all_of_it["month_net"], settings)
    pieces = wording.counted(int(all_of_it["month_units"]), "piece", "pieces", settings)
    start = "So far " if row is not None and row["part_month"] else ""
    news = against(row, settings) if row is not None and not row["part_month"] else ""
    brought = f"{start}{title} brought {net} net from {pieces} of retail{news}"
    return f"{brought}{_left(all_of_it, settings)}{_in_visits(all_of_it, settings)}."


def _left(all_of_it: Row, settings: Settings) -> str:
    if all_of_it["month_margin_share"] is None:
        return ""
    margin = wording.money(all_of_it["month_margin"], settings)
    return f"; {margin} of it ({wording.share(all_of_it['month_margin_share'], settings)}) is left after what it cost"


def _in_visits(all_of_it: Row, settings: Settings) -> str:
    if all_of_it["sale_share"] is None:
        return ""
    visits = wording.counted(all_of_it["visits"], "visit", "visits", settings)
    return f"; {wording.share(all_of_it['sale_share'], settings)} of {visits} had a sale"


def stylists(over_a_year: pl.DataFrame) -> pl.DataFrame:
    """The rows of the figure `retail_year_by_stylist`, the largest share first."""
    return over_a_year.sort("share", "stylist", descending=[True, False])


def stylists_sentence(over_a_year: pl.DataFrame, settings: Settings) -> str:
    """How many sell in more or fewer visits than the salon on like ones, beyond chance; empty where unknown."""
    if over_a_year.is_empty():
        return ""
    differing = over_a_year.filter("differs")
    more, fewer = (differing.filter(side).height for side in (SELLS_MORE, ~SELLS_MORE))
    if differing.is_empty():
        return (
            "Over twelve months no stylist sells so much more or less often than the salon on like visits that chance "
            "would not do it."
        )
    parts = [
        f"{wording.counted(count, 'stylist sells', 'stylists sell', settings)} in {side} visits"
        for count, side in ((more, "more"), (fewer, "fewer"))
        if count
    ]
    said = f"{parts[0]} than the salon on like visits" + (f" and {fewer} in fewer" if more and fewer else "")
    return f"Over twelve months, beyond what chance would do: {said}; the shares stand below."
