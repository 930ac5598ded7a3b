"""How long services take against the menu, what developing time held, and stylists on like work."""

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

MOST_NAMED = 3


def minutes_sentence(durations: pl.DataFrame, settings: Settings, month: str) -> str:
    """Which services' typical time is further from the menu's minutes than wobble."""
    title = wording.month_title(month, settings)
    known = durations.drop_nulls("menu_off")
    if known.is_empty():
        return f"Too little was done in the twelve months up to {title} to compare the menu's minutes with."
    start = f"In the twelve months up to {title}"
    far = pl.col("median_over_menu").abs()
    off = known.filter("menu_off").sort(far, "service_id", descending=[True, False])
    if off.is_empty():
        return f"{start}, the typical time of every service was within 5 minutes of the menu."
    named = [_off(row, settings) for row in off.head(MOST_NAMED).to_dicts()]
    more = off[MOST_NAMED:].height
    others = f", and {wording.counted(more, 'more', 'more', settings)}" if more else ""
    many = wording.counted(off.height, "service wants", "services want", settings)
    return f"{start}, {many} other minutes on the menu, by their typical time: {wording.listed(named)}{others}."


def _off(row: Row, settings: Settings) -> str:
    takes, says = (wording.number(row[name], settings) for name in ("median_minutes", "menu_minutes"))
    return f"{wording.plain_cell(row['service'])} ({takes} minutes, {says} on the menu)"


def processing_sentence(processing: pl.DataFrame, settings: Settings, month: str) -> str:
    """How many developing hours of the month held a second client of the same stylist."""
    rows, title = processing.filter(month=month).to_dicts(), wording.month_title(month, settings)
    if not rows or not rows[0]["salon_processing_hours"]:
        return f"Nothing developed in {title}."
    hours, held = (
        wording.hours(rows[0][f"salon_{name}"], settings) for name in ("processing_hours", "second_client_hours")
    )
    share = wording.share(rows[0]["salon_second_client_share"], settings)
    return (
        f"Of {hours} in which colour developed in {title}, {held} ({share}) held a second client of the same stylist "
        "in another chair."
    )


def stylists_sentence(stylists: pl.DataFrame) -> str:
    """Who can be compared with colleagues at all."""
    named = stylists.drop_nulls("stylist")
    compared, others = named.filter("compared"), named.filter(~pl.col("compared"))
    start = (
        "Like work is the services that a colleague did too; what a stylist took and brought stands beside what the "
        "same services would have taken and brought colleagues."
    )
    few = wording.listed([wording.plain_cell(name) for name in others["stylist"]])
    if compared.is_empty():
        return f"{start} Nobody has 20 lines of like work, so nobody is compared."
    return f"{start} Fewer than 20 lines of it, too few to say anything: {few}." if few else start
