"""Months whose visits have next to no payments, bowls or retail sales, though nearly all other months have them.

A salon that began later or never keeps a table is not judged; one that stopped keeping it long ago is not either.
"""

import polars as pl

from analytics.checks.cross_checks.cross_check import CrossCheck, Tables, number, with_lineage, with_site
from analytics.settings import Settings

KEPT = {
    "payments": ("paid_at", "payments"),
    "product_log": ("logged_at", "rows of the product log"),
    "sales": ("sold_at", "retail sales"),
}
FEWEST_ROWS = 40  # of a month that usually has fewer, none may be chance
LEAST_SHARE = 0.2  # of the rows that are usual for as many lines; an export that overlaps by a day leaves some
NEARLY_ALL = 0.75  # of the months since the first row have rows, if the table is kept at all
FEWEST_MONTHS = 4
MONTH = pl.col("day").dt.truncate("1mo").alias("month")


def kept_months(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per site, table and month with completed lines: rows, how many are usual for so many lines, and their share.

    share is null where that can't be judged. file and row are those of the month's first booking line.
    """
    judged = pl.concat(_judged(_worked(tables), tables[name], name) for name in KEPT)
    return with_lineage(judged, tables["bookings"]).sort("site", "month", "table")


def silent(tables: Tables, name: str) -> pl.DataFrame:
    """The months that are a finding of this table: site, month."""
    judged = _judged(_worked(tables), tables[name], name)
    return judged.filter(pl.col("share") < LEAST_SHARE).select("site", "month")


def _worked(tables: Tables) -> pl.DataFrame:
    """Per site and month with completed lines: how many, and the place of the first in file order."""
    done = (
        tables["bookings"]
        .select("site", "status", day=pl.col("starts_at").dt.date())
        .with_row_index("place")
        .filter(pl.col("status") == "completed")
    )
    days = done.group_by("site", "day").agg(pl.col("place").min(), lines=pl.len())
    return days.group_by("site", MONTH).agg(pl.col("place").min(), pl.col("lines").sum())


def _judged(months: pl.DataFrame, table: pl.DataFrame, name: str) -> pl.DataFrame:
    at, said = KEPT[name]
    days = table.group_by("site", day=pl.col(at).dt.date()).agg(rows=pl.len())
    counted = days.group_by("site", MONTH).agg(pl.col("rows").sum())
    rows, known = pl.col("rows").fill_null(0), pl.col("rows") > 0
    per_line = (pl.col("rows") / pl.col("lines")).median().over("site")
    usual, since = per_line * pl.col("lines"), pl.col("month") > pl.col("month").filter(known).min().over("site")
    kept = (known.sum().over("site") >= FEWEST_MONTHS) & (
        known.filter(since).sum().over("site") >= NEARLY_ALL * since.sum().over("site")
    )
    share = pl.when(since & kept & (usual >= FEWEST_ROWS)).then(rows / usual)
    joined = months.join(counted, on=["site", "month"], how="left")
    return joined.with_columns(rows=rows, usual=usual, share=share, table=pl.lit(name), said=pl.lit(said))


CROSS_CHECKS = (
    CrossCheck(
        "silent_month",
        "bookings",
        "starts_at",
        number("share", "rows of the month as a share of what is usual for its lines", low=LEAST_SHARE),
        kept_months,
        value=with_site(pl.col("month").dt.strftime("%Y-%m")),
        expected=pl.format("{} {} where about {} are usual", "rows", "said", pl.col("usual").round(0).cast(pl.Int64)),
    ),
)
