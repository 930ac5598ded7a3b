"""What each stylist's chair hours bring, compared with colleagues on like work only.

Completed lines of the period; chair and hands-on hours as in `chairs`. Like work is the services that at least one
colleague did too: their own minutes and net per chair hour in them stand beside what colleagues, each service as often
as they did it, would have taken and brought, which leaves out that one colours and the other cuts. Fewer than 20 such
lines of their own, or fewer than 20 of colleagues in the same services, are too few to compare, and nothing is said.
Refunds are in the net and are no lines. Minutes of a visit with several lines are shared by the menu's minutes; prices
that differ by stylist show as a difference. Stylists stand in order of name: this is no ranking of people, and longer
times may come from more demanding work.
"""

import polars as pl

from analytics.definitions import results
from analytics.definitions.results import Column, Figure, Result
from analytics.methods.intervals import total_hours
from analytics.methods.quotient import per
from analytics.periods import Period
from analytics.records.chairs.lines import completed_lines
from analytics.settings import Settings

RESULT = Result(
    "one row per stylist, over the period",
    key=("stylist",),
    columns={
        "stylist": Column(results.TEXT, "who did the work"),
        "lines": Column(results.LINES, "completed lines, refunds left out"),
        "chair_hours": Column(results.HOURS, "chair hours of their lines"),
        "hands_on_hours": Column(results.HOURS, "hands-on hours by the menu"),
        "net": Column(results.MONEY, "charged, without tax"),
        "net_per_chair_hour": Column(results.MONEY_PER_HOUR, "net ÷ chair hours, whatever the work"),
        "like_services": Column(results.COUNT, "services that a colleague did too", "services"),
        "like_lines": Column(results.LINES, "their lines of those services"),
        "others_lines": Column(results.LINES, "colleagues' lines of those services"),
        "compared": Column(results.YES_NO, "20 lines or more of like work on both sides"),
        "minutes_per_line": Column(results.MINUTES, "chair minutes of their lines of like work"),
        "colleagues_minutes_per_line": Column(results.MINUTES, "what the same lines would take colleagues"),
        "like_net_per_chair_hour": Column(results.MONEY_PER_HOUR, "what their chair hours of like work bring"),
        "colleagues_net_per_chair_hour": Column(results.MONEY_PER_HOUR, "what the same lines would bring colleagues"),
    },
)

FEWEST_LINES = 20


def stylists(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """One row per stylist with completed lines, in order of name; hours, minutes, money in the currency."""
    lines = stylists_rows(bookings, services, settings=settings, period=period)
    totals = lines.group_by("stylist").agg(
        total_hours(pl.col("chair_hours", "hands_on_hours")), pl.col("net").sum(), lines=(pl.col("price") >= 0).sum()
    )
    compared = (pl.col("like_lines") >= FEWEST_LINES) & (pl.col("others_lines") >= FEWEST_LINES)
    hour, other_hour = pl.col("like_hours") > 0, pl.col("others_hours") > 0
    return RESULT.shape(
        totals.join(_like_work(lines), on="stylist", how="left", nulls_equal=True)
        .with_columns(pl.col("like_services", "like_lines", "others_lines").fill_null(0))
        .with_columns(
            net_per_chair_hour=per("net", "chair_hours"),
            compared=compared,
            minutes_per_line=pl.when(compared).then(per("like_hours", "like_lines") * 60),
            colleagues_minutes_per_line=pl.when(compared).then(per("others_hours", "like_lines") * 60),
            like_net_per_chair_hour=pl.when(compared & hour).then(per("like_net", "like_hours")),
            colleagues_net_per_chair_hour=pl.when(compared & other_hour).then(per("others_net", "others_hours")),
        )
        .sort("stylist", nulls_last=True)
    )


def stylists_rows(
    bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period
) -> pl.DataFrame:
    """The completed lines the figure adds up."""
    return completed_lines(bookings, services, settings).filter(period.holds(pl.col("starts_at")))


def _like_work(lines: pl.DataFrame) -> pl.DataFrame:
    """Per stylist, over services that colleagues did too: her lines, hours and net, and theirs for the same lines.

    others_hours and others_net are the colleagues' averages of each service times her lines of it.
    """
    own = (
        lines.filter((pl.col("price") >= 0) & (pl.col("chair_hours") > 0))
        .group_by("stylist", "service_id")
        .agg(
            n=pl.len().cast(pl.Int64),
            hours=total_hours(pl.col("chair_hours")),
            net=pl.col("net").sum().cast(pl.Float64),
        )
        .sort("service_id", "stylist", nulls_last=True)
        .with_columns(
            (pl.col(name).sum().over("service_id") - pl.col(name)).alias(f"their_{name}")
            for name in ("n", "hours", "net")
        )
        .filter(pl.col("their_n") > 0)
    )
    return own.group_by("stylist", maintain_order=True).agg(
        like_services=pl.len(),
        like_lines=pl.col("n").sum(),
        like_hours=pl.col("hours").sum(),
        like_net=pl.col("net").sum(),
        others_lines=pl.col("their_n").sum(),
        others_hours=(pl.col("their_hours") / pl.col("their_n") * pl.col("n")).sum(),
        others_net=(pl.col("their_net") / pl.col("their_n") * pl.col("n")).sum(),
    )


FIGURE = Figure(stylists, stylists_rows, RESULT)
