"""How full the week's hours are, what stood empty, and what that cost."""

from datetime import date, timedelta

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import WEEKDAYS, Settings

ENOUGH_HOURS = 20  # open chair hours that a clock hour needs before it is called full or empty
MONDAY = date(2024, 1, 1)


def weekday_name(weekday: str, settings: Settings, short: bool = False) -> str:
    """'tue' -> 'Tuesday', in the salon's language; short: 'Tue'."""
    return wording.weekday(MONDAY + timedelta(days=WEEKDAYS.index(weekday)), settings, short)


def week_sentence(hours_of_week: pl.DataFrame, settings: Settings) -> str:
    """The fullest and the emptiest hour of the week; empty where too little was open to say."""
    known = hours_of_week.filter(pl.col("open_hours") >= ENOUGH_HOURS).sort("taken_share", "weekday", "hour")
    if known.height < 2:
        return ""
    least, most = known.row(0, named=True), known.row(-1, named=True)
    return (
        f"Over the twelve months, the chairs were fullest on {_hour(most, settings)}, and emptiest on "
        f"{_hour(least, settings)}."
    )


def _hour(row: Row, settings: Settings) -> str:
    share = wording.share(row["taken_share"], settings)
    brought = wording.money(row["net_per_open_hour"], settings)
    return (
        f"{weekday_name(row['weekday'], settings)} from {row['hour']}:00 ({share} taken, {brought} an open chair hour)"
    )


def open_says(settings: Settings) -> str:
    """Which chairs count as open, and where that is set."""
    if settings.salon.open_chairs == "at_work":
        return "On each day no more chairs count as open than stylists stand in its bookings."
    return (
        "Every chair counts as open whenever the salon is. Where fewer stylists than chairs work, open_chairs under "
        "Settings counts no more of them than stylists stand in the day's bookings."
    )


def empty_title(economics: pl.DataFrame, settings: Settings, month: str) -> str:
    """'What stood empty: 323 h, €7,039', as far as it is known."""
    found = economics.filter(month=month, split="salon").to_dicts()
    if not found or not found[0]["open_hours"]:
        return "What stood empty"
    hours, cost = wording.hours(found[0]["empty_hours"], settings), found[0]["empty_cost"]
    worth = "" if cost is None else f", {wording.money(cost, settings, whole=True)}"
    return f"What stood empty: {hours}{worth}"


def empty_sentence(economics: pl.DataFrame, settings: Settings, month: str) -> str:
    """How many of the month's open chair hours stood empty, and what they cost."""
    found = economics.filter(month=month, split="salon").to_dicts()
    if not found or not found[0]["open_hours"]:
        return ""
    row, title = found[0], wording.month_title(month, settings)
    empty, opened = (wording.hours(row[name], settings) for name in ("empty_hours", "open_hours"))
    if row["empty_cost"] is None:
        return (
            f"In {title}, {empty} of {opened} open stood empty; salon.toml names no costs per month to value them at."
        )
    cost, hour = (
        wording.money(row["empty_cost"], settings, whole=True),
        wording.money(row["cost_per_open_hour"], settings),
    )
    carried = ""
    if row["cost_per_taken_hour"] is not None:
        taken = wording.money(row["cost_per_taken_hour"], settings)
        carried = f" With them paid for, a taken hour had to carry {taken}."
    return f"In {title}, {empty} of {opened} open stood empty; at {hour} an open chair hour that is {cost}.{carried}"
