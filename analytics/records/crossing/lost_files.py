"""Where each export holds one stylist or one chair alone: times that no export of hers holds.

Leave lies within an export or is shorter than one; a time as long as a whole export, between two of hers, in which
others worked, looks like an export that was lost. Exports of a fortnight or less are not judged: leave is as long.
"""

import polars as pl

from analytics.records.crossing.judged import Crossing, Tables, number, with_lineage, with_site
from analytics.settings import Settings

ALONE = 0.9  # of the files hold one stylist or chair only, if exports come one by one
FEWEST_FILES, LEAST_DAYS = 3, 14
WHOLE = 0.9  # of the days of an export, first to last, as no export need begin or end with a visit

_BETWEEN = {"site": pl.String(), "who": pl.String(), "file": pl.String(), "place": pl.UInt32()} | {
    name: pl.Date() for name in ("first_day", "last_day")
}


def times_between(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per stylist (else chair) and two exports of hers that follow each other: exports, how many would fit between.

    last_day is her last day in the one before, first_day her first in the one after; file and row are those of the
    last line before. A time in which nobody else worked is left out.
    """
    columns = tables["bookings"].select("site", "stylist", "chair", "file", day=pl.col("starts_at").dt.date())
    lines = columns.with_row_index("place")
    spans = next((found for by in ("stylist", "chair") if (found := _spans(lines, by)) is not None), None)
    if spans is None:
        return with_lineage(pl.DataFrame(schema=_BETWEEN | {"exports": pl.Float64()}).drop("file"), tables["bookings"])
    usual = float((spans["last"] - spans["first"]).dt.total_days().median()) + 1  # type: ignore[arg-type]
    her = ["site", "who"]
    between = spans.sort(*her, "first").with_columns(
        pl.col("place").shift(1).over(her), first_day="first", last_day=pl.col("last").cum_max().shift(1).over(her)
    )
    days = (pl.col("first_day") - pl.col("last_day")).dt.total_days() - 1
    judged = between.with_columns(exports=days / usual).filter((days > 0) & (usual >= LEAST_DAYS))
    return with_lineage(_others_worked(judged, lines).drop("file"), tables["bookings"])


def _spans(lines: pl.DataFrame, by: str) -> pl.DataFrame | None:
    """Per stylist or chair and file: first and last day, place of the last line; None if they share their files."""
    named = lines.drop_nulls(by)
    people = named.select(pl.struct("site", by).n_unique()).item()
    alone = named.group_by("file").agg(alone=pl.struct("site", by).n_unique() == 1)["alone"]
    if people < 2 or len(alone) < FEWEST_FILES * people or float(alone.mean()) < ALONE:  # type: ignore[arg-type]
        return None
    return named.group_by("site", pl.col(by).alias("who"), "file").agg(
        first=pl.col("day").min(), last=pl.col("day").max(), place=pl.col("place").get(pl.col("day").arg_max())
    )


def _others_worked(between: pl.DataFrame, lines: pl.DataFrame) -> pl.DataFrame:
    days = lines.select("site", "day").unique()
    within = pl.col("day").is_between("last_day", "first_day", closed="none")
    worked = between.join(days, on="site").filter(within).select("site", "who", "first_day").unique()
    return between.join(worked, on=["site", "who", "first_day"], how="semi")


CROSSINGS = (
    Crossing(
        "lost_file",
        "bookings",
        "starts_at",
        number("exports", "exports that would fit between two of one stylist or chair", high=WHOLE),
        times_between,
        value=with_site(pl.col("who")),
        expected=pl.format("{} and {}", "last_day", "first_day"),
    ),
)
