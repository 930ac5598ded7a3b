"""How many new clients come back, and how soon, by the quarter and the kind of their first visit.

A client belongs to the quarter of their first completed visit on record, and to the kind of work that took most of that
visit by the menu (of equal lines, the first). They have returned with their next completed visit of any kind on a later
day. The shares are Kaplan–Meier: whoever came last week has not had the time to return, so they count as still out
after the days that have gone by, not as gone for good. A share within 6, 8 or 12 weeks stays empty where no client of
the group was followed for so long; low and high are its 95 % confidence band (Greenwood, on the scale log(−log share);
empty where nobody or everybody has returned). The median is the first day on which half have returned; it stays empty
where that was not reached. The first quarters on record also hold clients who came before it begins: they are not new.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import CLIENTS, QUARTER, SHARE, TEXT, WHOLE_DAYS, Column, Figure, Result
from analytics.methods.survival import Waiting, kaplan_meier
from analytics.records.clients.first_visits import first_visits

RESULT = Result(
    "one row per quarter of the first visit and kind",
    key=("cohort", "kind"),
    columns={
        "cohort": Column(QUARTER, "quarter of the client's first completed visit on record"),
        "kind": Column(TEXT, "kind of the main line of that visit"),
        "clients": Column(CLIENTS, "clients who first came then"),
        **{
            column: told
            for weeks in (6, 8, 12)
            for column, told in (
                (f"returned_{weeks}w", Column(SHARE, f"share that has returned within {weeks} weeks")),
                (f"returned_{weeks}w_low", Column(SHARE, "low end of its 95 % confidence band")),
                (f"returned_{weeks}w_high", Column(SHARE, "high end of its 95 % confidence band")),
            )
        },
        "median_days": Column(WHOLE_DAYS, "days until half have returned; empty where that was not reached"),
        "returned": Column(CLIENTS, "clients who have returned so far"),
    },
)

WEEKS = (6, 8, 12)


def returns(bookings: pl.DataFrame, services: pl.DataFrame, *, as_of: date) -> pl.DataFrame:
    """One row per quarter of the first visit and kind; shares 0–1, days."""
    groups = first_visits(bookings, services, as_of).sort("cohort", "kind").group_by("cohort", "kind")
    rows = [_row(str(cohort), str(kind), group) for (cohort, kind), group in groups]
    return RESULT.shape(pl.DataFrame(rows, schema=RESULT.schema).sort("cohort", "kind"))


def returns_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, as_of: date) -> pl.DataFrame:
    """One row per client: the first visit, the next one, and how long they waited, or has waited so far."""
    return first_visits(bookings, services, as_of)


def _row(cohort: str, kind: str, group: pl.DataFrame) -> dict[str, object]:
    curve = kaplan_meier(group["days"], group["came_back"])
    known = {
        "cohort": cohort,
        "kind": kind,
        "clients": group.height,
        "returned": curve.events,
        "median_days": curve.median,
    }
    return known | {name: value for weeks in WEEKS for name, value in _within(curve, weeks).items()}


def _within(curve: Waiting, weeks: int) -> dict[str, float | None]:
    share, low, high = curve.ended(7 * weeks)
    return {f"returned_{weeks}w": share, f"returned_{weeks}w_low": low, f"returned_{weeks}w_high": high}


FIGURE = Figure(returns, returns_rows, RESULT)
