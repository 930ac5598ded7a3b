"""Who is due for a root touch-up, and between which days it makes sense.

Regrowth is growth rate × days since the last service that coloured the roots. The rate starts from published rates
(mean 0.35, standard deviation 0.075 mm a day, both settings) and is updated with any regrowth measured on the client,
each measurement having an error of 1.5 mm; the 80 % range shows how wide that still is. Ready from and ready by are the
first days on which the expected regrowth reaches the two lengths of the settings: before the first, new colour would
overlap coloured hair; after the second, the band is wider than a root application covers (common practice, no source:
about the first 3 cm) and needs more time, product and a second application.
The expected day is about behaviour: when this client is likely to come, given that she comes within the year and has
not come yet (median; range 80 %). It rests on her own gaps between root visits, from clockwork to no rhythm at all,
pulled toward clients of her kind by how few she has, with skipped visits and odd gaps allowed for, on the days already
gone by and on her days of the week; what the book holds ahead is not used but stands beside it. Gaps are measured on
the salon's clock, on which a day counts the more the more it usually brings, so that thin weeks are not taken for a
change of hers. Who falls due on a closed day is taken to come before or after it, as clients did around the salon's own
past closures; until these tell, two in five before, the nearer the more (no source). Ranges are cut so that they would
have held 80 % over the salon's past year, near days and far ones and each kind by itself. In a salon younger than a
year "within the year" is within as many days as it has, half a year at least. A salon that has seen no gaps yet starts
from six weeks, wide (common practice, no source). The chance of return is the chance that she is still a client at all:
after her first visit she may stop for
good with one chance, after each later visit with another, some clients sooner than others, and being away for longer
than her own rhythm explains tells that she has.
Rhythms and chances to stop are fitted together, each in the light of
the other. `backtest` shows how well both did on the salon's own past.
Where nobody came for four weeks or more in which the salon was open (nobody_since), dates count as if it had been open.
Dates are planning help: the maker's instructions, local rules and licensed practice come first.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import DAY, MM, MM_PER_DAY, SHARE, TEXT, WHOLE_DAYS, YES_NO, Column, Figure, Result
from analytics.definitions.tables import SERVICE_KINDS
from analytics.methods.growth import Z_80, days_to, evidence, is_possible, posterior
from analytics.records.clients.rhythm import habits
from analytics.records.clients.root_visits import CLIENT, measured_regrowth, root_lines, root_visits
from analytics.records.clock import clock
from analytics.settings import Settings

RESULT = Result(
    "one row per client who has had a root-resetting service",
    key=("client_id", "site"),
    columns={
        "client_id": Column(TEXT, "the client"),
        "client": Column(TEXT, "name, where the clients table gives one"),
        "kind": Column(TEXT, "kind of the last root-resetting service"),
        "stylist": Column(TEXT, "who did it"),
        "last_root_on": Column(DAY, "day of the last root-resetting service"),
        "days_since": Column(WHOLE_DAYS, "days since then"),
        "growth_mm_per_day": Column(MM_PER_DAY, "expected growth of this client"),
        "regrowth_mm": Column(MM, "expected regrowth today"),
        "regrowth_low_mm": Column(MM, "low end of its 80 % range"),
        "regrowth_high_mm": Column(MM, "high end of its 80 % range"),
        "ready_from": Column(DAY, "day regrowth is expected to reach touch_up_from_mm"),
        "ready_by": Column(DAY, "day regrowth is expected to reach touch_up_by_mm"),
        "expected_on": Column(DAY, "day this client is likely to come, median"),
        "expected_low_on": Column(DAY, "low end of its 80 % range"),
        "expected_high_on": Column(DAY, "high end of its 80 % range"),
        "chance_of_return": Column(SHARE, "probability that the client is still one"),
        "state": Column(TEXT, "resting, nearing, ready, long_past, quiet or booked"),
        "booked_on": Column(DAY, "day of the next root visit in the book"),
        "may_contact": Column(YES_NO, "may be called or written to"),
        "nobody_since": Column(DAY, "the salon's last visit, where nobody came for four open weeks since; else empty"),
        "chance_next_week": Column(SHARE, "chance_of_return in seven days, if she has not come by then"),
        "site": Column(TEXT, "the salon of a group; empty where there is one"),
    },
    for_people=(
        "client_id",
        "client",
        "kind",
        "stylist",
        "last_root_on",
        "days_since",
        "regrowth_mm",
        "ready_from",
        "ready_by",
        "expected_on",
        "chance_of_return",
        "state",
        "booked_on",
        "may_contact",
    ),
)

NEARING_DAYS = 14
QUIET_BELOW = 0.2
STATES = ("ready", "long_past", "nearing", "booked", "resting", "quiet")  # in the order in which they are listed


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
    grown = _with_growth(last, bookings, visits, settings, as_of)
    salon = clock(bookings, settings, as_of)
    timed = grown.join(habits(visits, as_of, salon).expected(), on=CLIENT, how="left")
    return RESULT.shape(
        timed.join(_next_booked(lines, as_of), on=CLIENT, how="left")
        .join(*_cards(clients), how="left")
        .with_columns(pl.col("may_contact").fill_null(False))
        .with_columns(state=_state(as_of).cast(pl.Enum(STATES)), nobody_since=pl.lit(salon.nobody_since(), pl.Date))
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


FIGURE = Figure(roots, roots_rows, RESULT)
