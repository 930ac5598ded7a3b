"""Who is due for a root touch-up, and between which days it makes sense.

Regrowth is growth rate × days since the last service that coloured the roots. The rate starts from published rates
(mean 0.35, standard deviation 0.075 mm a day, both settings) and is updated with any regrowth measured on the client,
each measurement having an error of 1.5 mm; the 80 % range shows how wide that still is. Ready from and ready by are the
first days on which the expected regrowth reaches the two lengths of the settings: before the first, new colour would
overlap coloured hair; after the second, the band is wider than a root application covers (common practice, no source:
about the first 3 cm) and needs more time, product and a second application. The expected day is the client's own median
gap after her last root visit (the kind's where she has none), not earlier than tomorrow; its range is how far gaps of
the kind spread around their client's median. The chance of return is the share of clients of the kind, waiting as long
as she has, who did come back (Kaplan–Meier, those still out counted as still out; empty where fewer than ten have come
back at all). Dates are planning help: the maker's instructions, local rules and licensed practice come first.
"""

from datetime import date

import polars as pl

from analytics.methods.growth import Z_80, days_to, evidence, is_possible, posterior
from analytics.methods.survival import kaplan_meier
from analytics.records.root_visits import CLIENT, measured_regrowth, root_lines, root_visits
from analytics.results import RESULTS
from analytics.settings import Settings
from analytics.tables import SERVICE_KINDS

NEARING_DAYS = 14
QUIET_BELOW = 0.2
FEW_RETURNS = 10  # with fewer returns than this a share of them says nothing
STATES = ("ready", "long_past", "nearing", "booked", "resting", "quiet")  # in the order in which they are listed
DAYS_WITHOUT_HISTORY = 42  # six weeks, the usual rule, where a salon has not seen a single gap


def roots(
    bookings: pl.DataFrame, services: pl.DataFrame, clients: pl.DataFrame, *, settings: Settings, as_of: date
) -> pl.DataFrame:
    """One row per client with a completed root-resetting service on or before `as_of`; mm, days, dates."""
    lines = root_lines(bookings, services)
    visits = root_visits(lines, as_of)
    last = (
        visits.group_by(CLIENT, maintain_order=True)
        .last()
        .drop("gap_days")
        .rename({"day": "last_root_on"})
        .with_columns(days_since=(pl.lit(as_of) - pl.col("last_root_on")).dt.total_days())
    )
    timed = _with_habit(_with_growth(last, bookings, visits, settings, as_of), visits, as_of)
    return RESULTS["roots"].shape(
        timed.join(_next_booked(lines, as_of), on=CLIENT, how="left")
        .join(*_cards(clients), how="left")
        .with_columns(pl.col("may_contact").fill_null(False))
        .with_columns(state=_state(as_of).cast(pl.Enum(STATES)))
        .sort("state", "ready_from", "client_id")
    )


def roots_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, as_of: date) -> pl.DataFrame:
    """The root visits the answer rests on, one row per client and day, with the gap before it."""
    return root_visits(root_lines(bookings, services), as_of)


def _cards(clients: pl.DataFrame) -> tuple[pl.DataFrame, list[str]]:
    """Name and leave to contact, and what to join them on: clients of a group may be kept without their salon."""
    key = CLIENT if (clients["site"] != "").any() else ["client_id"]
    return clients.select(*key, "client", "may_contact"), key


def _with_growth(
    last: pl.DataFrame, bookings: pl.DataFrame, visits: pl.DataFrame, settings: Settings, as_of: date
) -> pl.DataFrame:
    weight, pull = evidence(pl.col("regrowth_mm"), pl.col("days"))
    measured = (
        measured_regrowth(bookings, visits, as_of)
        .filter(is_possible(pl.col("regrowth_mm"), pl.col("days")))
        .group_by(CLIENT)
        .agg(weight=weight, pull=pull)
    )
    kinds = [settings.roots.of(kind) for kind in SERVICE_KINDS]
    lengths = pl.DataFrame(
        {
            "kind": SERVICE_KINDS,
            "from_mm": [float(kind.touch_up_from_mm) for kind in kinds],
            "by_mm": [float(kind.touch_up_by_mm) for kind in kinds],
            "prior": [float(kind.growth_mm_per_day) for kind in kinds],
            "prior_sd": [float(kind.growth_sd) for kind in kinds],
        }
    )
    rate, rate_sd = posterior(pl.col("prior"), pl.col("prior_sd"), pl.col("weight"), pl.col("pull"))
    days = pl.col("days_since")
    return (
        last.join(measured, on=CLIENT, how="left")
        .join(lengths, on="kind", how="left")
        .with_columns(pl.col("weight", "pull").fill_null(0.0))
        .with_columns(growth_mm_per_day=rate, growth_sd=rate_sd)
        .with_columns(
            regrowth_mm=pl.col("growth_mm_per_day") * days,
            regrowth_low_mm=((pl.col("growth_mm_per_day") - Z_80 * pl.col("growth_sd")) * days).clip(0),
            regrowth_high_mm=(pl.col("growth_mm_per_day") + Z_80 * pl.col("growth_sd")) * days,
            ready_from=_after(days_to(pl.col("from_mm"), pl.col("growth_mm_per_day"))),
            ready_by=_after(days_to(pl.col("by_mm"), pl.col("growth_mm_per_day"))),
        )
    )


def _after(days: pl.Expr) -> pl.Expr:
    return pl.col("last_root_on") + pl.duration(days=days)


def _with_habit(last: pl.DataFrame, visits: pl.DataFrame, as_of: date) -> pl.DataFrame:
    gaps = visits.drop_nulls("gap_days").with_columns(own=pl.col("gap_days").median().over(CLIENT))
    own = gaps.group_by(CLIENT).agg(own_gap=pl.col("gap_days").median())
    ratio = (pl.col("gap_days") / pl.col("own")).filter(pl.col("gap_days").len().over(CLIENT) > 1)
    kinds = gaps.group_by("kind").agg(
        kind_gap=pl.col("gap_days").median(), low=ratio.quantile(0.1), high=ratio.quantile(0.9)
    )
    everyone = gaps.select(
        all_gap=pl.col("gap_days").median(), all_low=ratio.quantile(0.1), all_high=ratio.quantile(0.9)
    )
    tomorrow = pl.lit(as_of) + pl.duration(days=1)

    def likely(factor: pl.Expr) -> pl.Expr:
        day = _after((pl.col("gap") * factor).round().cast(pl.Int64))
        return pl.when(day.is_not_null()).then(pl.max_horizontal(day, tomorrow))

    return (
        last.join(own, on=CLIENT, how="left")
        .join(kinds, on="kind", how="left")
        .join(everyone, how="cross")
        .with_columns(gap=pl.coalesce("own_gap", "kind_gap", "all_gap").fill_null(DAYS_WITHOUT_HISTORY))
        .with_columns(
            expected_on=likely(pl.lit(1.0)),
            expected_low_on=likely(pl.coalesce("low", "all_low")),
            expected_high_on=likely(pl.coalesce("high", "all_high")),
            chance_of_return=_chance(last, visits),
        )
    )


def _chance(last: pl.DataFrame, visits: pl.DataFrame) -> pl.Series:
    """Per row of `last`: of clients of the kind who waited as long, the share that came back.

    A kind with fewer than FEW_RETURNS answers with all kinds together; where those are too few, nothing is said.
    """
    waits = pl.concat(
        [
            visits.drop_nulls("gap_days").select("kind", days="gap_days", came=pl.lit(True)),
            last.select("kind", days="days_since", came=pl.lit(False)),
        ]
    )
    everyone = kaplan_meier(waits["days"], waits["came"])
    of_kind = {str(kind[0]): kaplan_meier(rows["days"], rows["came"]) for kind, rows in waits.group_by("kind")}
    curves = {kind: own if own.events >= FEW_RETURNS else everyone for kind, own in of_kind.items()}
    chances = [
        curves[kind].chance_after(days) if curves[kind].events >= FEW_RETURNS else None
        for kind, days in last.select("kind", "days_since").iter_rows()
    ]
    return pl.Series(chances, dtype=pl.Float64)


def _next_booked(lines: pl.DataFrame, as_of: date) -> pl.DataFrame:
    ahead = lines.filter((pl.col("status") == "booked") & (pl.col("day") >= as_of))
    return ahead.group_by(CLIENT).agg(booked_on=pl.col("day").min())


def _state(as_of: date) -> pl.Expr:
    today = pl.lit(as_of)
    return (
        pl.when(pl.col("booked_on").is_not_null())
        .then(pl.lit("booked"))
        .when(pl.col("chance_of_return") < QUIET_BELOW)
        .then(pl.lit("quiet"))
        .when(today < pl.col("ready_from") - pl.duration(days=NEARING_DAYS))
        .then(pl.lit("resting"))
        .when(today < pl.col("ready_from"))
        .then(pl.lit("nearing"))
        .when(today <= pl.col("ready_by"))
        .then(pl.lit("ready"))
        .otherwise(pl.lit("long_past"))
    )
