"""How long services take against the menu, what developing time held, and stylists on like work."""

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

FEWEST_LINES = 10  # of a service, before its menu minutes are called wrong
OFF_MINUTES = 5.0  # the median beyond the menu from which the menu wants a look
MOST_NAMED = 3


def minutes_sentence(durations: pl.DataFrame, settings: Settings, month: str) -> str:
    """Which services' middle time is further from the menu's minutes than wobble."""
    title = wording.month_title(month, settings)
    known = durations.filter((pl.col("lines") >= FEWEST_LINES) & pl.col("median_over_menu").is_not_null())
    if known.is_empty():
        return f"Too little was done in the twelve months up to {title} to hold the menu's minutes against."
    start = f"In the twelve months up to {title}"
    off = known.filter(pl.col("median_over_menu").abs() >= OFF_MINUTES).sort(
        pl.col("median_over_menu").abs(), "service_id", descending=[True, False]
    )
    if off.is_empty():
        minutes = wording.number(OFF_MINUTES, settings)
        return f"{start}, the middle time of every service was within {minutes} minutes of the menu."
    named = [_off(row, settings) for row in off.head(MOST_NAMED).to_dicts()]
    more = off.height - len(named)
    others = f", and {wording.counted(more, 'more', 'more', settings)}" if more > 0 else ""
    many = wording.counted(off.height, "service wants", "services want", settings)
    return f"{start}, {many} other minutes on the menu, by the middle of their times: {wording.listed(named)}{others}."


def _off(row: Row, settings: Settings) -> str:
    takes, says = (wording.number(row[name], settings) for name in ("median_minutes", "menu_minutes"))
    return f"{wording.plain_cell(row['service'])} ({takes} minutes, {says} on the menu)"


def processing_sentence(processing: pl.DataFrame, settings: Settings, month: str) -> str:
    """How many developing hours of the month held a second client of the same stylist."""
    rows = processing.filter(month=month)
    developing, second = (float(rows[name].sum()) for name in ("processing_hours", "second_client_hours"))
    title = wording.month_title(month, settings)
    if not developing:
        return f"Nothing developed in {title}."
    hours, held = wording.hours(developing, settings), wording.hours(second, settings)
    share = wording.share(second / developing, settings)
    return (
        f"Of {hours} in which colour developed in {title}, {held} ({share}) held a second client of the same stylist "
        "in another chair."
    )


def stylists_sentence(stylists: pl.DataFrame) -> str:
    """Who can be held against colleagues at all."""
    named = stylists.drop_nulls("stylist")
    compared, others = named.filter("compared"), named.filter(~pl.col("compared"))
    start = (
        "Like work is the services that a colleague did too; what she took and brought stands beside what the same "
        "services would have taken and brought her colleagues."
    )
    few = wording.listed([wording.plain_cell(name) for name in others["stylist"]])
    if compared.is_empty():
        return f"{start} Nobody has 20 lines of like work, so nobody is compared."
    return f"{start} Fewer than 20 lines of it, too few to say anything: {few}." if few else start
