"""Hours and wages base by stylist, where rates are set."""

import polars as pl

from analytics.definitions.results import MONEY, TAX_RATE
from analytics.handover.accountant.period_rows import Gathered, within
from analytics.handover.accountant.sheets.sheet import AccountSheet, one_site
from analytics.methods.intervals import hours, union
from analytics.money import EXACT, rounded
from analytics.periods import Period, to_instant
from analytics.records.chairs.stays import VISIT

NOTE = (
    "Hours are those with clients: visits that overlap count once. The wages base is hours × rate + net × share; "
    "hours without clients, holidays and overtime are not in the book."
)


def wages_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """One row per site and stylist: visits, hours, hands-on hours, net, tips, rates and wages base."""
    lines = within(gathered.lines, period).filter(pl.col("stylist").is_not_null())
    work = lines.group_by("site", "stylist").agg(
        visits=pl.col("booking_id").n_unique().cast(pl.Int64),
        hands_on_hours=pl.col("hands_on_hours").sum(),
        net=pl.col("net").sum().cast(MONEY.dtype),
        tips=pl.col("tip").sum().cast(MONEY.dtype),
    )
    busy = union(_stays(lines, gathered.settings.salon.timezone), ["site", "stylist"])
    spent = busy.group_by("site", "stylist").agg(hours=hours(pl.col("starts"), pl.col("ends")).sum())
    frame = work.join(spent, on=["site", "stylist"], how="left").with_columns(pl.col("hours").fill_null(0.0))
    return AccountSheet(
        "wages", "Hours and wages base", one_site(_with_rates(frame, gathered)), NOTE, ("net", "wages_base")
    )


def _stays(lines: pl.DataFrame, zone: str) -> pl.DataFrame:
    """From the first start to the last end of each stylist's lines of a visit, UTC."""
    minutes = pl.duration(microseconds=(pl.col("minutes") * 60_000_000).cast(pl.Int64))
    starts = to_instant(pl.col("starts_at"), zone)
    ends = to_instant(pl.col("ends_at"), zone).fill_null(starts + minutes)
    return lines.group_by(*VISIT, "stylist").agg(starts=starts.min(), ends=ends.max())


def _with_rates(frame: pl.DataFrame, gathered: Gathered) -> pl.DataFrame:
    wages = gathered.settings.wages
    rates = {"per_hour": (wages.per_hour, MONEY.dtype), "share_percent": (wages.share_percent, TAX_RATE.dtype)}
    known = frame.with_columns(
        pl.col("stylist").replace_strict(given, default=None, return_dtype=dtype).alias(name)
        for name, (given, dtype) in rates.items()
    )
    seconds = (pl.col("hours") * 3600).round().cast(pl.Int64).cast(EXACT)
    by_hour = pl.col("per_hour").cast(EXACT) * seconds / 3600
    by_share = pl.col("net").cast(EXACT) * pl.col("share_percent") / 100
    base = rounded(by_hour.fill_null(0) + by_share.fill_null(0), gathered.digits).cast(MONEY.dtype)
    unset = pl.col("per_hour").is_null() & pl.col("share_percent").is_null()
    columns = ["site", "stylist", "visits", "hours", "hands_on_hours", "net", "tips", "per_hour", "share_percent"]
    return known.select(*columns, wages_base=pl.when(~unset).then(base)).sort("site", "stylist")
