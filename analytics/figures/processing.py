"""How many hours developed, and how many of those held a second client of the same stylist.

Chair hours are those of completed lines, shared over a visit's lines by the menu's minutes; hands-on and processing
hours are the menu's of the same lines. While colour develops, its chair is full and the stylist is free for somebody
else. Second-client hours are the time in which, beside a client of theirs who sat down first, another client of the
same stylist sat in another chair, up to the processing hours of the first one's visit (for hands-on work at both would
be two at once, which nobody can do). Where in the visit the developing lies, exports do not say; the time counts for
the month in which the first visit starts. The share is second-client hours ÷ processing hours. The salon's hours and
share are those of all stylists that month, the same in every row of it.
"""

import polars as pl

from analytics.definitions.results import HOURS, MONTH_KEY, SHARE, TEXT, Column, Figure, Result
from analytics.methods.intervals import hours, total_hours, union
from analytics.methods.quotient import per
from analytics.periods import Period, month_of
from analytics.records.chairs.lines import completed_lines
from analytics.records.chairs.stays import STAY, stays_of
from analytics.records.memo import memoised
from analytics.settings import Settings

RESULT = Result(
    "one row per month and stylist",
    key=("month", "stylist"),
    columns={
        **MONTH_KEY,
        "stylist": Column(TEXT, "who did the work"),
        "chair_hours": Column(HOURS, "chair hours of the lines"),
        "hands_on_hours": Column(HOURS, "hands-on hours by the menu"),
        "processing_hours": Column(HOURS, "developing hours by the menu"),
        "second_client_hours": Column(HOURS, "of them, hours with another client of theirs in another chair"),
        "second_client_share": Column(SHARE, "second-client hours ÷ processing hours"),
        "salon_processing_hours": Column(HOURS, "developing hours of the month, all stylists"),
        "salon_second_client_hours": Column(HOURS, "of them, hours with a second client, all stylists"),
        "salon_second_client_share": Column(SHARE, "the one ÷ the other"),
    },
)

SITTING = [*STAY, "stylist"]


def processing(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """One row per month and stylist with completed lines; hours."""
    lines = processing_rows(bookings, services, settings=settings, period=period)
    key = ["month", "stylist"]
    second = (
        _second_clients(bookings, services, settings)
        .with_columns(month=month_of(pl.col("began")))
        .filter(period.holds(pl.col("began")))
        .group_by(key)
        .agg(second_client_hours=total_hours(pl.col("second_hours")))
    )
    salon = {f"salon_{name}": pl.col(name).sum().over("month") for name in ("processing_hours", "second_client_hours")}
    return RESULT.shape(
        lines.group_by(key)
        .agg(total_hours(pl.col("chair_hours", "hands_on_hours", "processing_hours")))
        .join(second, on=key, how="left", nulls_equal=True)
        .with_columns(pl.col("second_client_hours").fill_null(0.0))
        .sort("month", "stylist", nulls_last=True)
        .with_columns(**salon)
        .with_columns(second_client_share=_share(""), salon_second_client_share=_share("salon_"))
    )


def _share(of: str) -> pl.Expr:
    return per(f"{of}second_client_hours", f"{of}processing_hours")


def processing_rows(
    bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period
) -> pl.DataFrame:
    """The completed lines the figure adds up, with processing_hours of the menu."""
    return _developed(bookings, services, settings).filter(period.holds(pl.col("starts_at")))


def _developed(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    minutes = pl.col("processing_min").fill_null(0.0)
    return completed_lines(bookings, services, settings).with_columns(processing_hours=minutes / 60)


@memoised
def _second_clients(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    return _beside(_sittings(bookings, services, settings))


def _sittings(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """One row per visit, chair and stylist: starts, ends (UTC), began (local), client_id and processing_hours."""
    done = bookings.filter((pl.col("status") == "completed") & pl.col("stylist").is_not_null())
    about = (
        _developed(bookings, services, settings)
        .group_by(SITTING)
        .agg(
            pl.col("client_id").min(),
            began=pl.col("starts_at").min(),
            processing_hours=total_hours(pl.col("processing_hours")),
        )
    )
    return (
        stays_of(done, settings.salon.timezone, ["stylist"])
        .filter(pl.col("ends") > pl.col("starts"))
        .join(about, on=SITTING)
        .sort("starts", *SITTING)
        .with_row_index("place")
    )


def _beside(sittings: pl.DataFrame) -> pl.DataFrame:
    """Per sitting with developing: began, stylist, and second_hours in which a client after her sat elsewhere."""
    first = sittings.filter(pl.col("processing_hours") > 0)
    last_day, first_day = pl.col("ends").dt.date(), pl.col("starts").dt.date()
    days = first.with_columns(day=pl.date_ranges(first_day, last_day)).explode("day")
    later = sittings.select(
        "site", "stylist", day=first_day, other=pl.struct("starts", "ends", "chair", "client_id", "place")
    )
    other = pl.col("other").struct
    shared = (
        days.join(later, on=["site", "stylist", "day"])
        .filter(
            (other.field("place") > pl.col("place"))
            & (other.field("starts") < pl.col("ends"))
            & (other.field("chair") != pl.col("chair"))
            & (other.field("client_id") != pl.col("client_id"))
        )
        .select("place", starts=other.field("starts"), ends=pl.min_horizontal("ends", other.field("ends")))
    )
    together = (
        union(shared, ["place"]).group_by("place").agg(together=total_hours(hours(pl.col("starts"), pl.col("ends"))))
    )
    return first.join(together, on="place").with_columns(second_hours=pl.min_horizontal("together", "processing_hours"))


FIGURE = Figure(processing, processing_rows, RESULT)
