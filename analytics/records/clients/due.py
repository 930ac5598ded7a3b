"""Who was due in a month, by the gaps she left before, and how those who came stood: due, later, early or new.

A client is due her usual gap after her last visit: the median of her last five gaps once she has two, until then the
median gap of all clients in the months before that visit, or six weeks where there are none. Of a month, what counts is
what was known when it began.
"""

from collections.abc import Mapping

import polars as pl

from analytics.periods import Period, in_spans
from analytics.records.clients.root_visits import CLIENT

GAPS, LEAST_GAPS, SIX_WEEKS = 5, 2, 42.0
STANDINGS = ("came_due", "came_later", "came_early", "came_new")


def standings(visits: pl.DataFrame, spans: Mapping[str, Period]) -> pl.DataFrame:
    """One row per span: month (its name), clients_due, clients_came of them, and visits by STANDINGS.

    visits: those of records/clients/visits. A client's visits of a span all count by how she stood at its start: due
    in it, due before it, due only after it, or new to the book.
    """
    known = _with_due(visits.filter("came"))
    bounds = pl.DataFrame(
        [(name, span.start, span.end) for name, span in spans.items()],
        schema={"month": pl.String(), "_start": pl.Date(), "_end": pl.Date()},
        orient="row",
    )
    came = (
        in_spans(known, "starts_at", spans)
        .join(bounds, on="month", maintain_order="left")
        .group_by("month", *CLIENT, maintain_order=True)
        .agg(pl.col("due_before", "_start", "_end").first(), visits=pl.len())
    )
    due = pl.col("due_before")
    standing = (
        pl.when(due.is_null())
        .then(pl.lit("came_new"))
        .when(due < pl.col("_start"))
        .then(pl.lit("came_later"))
        .when(due < pl.col("_end"))
        .then(pl.lit("came_due"))
        .otherwise(pl.lit("came_early"))
    )
    of_standing = [pl.col("visits").filter(pl.col("standing") == name).sum().alias(name) for name in STANDINGS]
    counted = (
        came.with_columns(standing=standing)
        .group_by("month")
        .agg(*of_standing, clients_came=(pl.col("standing") == "came_due").sum())
    )
    return (
        bounds.select("month")
        .join(_clients_due(known, spans, bounds), on="month", how="left", maintain_order="left")
        .join(counted, on="month", how="left", maintain_order="left")
        .with_columns(pl.exclude("month").fill_null(0).cast(pl.Int64))
    )


def _clients_due(known: pl.DataFrame, spans: Mapping[str, Period], bounds: pl.DataFrame) -> pl.DataFrame:
    """Per span: clients whose last visit before it makes them due in it."""
    then = (pl.col("day") < pl.col("_start")) & (
        pl.col("next_day").is_null() | (pl.col("next_day") >= pl.col("_start"))
    )
    return (
        in_spans(known.drop("starts_at"), "due_after", spans)
        .join(bounds, on="month", maintain_order="left")
        .filter(then)
        .group_by("month")
        .agg(clients_due=pl.len())
    )


def _with_due(came: pl.DataFrame) -> pl.DataFrame:
    """Visits in order of client and time, with due_before (by the visits before it), due_after and next_day."""
    gap = pl.col("day").diff().dt.total_days().cast(pl.Float64)
    own = pl.col("gap").rolling_median(GAPS, min_samples=LEAST_GAPS)
    rows = (
        came.select(*CLIENT, "starts_at", "day")
        .sort(*CLIENT, "starts_at")
        .with_columns(gap=gap.over(CLIENT), first=pl.col("day").dt.month_start())
        .with_columns(pl.when(pl.col("gap") > 0).then("gap"))
    )
    of_all = _gaps_before(rows)
    due = pl.col("day") + pl.duration(days=pl.coalesce("own", "of_all").round())
    return (
        rows.with_columns(own=own.over(CLIENT))
        .join(of_all, on="first", how="left", maintain_order="left")
        .with_columns(due_after=due.cast(pl.Date()), next_day=pl.col("day").shift(-1).over(CLIENT))
        .with_columns(due_before=pl.col("due_after").shift(1).over(CLIENT))
    )


def _gaps_before(rows: pl.DataFrame) -> pl.DataFrame:
    """first (of a month), of_all: the median gap of the months before it."""
    known = rows.drop_nulls("gap")
    firsts = rows["first"].unique().sort().to_list()
    medians = [known.filter(pl.col("day") < first)["gap"].median() or SIX_WEEKS for first in firsts]
    return pl.DataFrame({"first": firsts, "of_all": medians}, schema={"first": pl.Date(), "of_all": pl.Float64()})
