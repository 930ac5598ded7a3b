"""What retail brought, what of it stays, and in how many visits something was sold."""

import polars as pl

from analytics import wording
from analytics.methods.proportion import wilson
from analytics.sentences.judged import against, row_of
from analytics.settings import Settings

MOST_MONTHS = 12
FEW_VISITS = 30


def retail_sentence(retail: pl.DataFrame, month_frame: pl.DataFrame, settings: Settings, month: str) -> str:
    """Net and margin of the month's retail, whether that is news, and the share of visits with a sale."""
    title = wording.month_title(month, settings)
    sold = retail.filter(pl.col("month") == month)
    if sold.is_empty():
        return f"Nothing was sold over the counter in {title}."
    net, row = sold["net"].sum(), row_of(month_frame, month, "retail_net")
    pieces = wording.counted(int(sold["units"].sum()), "piece", "pieces", settings)
    start = "So far " if row is not None and row["part_month"] else ""
    news = against(row, settings) if row is not None and not row["part_month"] else ""
    brought = f"{start}{title} brought {wording.money(net, settings)} net from {pieces} of retail{news}"
    return f"{brought}{_left(sold, settings)}{_in_visits(sold, settings)}."


def _left(sold: pl.DataFrame, settings: Settings) -> str:
    known = sold.drop_nulls("margin")
    net = known["net"].sum()
    if known.is_empty() or not net:
        return ""
    margin = known["margin"].sum()
    share = wording.share(float(margin) / float(net), settings)
    return f"; {wording.money(margin, settings)} of it ({share}) is left after what it cost"


def _in_visits(sold: pl.DataFrame, settings: Settings) -> str:
    visits, came = sold["visits"].max(), sold["visits_with_sale"].max()
    if not visits or came is None:
        return ""
    share = wording.share(float(str(came)) / float(str(visits)), settings)
    return f"; {share} of {wording.counted(int(str(visits)), 'visit', 'visits', settings)} had a sale"


def stylists(by_month: pl.DataFrame, month: str) -> pl.DataFrame:
    """Of retail_by_stylist, the twelve months up to this one added up: share, its range, and that of like visits.

    `apart` is true where the range does not hold the share of like visits.
    """
    low, high = wilson(pl.col("visits_with_sale"), pl.col("visits"))
    return (
        by_month.filter((pl.col("month") <= month) & pl.col("stylist").is_not_null() & pl.col("share").is_not_null())
        .filter(pl.col("month").rank("dense", descending=True) <= MOST_MONTHS)
        .group_by("stylist")
        .agg(pl.col("visits", "visits_with_sale", "like_visits_with_sale", "units", "net").sum())
        .with_columns(
            share=pl.col("visits_with_sale") / pl.col("visits"),
            share_low=low,
            share_high=high,
            like_share=pl.col("like_visits_with_sale") / pl.col("visits"),
        )
        .with_columns(
            apart=(pl.col("visits") >= FEW_VISITS) & ~pl.col("like_share").is_between("share_low", "share_high")
        )
        .sort("share", "stylist", descending=[True, False])
    )


def stylists_sentence(added_up: pl.DataFrame, settings: Settings) -> str:
    """Who sells more or less often than the salon on like visits, where the numbers can tell; empty where unknown."""
    if added_up.is_empty():
        return ""
    apart = added_up.filter("apart")
    if apart.is_empty():
        return (
            "Over twelve months no stylist sells so much more or less often than the salon on like visits that chance "
            "would not do it."
        )
    parts = [
        f"{row['stylist']} in {wording.share(row['share'], settings)} of visits, the salon on like visits in "
        f"{wording.share(row['like_share'], settings)}"
        for row in apart.to_dicts()
    ]
    return f"Over twelve months, beyond what chance would do: {wording.listed(parts)}."
