"""Clients whose roots are ready for a touch-up on a day, by growth alone, and have no root visit ahead in the book."""

from collections.abc import Mapping
from datetime import date

import polars as pl

from analytics.definitions.tables import SERVICE_KINDS
from analytics.methods.growth import ERROR_MM, days_to, is_possible, posterior
from analytics.records.chairs.lines import on_the_menu
from analytics.records.clients.root_visits import CLIENT, measured_regrowth, root_lines, root_visits
from analytics.records.memo import memoised
from analytics.settings import Settings

FAR_AHEAD = date(9999, 12, 31)
KEPT = ("completed", "booked", "no_show")  # a visit of these was in the book until its day


def roots_ready(
    bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, days: Mapping[str, date]
) -> pl.DataFrame:
    """Per day (name -> day; month is the name): roots_ready, clients with ready_from ≤ day ≤ ready_by and none booked.

    Growth is worked out with what had been measured by then. A root visit lay ahead where it was made by then
    (booked_on); one without booked_on only where it is still ahead today. Null where no visit says when it was made and
    the book goes on beyond the day: nobody can tell what was booked then.
    """
    asked = pl.DataFrame(
        {"month": list(days), "on": list(days.values())}, schema={"month": pl.String(), "on": pl.Date()}
    ).sort("on")
    waiting = _grown(bookings, services, settings, asked).filter(
        pl.col("since").is_between(pl.col("from_days"), pl.col("by_days"))
    )
    ready = waiting.join(_booked(bookings, services, asked), on=["month", *CLIENT], how="anti")
    counted = ready.group_by("month").agg(roots_ready=pl.len())
    told = bookings["booked_on"].null_count() < bookings.height
    last = bookings.filter(pl.col("status") == "completed")["starts_at"].dt.date().max()
    knowable = pl.lit(True) if told or last is None else pl.col("on") >= last
    return asked.join(counted, on="month", how="left").select(
        "month", roots_ready=pl.when(knowable).then(pl.col("roots_ready").fill_null(0))
    )


@memoised
def _visits(bookings: pl.DataFrame, services: pl.DataFrame) -> pl.DataFrame:
    return root_visits(root_lines(bookings, services), FAR_AHEAD)


def _grown(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, asked: pl.DataFrame) -> pl.DataFrame:
    """Per asked day and client with a root visit by then: since, from_days and by_days after her last one."""
    visits = _visits(bookings, services)
    clients = visits.select(CLIENT).unique()
    last = (
        asked.join(clients, how="cross")
        .sort("on")
        .join_asof(
            visits.select(*CLIENT, "kind", last="day").sort("last"),
            left_on="on",
            right_on="last",
            by=CLIENT,
            strategy="backward",
            check_sortedness=False,
        )
        .drop_nulls("last")
        .join_asof(
            _evidence(bookings, services),
            left_on="on",
            right_on="measured",
            by=CLIENT,
            strategy="backward",
            check_sortedness=False,
        )
        .join(_lengths(settings), on="kind", how="left")
        .with_columns(pl.col("weight", "pull").fill_null(0.0))
    )
    rate, _ = posterior(pl.col("prior"), pl.col("prior_sd"), pl.col("weight"), pl.col("pull"))
    return last.with_columns(
        since=(pl.col("on") - pl.col("last")).dt.total_days(),
        from_days=days_to(pl.col("from_mm"), rate),
        by_days=days_to(pl.col("by_mm"), rate),
    )


@memoised
def _evidence(bookings: pl.DataFrame, services: pl.DataFrame) -> pl.DataFrame:
    """Per client and day of measurement, all that had been measured by then: weight and pull of methods.growth."""
    days, length = pl.col("days"), pl.col("regrowth_mm")
    return (
        measured_regrowth(bookings, _visits(bookings, services), FAR_AHEAD)
        .filter(is_possible(length, days))
        .sort("day")
        .select(
            *CLIENT,
            measured="day",
            weight=(days**2).cum_sum().over(CLIENT) / ERROR_MM**2,
            pull=(days * length).cum_sum().over(CLIENT) / ERROR_MM**2,
        )
        .group_by(*CLIENT, "measured", maintain_order=True)
        .last()
    )


def _lengths(settings: Settings) -> pl.DataFrame:
    """Per kind: the two lengths of the settings, and the prior of its growth."""
    kinds = [settings.roots.of(kind) for kind in SERVICE_KINDS]
    return pl.DataFrame(
        {
            "kind": SERVICE_KINDS,
            "from_mm": [float(kind.touch_up_from_mm) for kind in kinds],
            "by_mm": [float(kind.touch_up_by_mm) for kind in kinds],
            "prior": [float(kind.growth_mm_per_day) for kind in kinds],
            "prior_sd": [float(kind.growth_sd) for kind in kinds],
        }
    )


@memoised
def _kept_lines(bookings: pl.DataFrame, services: pl.DataFrame) -> pl.DataFrame:
    """Root lines that were in the book until their day: client, status, booked_on and day."""
    lines = bookings.filter(pl.col("status").is_in(KEPT) & (pl.col("price") >= 0))
    colouring = on_the_menu(lines, services).filter(pl.col("resets_roots"))
    return colouring.select(*CLIENT, "status", "booked_on", day=pl.col("starts_at").dt.date()).unique()


def _booked(bookings: pl.DataFrame, services: pl.DataFrame, asked: pl.DataFrame) -> pl.DataFrame:
    """Per asked day, the clients with a root visit that lay ahead in the book then."""
    first = asked["on"].min()
    ahead = _kept_lines(bookings, services).filter(pl.col("day") >= pl.lit(first, pl.Date()))
    still = pl.col("status") == "booked"
    made = (pl.col("booked_on") <= pl.col("on")).fill_null(still)
    later = (pl.col("day") > pl.col("on")) | still
    return asked.join_where(ahead, pl.col("on") <= pl.col("day")).filter(made & later).select("month", *CLIENT).unique()
