"""The stylist's list for others: to print, as a calendar of the days that make sense, and as a call sheet."""

import argparse
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from uuid import NAMESPACE_URL, uuid5

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.due import due, everybody, to_call
from analytics.handover.calendar import AllDay, calendar
from analytics.handover.drawing import along, ruler_top
from analytics.handover.paper import paper
from analytics.intake.cells.dialect import folded_name
from analytics.output import as_csv
from analytics.records.clients.root_visits import places_of_day
from analytics.salon import Salon
from analytics.sentences import client as said
from analytics.sentences.roots import roots_cautions
from analytics.settings import Settings
from analytics.stops import WorkStopped
from analytics.storage.asked import latest, read_marks
from analytics.storage.private_files import write_private

STILL_AHEAD = ("ready", "nearing", "resting")  # whose days that make sense are not over
CALL_SHEET = [
    "client_id", "client", "phone", "email", "state", "kind", "stylist", "last_root_on", "regrowth_mm", "ready_from",
    "ready_by", "expected_on", "expected_low_on", "expected_high_on", "chance_of_return", "chance_next_week",
    "usual_services", "usual_chair_minutes", "last_mixed_on", "last_mixed", "patch_tested_on", "next_visit_on",
    "next_services", "asked_on", "answer", "asked_by",
]  # fmt: skip


def write(salon: Salon, _period: object, asked: argparse.Namespace) -> Iterator[Path]:
    """The files that were asked for: --pdf, --ics (with --names), --csv."""
    if asked.names and not asked.ics:
        raise WorkStopped("--names is for the calendar; name its file with --ics FILE.")
    listed = listed_of(salon)
    if asked.pdf:
        yield write_private(list_paper(due(listed), salon.settings, salon.as_of), asked.pdf)
    if asked.ics:
        yield write_private(root_calendar(salon, names=asked.names), asked.ics)
    if asked.csv:
        yield write_private(call_sheet(listed, bool(salon.sites)), asked.csv)


def listed_of(salon: Salon) -> pl.DataFrame:
    """Every row of the figure roots with her card, contact and mark."""
    marks = latest(read_marks(salon.folder), salon.as_of)
    clients = salon.book.tables["clients"]
    return everybody(salon.figure("roots"), salon.figure("cards"), clients, marks, as_of=salon.as_of)


def call_sheet(listed: pl.DataFrame, sites: bool) -> bytes:
    """Whom to call this week, as CSV: may be contacted, not booked, not quiet; what costs most by waiting first."""
    return as_csv(to_call(listed).select([*(["site"] if sites else []), *CALL_SHEET])).encode()


def root_calendar(salon: Salon, *, names: bool, stylist: str | None = None) -> bytes:
    """The days on which a touch-up makes sense, one event per client who is neither booked nor quiet.

    stylist: of the clients whose roots they did last; None: of all.
    Without names an event has the client's number, or nothing where the exports have names for numbers. Its UID rests
    on the day of her last root visit and her place among that day's clients, so that it is the same in every file.
    """
    listed = (
        listed_of(salon).filter(pl.col("state").is_in(STILL_AHEAD)).sort("ready_from", "ready_by", "site", "client_id")
    )
    if stylist is not None:
        listed = listed.filter(pl.col("stylist") == stylist)
    nameless = _numbers_that_are_names(salon.book.tables)
    rows = listed.join(_places(salon), on=["site", "client_id", "last_root_on"], how="left", maintain_order="left")
    events = [_event(row, salon, names=names, nameless=nameless) for row in rows.to_dicts()]
    return calendar(events, salon.as_of, "salon-figures//roots")


def _places(salon: Salon) -> pl.DataFrame:
    """Each root visit's place among those of its day, which no later visit changes."""
    return places_of_day(salon.rows("roots")).rename({"day": "last_root_on"})


def _numbers_that_are_names(tables: dict[str, pl.DataFrame]) -> set[str]:
    """Client numbers that say who it is: an export with names only has the name for a number."""
    same = folded_name(pl.col("client_id")) == folded_name(pl.col("client"))
    return {number for name in ("bookings", "clients") for number in tables[name].filter(same)["client_id"]}


def _event(row: Row, salon: Salon, *, names: bool, nameless: set[str]) -> AllDay:
    settings = salon.settings
    lengths = settings.roots.of(row["kind"])
    low, high = (wording.mm(length, settings) for length in (lengths.touch_up_from_mm, lengths.touch_up_by_mm))
    who = (row["client"] or row["client_id"]) if names else "" if row["client_id"] in nameless else row["client_id"]
    place = f"{settings.salon.name}|{row['last_root_on']}|{row['place']}"
    about = [
        f"Regrowth is likely to pass {low} on the first of these days and {high} on the last; after it the booking is "
        "longer and dearer.",
        said.what_is_usual(row, settings),
        roots_cautions(settings),
    ]
    return AllDay(
        f"{uuid5(NAMESPACE_URL, place)}@salon-figures",
        row["ready_from"],
        row["ready_by"],
        f"Roots ready: {who}" if who else "Roots ready",
        "\n".join(filter(None, about)),
    )


def list_paper(
    rows: pl.DataFrame, settings: Settings, as_of: date, week: date | None = None, stylist: str | None = None
) -> bytes:
    """The list as a PDF to print. rows: those of `due`; week: the Monday of a later week; stylist: whose list it is."""
    when = wording.days(week, week + timedelta(days=6), settings, as_of) if week else wording.day(as_of, settings)
    top = ruler_top(max(kind.touch_up_by_mm for kind in (settings.roots, *settings.roots.by_kind.values())))
    data = {
        "rows": [_printed(row, settings, as_of, top) for row in rows.to_dicts()],
        "caution": roots_cautions(settings),
        "keep": "This paper names clients: keep it from others' eyes, and shred it when the week is over.",
        "nobody": "Nobody is due.",
    }
    period = (f"week of {when}" if week else when) + (f", {stylist}" if stylist else "")
    return paper("roots", data, settings, title="Roots due", period=period, made_on=as_of)


def _printed(row: Row, settings: Settings, today: date, top: float) -> Row:
    lengths = settings.roots.of(row["kind"])
    low, high = wording.number(row["regrowth_low_mm"], settings), wording.mm(row["regrowth_high_mm"], settings)
    ends = [row["regrowth_low_mm"], row["regrowth_high_mm"], row["regrowth_mm"]]
    marks = [*ends, lengths.touch_up_from_mm, lengths.touch_up_by_mm]
    reach = row["phone"] or row["email"] if row["may_contact"] else "may not be contacted"
    return {
        "client": row["client"] or row["client_id"],
        "reach": reach or "no phone or mail on record",
        "since": said.how_long_since(row, settings),
        "length": f"{wording.mm(row['regrowth_mm'], settings)} ({low}–{high})",
        "marks": [along(mark, top) for mark in marks],
        "when": _lines(said.when_she_is_due(row, settings, today), said.what_waiting_costs(row, settings, today)),
        "usual": _lines(said.what_is_usual(row, settings), said.what_was_mixed(row, settings, today)),
        "more": _lines(
            said.about_the_skin_test(row, settings, today),
            said.next_in_the_book(row, settings, today),
            said.what_she_said(row, settings, today),
        ),
    }


def _lines(*texts: str) -> list[str]:
    return [text for text in texts if text]
