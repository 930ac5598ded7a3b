"""Where each export holds one stylist or one chair alone: times that no export of hers holds.

Leave lies within an export or is shorter than one; a time as long as a whole export, between two of hers, in which
others worked, looks like an export that was lost. Exports of a fortnight or less are not judged: leave is as long.
"""

import polars as pl

from analytics.checks.cross_checks.cross_check import CrossCheck, Tables, number, with_lineage, with_site
from analytics.settings import Settings

ALONE = 0.9  # of the files hold one stylist or chair only, if exports come one by one
FEWEST_FILES, LEAST_DAYS = 3, 14
WHOLE = 0.9  # of the days of an export, first to last, as no export need begin or end with a visit


def times_between(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per stylist (else chair) and two exports of hers that follow each other: exports, how many would fit between.

    last_day is her last day in the one before, first_day her first in the one after; file and row are those of the
    last line before. A time in which nobody else worked is left out.
    """
    spans = _spans(tables["bookings"])
    usual = float((spans["last"] - spans["first"]).dt.total_days().median() or 0) + 1  # type: ignore[arg-type]
    her = ["site", "who"]
    between = spans.sort(*her, "first").with_columns(
        pl.col("place").shift(1).over(her), first_day="first", last_day=pl.col("last").cum_max().shift(1).over(her)
    )
    days = (pl.col("first_day") - pl.col("last_day")).dt.total_days() - 1
    judged = between.with_columns(exports=days / usual).filter((days > 0) & (usual >= LEAST_DAYS))
    return with_lineage(_others_worked(judged, tables["bookings"]).drop("file"), tables["bookings"])


def _spans(bookings: pl.DataFrame) -> pl.DataFrame:
    """Per stylist or chair and file: first and last day, place of the last line; nothing if they share their files."""
    whole = (
        bookings.select("site", "stylist", "chair", "file", day=pl.col("starts_at").dt.date())
        .with_row_index("place")
        .group_by("site", "stylist", "chair", "file")
        .agg(first=pl.col("day").min(), last=pl.col("day").max(), place=pl.col("place").get(pl.col("day").arg_max()))
    )
    for by in ("stylist", "chair"):
        named = whole.drop_nulls(by).rename({by: "who"})
        people = named.select("site", "who").unique().height
        alone = named.group_by("file").agg(alone=pl.struct("site", "who").n_unique() == 1)["alone"]
        if people >= 2 and len(alone) >= FEWEST_FILES * people and alone.sum() >= ALONE * len(alone):
            latest = pl.col("place").get(pl.col("last").arg_max())
            return named.group_by("site", "who", "file").agg(pl.col("first").min(), latest, pl.col("last").max())
    return whole.clear().rename({"stylist": "who"}).drop("chair")


def _others_worked(between: pl.DataFrame, bookings: pl.DataFrame) -> pl.DataFrame:
    if between.is_empty():
        return between
    days = bookings.select("site", day=pl.col("starts_at").dt.date()).unique()
    within = pl.col("day").is_between("last_day", "first_day", closed="none")
    worked = between.join(days, on="site").filter(within).select("site", "who", "first_day").unique()
    return between.join(worked, on=["site", "who", "first_day"], how="semi")


CROSS_CHECKS = (
    CrossCheck(
        "lost_file",
        "bookings",
        "starts_at",
        number("exports", "exports that would fit between two of one stylist or chair", high=WHOLE),
        times_between,
        value=with_site(pl.col("who")),
        expected=pl.format("{} and {}", "last_day", "first_day"),
    ),
)
