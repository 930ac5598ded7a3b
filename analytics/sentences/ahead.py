"""The coming weeks in words: which are likely to overflow or overbooked, which may fill up and which have room."""

from datetime import date, timedelta

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

MEANT = 0.8  # share of weeks within their range
FEW = 20  # fewer weeks than this say nothing of how far off they were
TRIED = "weeks_2_to_12"  # the rows of the backtest that are told
RULES = {
    "same_week_last_year": "the same week a year before, with growth,",
    "last_12_weeks": "the mean of the last 12 weeks",
}
MOST_NAMED = 3
OVERFLOWS, OVERBOOKED, MAY_FILL, HAS_ROOM, CLOSED = "overflows", "overbooked", "may_fill", "room", "closed"
DIARY = "more booked than is open: look at the diary"
SAID = {  # of one week, of several, and the one that is named where there are many
    OVERFLOWS: ("is likely to overflow", "are likely to overflow", "the fullest"),
    OVERBOOKED: (f"has {DIARY}", f"have {DIARY}", "the fullest"),
    MAY_FILL: ("may fill up", "may fill up", "the fullest"),
    HAS_ROOM: ("has room", "have room", "the emptiest"),
}
AHEAD_NOTE = (
    "Each bar is what the diary holds, the dot what is expected in all, booked or not, its band where it lies in 8 "
    "weeks of 10, and the line what is open. A band that touches the line may fill the week; one well under it leaves "
    "room. What the chairs cannot hold is counted in the weeks beside it. This week counts from today on."
)
NO_RANGE = (
    "Nobody has come for four weeks or more in which the salon was open, so only what is booked is expected and no "
    "range is given: load the newest exports, or list the days under closed in salon.toml if the salon was shut."
)
YOUNG = "The records do not reach back a year, so these weeks' season is not known yet and the ranges are wide."


def ahead_sentence(ahead: pl.DataFrame, settings: Settings, today: date) -> str:
    """How many visits to expect, which weeks overflow, and which have room."""
    rows = ahead.filter(pl.col("standing") != CLOSED).to_dicts()
    visits = ahead["clients_until_then"].to_list()[-1]
    if visits < 0.5 and not any(row["chair_hours_booked"] for row in rows):
        return "Nobody is expected or booked in the coming weeks."
    if all(row["chair_hours_high"] is None for row in rows):
        return NO_RANGE
    found = {name: [row for row in rows if row["standing"] == name] for name in SAID}
    parts = [_named(name, some, settings, today) for name, some in found.items() if some]
    if not found[OVERFLOWS]:
        parts = ["no week is likely to overflow", *parts]
    number, after = wording.number(visits, settings), len(ahead[1:])
    start = f"About {number} visits are expected in this week and the {after} after it"
    young = f" {YOUNG}" if all(row["chair_hours_year_ago"] is None for row in rows) else ""
    return f"{start}: {'; '.join(parts)}.{young}"


def _named(name: str, rows: list[Row], settings: Settings, today: date) -> str:
    """The weeks by their days; many are counted, and the fullest or emptiest is named."""
    one, many, which = SAID[name]
    if len(rows) <= MOST_NAMED:
        weeks = wording.listed([week_name(row["week_start"], settings, today) for row in rows])
        return f"the week of {weeks} {one}" if len(rows) == 1 else f"the weeks of {weeks} {many}"
    most = (max if name == HAS_ROOM else min)(rows, key=lambda row: float(row["free_share"]))
    count = wording.counted(len(rows), "week", "weeks", settings)
    return f"{count} {many}, {which} {week_name(most['week_start'], settings, today)}"


def week_name(monday: date, settings: Settings, today: date) -> str:
    """'9–15 November'."""
    return wording.days(monday, monday + timedelta(days=6), settings, today)


def week_line(row: Row, settings: Settings) -> str:
    """One week in numbers: clients, the range of its hours, booked and open."""
    if row["standing"] == CLOSED:
        return "closed"
    booked, opened = (wording.hours(row[name], settings) for name in ("chair_hours_booked", "chair_hours_open"))
    visits = wording.number(row["clients_expected"], settings)
    parts = [f"{visits} visits, {_likely(row, settings)}", f"{booked} booked", f"{opened} open"]
    if row["chair_hours_year_ago"] is not None:
        parts.append(f"{wording.hours(row['chair_hours_year_ago'], settings)} a year before")
    return " · ".join(parts)


def _likely(row: Row, settings: Settings) -> str:
    if row["chair_hours_high"] is None:
        return "no range"
    low, high = (wording.number(row[name], settings) for name in ("chair_hours_low", "chair_hours_high"))
    return f"{low}–{high} h likely"


def tried_sentence(backtest: pl.DataFrame, settings: Settings) -> str:
    """How far off the weeks were on the salon's own past, and how far off the rules people use."""
    rows = {row["method"]: row for row in backtest.filter(group=TRIED).to_dicts()}
    ours = rows.get("ahead")
    if ours is None or ours["n"] < FEW:
        return (
            "The records do not hold enough yet to try these weeks on the salon's own past: that needs half a year of "
            "visits and some months after it."
        )
    others = [f"{name} {_off(rows[rule], settings)}" for rule, name in RULES.items() if rule in rows]
    better = [name.rstrip(",") for rule, name in RULES.items() if rule in rows and _closer(rows[rule], ours)]
    start = f"Tried at the month ends of the past year, weeks 2 to 12 were {_off(ours, settings)} off on average"
    beside = f"; {wording.listed(others)}" if others else ""
    warns = f" {wording.listed(better).capitalize()} did better than ours." if better else ""
    inside, meant = (wording.share(share, settings) for share in (ours["share_inside"], MEANT))
    return f"{start}{beside}. {inside} of them came within their range, where {meant} are meant.{warns}"


def _closer(row: Row, ours: Row) -> bool:
    return bool(row["mean_error_hours"] < ours["mean_error_hours"])


def _off(row: Row, settings: Settings) -> str:
    return wording.hours(row["mean_error_hours"], settings)
