"""What became of the exports: rows by table, findings by cause. Frames of the loaded book in and out."""

import polars as pl

from analytics.definitions.columns import NOBODY
from analytics.definitions.findings import CATALOGUE

FATES = ("rows_read", "rows_used", "repeats", "superseded", "set_aside")


def rows_by_table(files: pl.DataFrame) -> pl.DataFrame:
    """Row accounting by table, most rows first: table, rows_read = rows_used + repeats + superseded + set_aside.

    files: those of the book, a row per file.
    """
    return (
        files.group_by("table")
        .agg(pl.col(FATES).sum())
        .sort("rows_read", "table", descending=[True, False], nulls_last=True)
    )


def used_tables(files: pl.DataFrame) -> list[str]:
    """The tables of which rows are used, of those that exports brought."""
    used = files.filter((pl.col("rows_used") > 0) & pl.col("table").is_not_null())
    return sorted(used["table"].unique())


def known_clients(tables: dict[str, pl.DataFrame]) -> int:
    """How many clients visits, purchases and lists tell of; who was erased is none."""
    who = ["site", "client_id"]
    seen = pl.concat([tables[name].select(who) for name in ("bookings", "sales")]).drop_nulls("client_id").unique()
    seen = seen.filter(~pl.col("client_id").str.contains(NOBODY))
    listed = tables["clients"].select(who).unique()
    on = who if (listed["site"] != "").any() else ["client_id"]  # a list that names no salon is every salon's
    return seen.height + listed.join(seen, on=on, how="anti").height


def findings_by_cause(findings: pl.DataFrame) -> pl.DataFrame:
    """Findings of one code and column as one: the first in words, count (rows) and files; what was set aside first.

    findings: those of the book, a row per code, file, column and value.
    """
    aside = [code for code, fault in CATALOGUE.items() if fault.sets_aside]
    return (
        findings.group_by("code", "column", maintain_order=True)
        .agg(pl.col("message", "what_to_do").first(), pl.col("count").sum(), files=pl.col("file").n_unique())
        .sort(pl.col("code").is_in(aside), descending=True, maintain_order=True)
    )
