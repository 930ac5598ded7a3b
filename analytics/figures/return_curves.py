"""How the share of clients who have returned grows week by week, for everybody and by kind, stylist and quarter.

The same clients and the same reckoning as the figure returns: first completed visit on record, next completed visit of
any kind on a later day, Kaplan–Meier with those still out counted as still out. Each row is one group after so many
weeks: the share returned by then with its 95 % confidence band, and how many clients are still waited for on that day
(the number at risk), for a share that rests on three clients is worth little. Weeks for which nobody of the group was
followed are left out. Most clients first seen in the first half year on record came before it begins, so where records
cover more than a year they count in their quarter alone, and not for everybody, a kind or a stylist. A group of 5
clients or more differs from everybody where its band does not hold everybody's share after as many weeks.
"""

from datetime import date, timedelta

import polars as pl

from analytics.definitions.results import CLIENTS, SHARE, TEXT, WEEKS, WHOLE_DAYS, YES_NO, Column, Figure, Result
from analytics.methods.survival import kaplan_meier
from analytics.records.clients.first_visits import first_visits

RESULT = Result(
    "one row per group of clients and week since their first visit",
    key=("split", "name", "week"),
    columns={
        "split": Column(TEXT, "what the clients are grouped by: everybody, kind, stylist or cohort"),
        "name": Column(TEXT, "the group: the kind or the stylist of the first visit, or its quarter"),
        "week": Column(WEEKS, "weeks since the first visit, 0 to 26"),
        "returned": Column(SHARE, "share that has returned by then"),
        "returned_low": Column(SHARE, "low end of its 95 % confidence band"),
        "returned_high": Column(SHARE, "high end of its 95 % confidence band"),
        "at_risk": Column(CLIENTS, "clients still waited for on that day (the number at risk)"),
        "clients": Column(CLIENTS, "clients in the group"),
        "median_days": Column(WHOLE_DAYS, "days until half have returned; empty where that was not reached"),
        "everybody_returned": Column(SHARE, "share of everybody that has returned after as many weeks"),
        "differs": Column(YES_NO, "the group's band does not hold that; empty for few clients and for everybody"),
    },
)

LAST_WEEK = 26
HALF_A_YEAR, YEAR = timedelta(days=182), timedelta(days=365)
EVERYBODY = "everybody"
FEW = 5  # fewer clients are not compared with all
SPLITS = (EVERYBODY, "kind", "stylist", "cohort")


def return_curves(bookings: pl.DataFrame, services: pl.DataFrame, *, as_of: date) -> pl.DataFrame:
    """One row per group and week; shares 0–1, days, clients."""
    clients = first_visits(bookings, services, as_of).with_columns(pl.lit(EVERYBODY).alias(EVERYBODY))
    rows = [
        {"split": split, "name": str(name)} | row
        for split in SPLITS
        for (name,), group in (clients if split == "cohort" else _new(clients, as_of)).drop_nulls(split).group_by(split)
        for row in _weeks(group)
    ]
    order = pl.col("split").replace_strict(dict(zip(SPLITS, range(len(SPLITS)), strict=True)), return_dtype=pl.Int64)
    schema = RESULT.schema
    curves = pl.DataFrame(rows, schema=schema).drop("everybody_returned", "differs")
    return RESULT.shape(_beside_everybody(curves).sort(order, "name", "week"))


def _beside_everybody(curves: pl.DataFrame) -> pl.DataFrame:
    """With everybody's share after as many weeks, and whether the group differs from it by more than its band."""
    everybody = curves.filter(split=EVERYBODY).select("week", everybody_returned="returned")
    judged = (pl.col("split") != EVERYBODY) & (pl.col("clients") >= FEW)
    inside = pl.col("everybody_returned").is_between("returned_low", "returned_high")
    return curves.join(everybody, on="week", how="left").with_columns(differs=pl.when(judged).then(~inside))


def _new(clients: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """Clients who are likely to have been new when they were first seen."""
    begins = clients["first_on"].min()
    if not isinstance(begins, date) or as_of - begins <= YEAR:
        return clients
    return clients.filter(pl.col("first_on") >= begins + HALF_A_YEAR)


def _weeks(group: pl.DataFrame) -> list[dict[str, object]]:
    curve = kaplan_meier(group["days"], group["came_back"])
    rows: list[dict[str, object]] = []
    for week in range(LAST_WEEK + 1):
        share, low, high = curve.ended(7 * week)
        if share is not None:
            at_risk = group.filter(pl.col("days") >= 7 * week).height
            rows.append(
                {"week": week, "returned": share, "returned_low": low, "returned_high": high, "at_risk": at_risk}
            )
    return [row | {"clients": group.height, "median_days": curve.median} for row in rows]


def return_curves_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, as_of: date) -> pl.DataFrame:
    """One row per client: the first visit, the next one, and how long they waited, or has waited so far."""
    return first_visits(bookings, services, as_of)


FIGURE = Figure(return_curves, return_curves_rows, RESULT)
