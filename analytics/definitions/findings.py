"""The catalogue of what can be wrong with exports, single hits of it, and hits of one cause as one finding."""

import re
from collections.abc import Mapping, Sequence

import polars as pl

from analytics.definitions import faults_of_files, faults_of_rows, faults_seen_together

CATALOGUE = {
    fault.code: fault for fault in (*faults_of_files.FAULTS, *faults_of_rows.FAULTS, *faults_seen_together.FAULTS)
}

SCHEMA = {
    "code": pl.String(),
    "file": pl.String(),
    "row": pl.Int64(),
    "column": pl.String(),
    "value": pl.String(),
    "count": pl.Int64(),
    "message": pl.String(),
    "what_to_do": pl.String(),
    "rows": pl.String(),
}
HITS = {
    "code": pl.String(),
    "table": pl.String(),
    "file": pl.String(),
    "row": pl.Int64(),
    "column": pl.String(),
    "value": pl.String(),
    "expected": pl.String(),
}
NO_HITS = pl.DataFrame(schema=HITS)
Headings = Mapping[tuple[str, str], str]
"""By file and column: the heading that the file has for it."""
UNSEEN = re.compile(r"[\s\x00-\x1f\x7f-\xa0\u00ad\u200b-\u200f\u2028-\u202f\u2060-\u206f\ufeff]+")
Said = str | pl.Expr | pl.Series | None
MOST_VALUES = 20  # more different values than this under one column of one file are one cause
FIRST_ROWS = 5


def hits(rows: Sequence[tuple[str, str, str, int | None, str | None, str | None, str | None]]) -> pl.DataFrame:
    """Single hits (code, table, file, row, column, value, expected) as a frame."""
    return pl.DataFrame(rows, schema=HITS, orient="row") if rows else NO_HITS.clone()


def hits_in(
    rows: pl.DataFrame, code: str, table: Said, column: Said, *, value: Said = None, expected: Said = None
) -> pl.DataFrame:
    """A hit for each of the rows, which have file and row. What is said of them: one text, or one for each row."""
    said = {"code": code, "table": table, "column": column, "value": value, "expected": expected}
    texts = {name: text if isinstance(text, (pl.Expr, pl.Series)) else pl.lit(text) for name, text in said.items()}
    return rows.select("file", "row", **texts).select(pl.col(name).cast(kind) for name, kind in HITS.items())


def in_general(template: str) -> str:
    """The sentence of the catalogue with an ellipsis for each value."""
    for name in ("file", "row", "column", "heading", "plain", "value", "value!r", "table", "expected", "count"):
        template = template.replace(f"{{{name}}}", "…")
    return template


class _Cell(str):
    """A cell in a sentence: in quotation marks as it looks, without signs that nobody sees."""

    __slots__ = ()

    def __repr__(self) -> str:
        return f'"{" ".join(UNSEEN.sub(" ", self).split())}"'


def _sentences(row: dict[str, object], headings: Headings) -> dict[str, str]:
    fault = CATALOGUE[str(row["code"])]
    values: dict[str, object] = {name: "" if row[name] is None else row[name] for name in row}
    plain = str(values["column"]).replace("_", " ")
    heading = headings.get((str(row["file"]), str(row["column"])), plain)
    values |= {"value": _Cell(values["value"]), "plain": plain, "heading": " ".join(UNSEEN.sub(" ", heading).split())}
    message = fault.says.format(**values)
    if int(str(row["count"])) > 1:
        message += f" ({row['count']} rows like it)"
    return {"message": message + ".", "what_to_do": fault.what_to_do.format(**values) + "."}


def summarise(found: pl.DataFrame, headings: Headings | None = None) -> pl.DataFrame:
    """One row per cause from single hits: the first row, how many, the first rows, the sentence and what to do.

    headings: what files call their columns. found: frame of HITS. Hits of one code, file, column and value are one
    cause; where one column of one file has more than MOST_VALUES different values, all of them are one cause.
    """
    place = ["code", "table", "file", "column"]
    causes = (
        found.with_columns(_many=pl.col("value").n_unique().over(place) > MOST_VALUES)
        .with_columns(_cause=pl.when("_many").then(pl.lit(None)).otherwise("value"))
        .sort("row", nulls_last=True)
        .group_by([*place, "_cause"], maintain_order=True)
        .agg(
            pl.col("row", "value", "expected").first(),
            count=pl.len().cast(pl.Int64),
            rows=pl.col("row").head(FIRST_ROWS).cast(pl.String).str.join(", "),
        )
        .sort("file", "row", "code", "column", "_cause", nulls_last=True)
    )
    texts = pl.DataFrame(
        [_sentences(row, headings or {}) for row in causes.iter_rows(named=True)],
        schema={"message": pl.String(), "what_to_do": pl.String()},
    )
    return pl.concat([causes, texts], how="horizontal").select(pl.col(name).cast(kind) for name, kind in SCHEMA.items())
