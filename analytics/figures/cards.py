"""What a stylist wants to have in her hand before a root visit: what is usual for a client, and what was mixed last.

Usual services are those done in at least half of her last five root visits, and the usual chair time is the median
chair time of those visits, all chairs together and developing included. The last bowl is what the mixing log says of
her last root visit that it covers: every product with its grams, mixed for the lines that colour the roots, and what
of it was weighed as left over (empty where not all of it was weighed). The next visit is the first in the book from
today on, whatever it is for. A skin test is due as many hours before the next colour visit as the salon's settings say;
the maker's leaflet decides. The last skin test is the one of the clients table: it does not say how it came out.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import DAY, GRAMS, MINUTES, MOMENT, TEXT, VISITS, Column, Figure, Result
from analytics.definitions.tables import COLOUR_KINDS, SERVICE_KINDS
from analytics.records.chairs.lines import on_the_menu
from analytics.records.clients.root_care import last_visits, root_bowls, root_visit_lines, visit_minutes
from analytics.records.clients.root_visits import CLIENT
from analytics.settings import Settings

RESULT = Result(
    "one row per client who has had a root-resetting service",
    key=("client_id", "site"),
    columns={
        "client_id": Column(TEXT, "the client"),
        "root_visits": Column(VISITS, "root visits in the book"),
        "usual_services": Column(TEXT, "services done in at least half of the last five root visits"),
        "usual_chair_minutes": Column(MINUTES, "median chair time of those visits"),
        "last_mixed_on": Column(DAY, "day of the last root visit that the mixing log covers"),
        "last_mixed": Column(TEXT, "what was mixed for the roots then: products and grams"),
        "last_mixed_g": Column(GRAMS, "grams of it together"),
        "last_left_g": Column(GRAMS, "grams left of it; empty where not all of it was weighed"),
        "next_visit_on": Column(DAY, "day of the next visit in the book, whatever it is for"),
        "next_services": Column(TEXT, "what it is for"),
        "skin_test_by": Column(MOMENT, "when the skin test before the next colour visit is due"),
        "patch_tested_on": Column(DAY, "day of the last skin test, where the clients table gives one"),
        "site": Column(TEXT, "the salon of a group; empty where there is one"),
    },
)


def cards(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    product_log: pl.DataFrame,
    products: pl.DataFrame,
    clients: pl.DataFrame,
    *,
    settings: Settings,
    as_of: date,
) -> pl.DataFrame:
    """One row per client with a completed root-resetting service on or before `as_of`; minutes, grams, days."""
    lines = root_visit_lines(bookings, services, as_of)
    parts = (
        _usual(lines),
        _usual_minutes(lines, bookings, settings.salon.timezone),
        _last_bowl(product_log, products, lines),
        _next_visit(bookings, services, settings, as_of),
    )
    frame = lines.group_by(CLIENT).agg(root_visits=pl.col("booking_id").n_unique())
    for part in parts:
        frame = frame.join(part, on=CLIENT, how="left")
    key = CLIENT if (clients["site"] != "").any() else ["client_id"]
    tested = clients.select(*key, "patch_tested_on")
    return RESULT.shape(frame.join(tested, on=key, how="left").sort("client_id", "site"))


def cards_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, as_of: date) -> pl.DataFrame:
    """The lines of the root visits that count as usual, newest visit first."""
    lines = root_visit_lines(bookings, services, as_of)
    shown = [*CLIENT, "booking_id", "day", "service_id", "service", "kind", "stylist", "file", "row"]
    kept = lines.join(last_visits(lines).select(*CLIENT, "booking_id"), on=[*CLIENT, "booking_id"], how="semi")
    return kept.select(shown).sort(*CLIENT, "day", "booking_id", descending=[False, False, True, True])


def _usual(lines: pl.DataFrame) -> pl.DataFrame:
    """usual_services: by how often they were done, then by the menu's minutes."""
    recent = last_visits(lines)
    counted = recent.group_by(CLIENT).agg(visits=pl.len())
    minutes = (pl.col("hands_on_min") + pl.col("processing_min")).max()
    return (
        lines.join(recent.select(*CLIENT, "booking_id"), on=[*CLIENT, "booking_id"], how="semi")
        .group_by(*CLIENT, "service_id")
        .agg(times=pl.col("booking_id").n_unique(), minutes=minutes, service=pl.col("service").max())
        .join(counted, on=CLIENT)
        .filter(pl.col("times") * 2 >= pl.col("visits"))
        .sort("times", "minutes", "service_id", descending=[True, True, False], nulls_last=True)
        .group_by(CLIENT)
        .agg(usual_services=pl.coalesce("service", "service_id").str.join(", "))
    )


def _usual_minutes(lines: pl.DataFrame, bookings: pl.DataFrame, timezone: str) -> pl.DataFrame:
    timed = last_visits(lines).join(visit_minutes(bookings, timezone), on=["site", "booking_id"], how="left")
    return timed.group_by(CLIENT).agg(usual_chair_minutes=pl.col("chair_minutes").median())


def _last_bowl(product_log: pl.DataFrame, products: pl.DataFrame, lines: pl.DataFrame) -> pl.DataFrame:
    bowls = root_bowls(product_log, products, lines)
    newest = pl.col("booking_id").sort_by("day", "booking_id").last().over(CLIENT)
    grams = pl.col("mixed_g").cast(pl.String).str.strip_chars_end("0").str.strip_chars_end(".")
    weighed = pl.when(pl.col("left_g").is_not_null().all()).then(pl.col("left_g").sum())
    return (
        bowls.filter(pl.col("booking_id") == newest)
        .group_by(CLIENT, maintain_order=True)
        .agg(
            last_mixed_on=pl.col("day").first(),
            last_mixed=(pl.col("product") + " " + grams + " g").str.join(", "),
            last_mixed_g=pl.col("mixed_g").sum(),
            last_left_g=weighed,
        )
    )


def _next_visit(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, as_of: date) -> pl.DataFrame:
    """The first visit in the book from today on, and when the skin test before the first colour visit is due."""
    ahead = on_the_menu(bookings.filter(pl.col("status") == "booked"), services).filter(
        pl.col("starts_at").dt.date() >= as_of
    )
    test_hours = {kind: float(settings.roots.of(kind).patch_test_hours) for kind in SERVICE_KINDS}
    before = pl.duration(
        seconds=(pl.col("kind").replace_strict(test_hours, default=0.0, return_dtype=pl.Float64) * 3600).cast(pl.Int64)
    )
    colour = pl.col("kind").is_in(COLOUR_KINDS)
    by = (pl.col("starts_at") - before).filter(colour).sort_by(pl.col("starts_at").filter(colour)).first()
    first = pl.col("booking_id") == pl.col("booking_id").first()
    return (
        ahead.sort("starts_at", "booking_id", "line", "service_id")
        .group_by(CLIENT, maintain_order=True)
        .agg(
            next_visit_on=pl.col("starts_at").min().dt.date(),
            next_services=pl.coalesce("service", "service_id").filter(first).str.join(", "),
            skin_test_by=by,
        )
    )


FIGURE = Figure(cards, cards_rows, RESULT)
