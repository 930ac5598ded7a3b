"""The list of whom to ask for a root touch-up, put together from figures, and sorted by what waiting a week costs.

On this week's list stand clients who are ready, past one application or nearing. On a later week's list stand those for
whom something happens in it: her roots become ready, pass one application, or she is likely to come. Nobody who is
booked for her roots or has gone quiet is on a list.

What waiting costs: first come those who pass one application within the week, since after it the booking is longer and
dearer; then everybody by how much of her chance of return another week without a visit takes. Whoever was asked in the
last seven days comes after the others.
"""

from datetime import date, timedelta

import polars as pl

from analytics.storage.asked import Mark

WEEK = timedelta(days=7)
DUE_STATES = ("ready", "long_past", "nearing")
NOT_ASKED = ("booked", "quiet")
KEY = ["site", "client_id"]
MARKS = {
    "site": pl.String(),
    "client_id": pl.String(),
    "asked_on": pl.Date(),
    "answer": pl.String(),
    "asked_by": pl.String(),
}


def everybody(
    roots: pl.DataFrame, cards: pl.DataFrame, clients: pl.DataFrame, marks: list[Mark], *, as_of: date
) -> pl.DataFrame:
    """Every row of the figure roots with her card, phone and email where she may be contacted, and her mark.

    Added: passes_soon (passes one application within a week), chance_lost (by another week without a visit), asked_on,
    answer and asked_by of the last mark since her last root visit, just_asked (in the last seven days).
    """
    key = KEY if (clients["site"] != "").any() else ["client_id"]
    contacts = clients.select(*key, "phone", "email").unique(key, keep="first", maintain_order=True)
    return (
        roots.join(cards, on=KEY, how="left", maintain_order="left")
        .join(contacts, on=key, how="left", maintain_order="left")
        .join(_marked(marks), on=KEY, how="left", maintain_order="left")
        .with_columns(pl.when("may_contact").then(pl.col("phone", "email")))
        .with_columns(
            pl.when(pl.col("asked_on") > pl.col("last_root_on")).then(pl.col("asked_on", "answer", "asked_by"))
        )
        .with_columns(
            passes_soon=pl.col("state").is_in(["ready", "nearing"]) & (pl.col("ready_by") < as_of + WEEK),
            chance_lost=pl.col("chance_of_return") - pl.col("chance_next_week"),
            just_asked=(pl.col("asked_on") > as_of - WEEK).fill_null(False),
        )
    )


def _marked(marks: list[Mark]) -> pl.DataFrame:
    rows = [(mark.site, mark.client_id, mark.day, mark.answer, mark.stylist) for mark in marks]
    return pl.DataFrame(rows, schema=MARKS, orient="row")


def due(listed: pl.DataFrame, week: date | None = None) -> pl.DataFrame:
    """Whom to ask this week, or in the week that begins on the Monday `week`, what costs most by waiting first.

    listed: rows of `everybody`.
    """
    if week is None:
        chosen = pl.col("state").is_in(DUE_STATES)
    else:
        happens = [_within(name, week) for name in ("ready_from", "ready_by", "expected_on")]
        chosen = ~pl.col("state").is_in(NOT_ASKED) & pl.any_horizontal(happens)
    return listed.filter(chosen).sort(
        "just_asked", "passes_soon", "chance_lost", "ready_by", *KEY,
        descending=[False, True, True, False, False, False], nulls_last=True,
    )  # fmt: skip


def _within(name: str, week: date) -> pl.Expr:
    return pl.col(name).is_between(week, week + WEEK, closed="left")


def to_call(listed: pl.DataFrame) -> pl.DataFrame:
    """This week's list without those who may not be contacted."""
    return due(listed).filter("may_contact")
