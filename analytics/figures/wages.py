"""How long each stylist worked with clients and what wages rest on it, where rates are set.

Completed lines of the period. Hours run from the first start to the last end of a stylist's lines of each visit,
developing included, and visits that overlap count once; hands-on hours are the menu's. Visits are counted once,
whatever their lines. Net is what was charged (price less discount) without tax, refunds taken off; tips stand beside it
and are in no sum. The wages base is hours × per_hour + net × share_percent ÷ 100 ([wages] in salon.toml, by stylist),
rounded half up to the currency's minor unit, and empty for a stylist with neither rate. Hours without clients, holidays
and overtime are not on record. It is a base to work from, not a wage, and no advice.
"""

import polars as pl

from analytics.definitions.results import HOURS, MONEY, TAX_RATE, TEXT, VISITS, Column, Figure, Result
from analytics.methods.intervals import hours, total_hours, union
from analytics.money import EXACT, digits_of, rounded
from analytics.periods import Period, to_instant
from analytics.records.chairs.lines import completed_lines
from analytics.records.chairs.stays import VISIT
from analytics.settings import Settings

RESULT = Result(
    "one row per site and stylist, over the period",
    key=("site", "stylist"),
    columns={
        "site": Column(TEXT, "the salon of a group; empty where there is one"),
        "stylist": Column(TEXT, "who did the work"),
        "visits": Column(VISITS, "completed visits with a line of theirs"),
        "hours": Column(HOURS, "hours with clients, visits that overlap counted once"),
        "hands_on_hours": Column(HOURS, "hands-on hours by the menu"),
        "net": Column(MONEY, "charged for their lines, without tax"),
        "tips": Column(MONEY, "tips on those lines"),
        "per_hour": Column(MONEY, "rate for an hour with clients; empty where none is set"),
        "share_percent": Column(TAX_RATE, "percent of net; empty where none is set"),
        "wages_base": Column(MONEY, "hours × rate + net × share; empty where neither is set"),
    },
)

STYLIST = ["site", "stylist"]


def wages(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """One row per site and stylist with completed lines, over the period; hours, money in the currency."""
    lines = wages_rows(bookings, services, settings=settings, period=period)
    work = lines.group_by(STYLIST).agg(
        visits=pl.col("booking_id").n_unique(),
        hands_on_hours=total_hours(pl.col("hands_on_hours")),
        net=pl.col("net").sum(),
        tips=pl.col("tip").sum(),
    )
    busy = union(_stays(lines, settings.salon.timezone), STYLIST)
    spent = busy.group_by(STYLIST).agg(hours=total_hours(hours(pl.col("starts"), pl.col("ends"))))
    together = work.join(spent, on=STYLIST, how="left").with_columns(pl.col("hours").fill_null(0.0), *_rates(settings))
    base = _base(digits_of(settings.salon.currency))
    return RESULT.shape(together.with_columns(wages_base=base).sort(STYLIST))


def wages_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """The completed lines the figure adds up, those without a stylist left out."""
    inside = period.holds(pl.col("starts_at")) & pl.col("stylist").is_not_null()
    return completed_lines(bookings, services, settings).filter(inside).sort("starts_at", "site", "booking_id", "line")


def _stays(lines: pl.DataFrame, zone: str) -> pl.DataFrame:
    """From the first start to the last end of each stylist's lines of a visit, UTC."""
    minutes = pl.duration(microseconds=(pl.col("minutes") * 60_000_000).cast(pl.Int64))
    starts = to_instant(pl.col("starts_at"), zone)
    ends = to_instant(pl.col("ends_at"), zone).fill_null(starts + minutes)
    return lines.group_by(*VISIT, "stylist").agg(starts=starts.min(), ends=ends.max())


def _rates(settings: Settings) -> list[pl.Expr]:
    """per_hour and share_percent of each stylist; null where none is set."""
    rates = {"per_hour": settings.wages.per_hour, "share_percent": settings.wages.share_percent}
    return [
        pl.col("stylist").replace_strict(given, default=None, return_dtype=EXACT).alias(name)
        for name, given in rates.items()
    ]


def _base(digits: int) -> pl.Expr:
    seconds = (pl.col("hours") * 3600).round().cast(pl.Int64).cast(EXACT)
    by_hour = pl.col("per_hour") * seconds / 3600
    by_share = pl.col("net").cast(EXACT) * pl.col("share_percent") / 100
    unset = pl.col("per_hour").is_null() & pl.col("share_percent").is_null()
    return pl.when(~unset).then(rounded(by_hour.fill_null(0) + by_share.fill_null(0), digits))


FIGURE = Figure(wages, wages_rows, RESULT)
