"""Sheets told apart by table, and records by whether they can be rows of it at all."""

import json
from dataclasses import dataclass

import polars as pl

from analytics import findings
from analytics.intake.find import Export
from analytics.intake.heading_row import cells_of, find_headings
from analytics.intake.headings import Match
from analytics.intake.sheets import Sheet
from analytics.intake.split import LEADING, MOST_COLUMNS
from analytics.intake.words import TOTAL_WORDS
from analytics.settings import Settings


@dataclass(frozen=True)
class Recognised:
    """A sheet by name and what it is.

    match: the table and which cell holds which column, None where the headings fit no table. headings: the cells of
    the heading row. rows: the records that can be rows, as in split_records. faulty: the others, with `fault`.
    """

    name: str
    export: Export
    match: Match | None
    headings: list[str]
    rows: pl.DataFrame
    faulty: pl.DataFrame
    passed_over: tuple[str, ...] = ()

    @property
    def rows_read(self) -> int:
        return self.rows.height + self.faulty.height

    def hits(self) -> pl.DataFrame:
        """The faulty records as findings.HITS."""
        expected = str(len(self.headings))
        ragged = pl.col("fault") == "ragged_row"
        value = pl.when(ragged).then(pl.col("count").cast(pl.String)).otherwise(_first_cell())
        column = pl.when(~ragged).then(pl.lit(self.headings[0] if self.headings else None))
        return self.faulty.select(
            code="fault",
            table=pl.lit(self.match.table.name if self.match else ""),
            file=pl.lit(self.name),
            row="row",
            column=column,
            value=value,
            expected=pl.lit(expected),
        )

    def cells(self, rows: pl.Series) -> dict[int, dict[str, str]]:
        """Of each of these rows the cells as they were typed, under their headings."""
        chosen = pl.concat([self.rows, self.faulty.drop("fault")]).filter(pl.col("row").is_in(rows.implode()))
        return {int(chosen["row"][at]): self._named(cells_of(chosen, at)) for at in range(chosen.height)}

    def read(self, noted: pl.DataFrame | None = None) -> "Read":
        """What is kept of the sheet once its rows are in the book; noted: hits of what was found while reading them."""
        hidden = [("hidden_sheet", "", self.name, None, None, title, None) for title in self.passed_over]
        odd = pl.concat([findings.hits(hidden), findings.hits([]) if noted is None else noted])
        cells = {row: json.dumps(named, ensure_ascii=False) for row, named in self.cells(self.faulty["row"]).items()}
        return Read(self.name, self.export, self.match, self.rows_read, self.hits(), cells, odd)

    def _named(self, cells: list[str]) -> dict[str, str]:
        extra = [f"cell {number + 1}" for number in range(len(self.headings), len(cells))]
        return dict(zip([*self.headings, *extra], cells, strict=False))


@dataclass(frozen=True)
class Read:
    """A sheet after its rows went into the book: how many there were, and the faulty ones with their cells as JSON.

    noted: hits of what wants a look and was used all the same, or passed over.
    """

    name: str
    export: Export
    match: Match | None
    rows_read: int
    faulty: pl.DataFrame
    cells: dict[int, str]
    noted: pl.DataFrame


def recognise(sheet: Sheet, settings: Settings) -> Recognised:
    """Raises WorkStopped where the headings are a table's but lack a column it needs, or name one twice."""
    found = find_headings(sheet.records, sheet.name, settings)
    if found is None:
        nothing = sheet.records.clear().with_columns(fault=pl.lit(None, pl.String))
        return Recognised(sheet.name, sheet.export, None, [], sheet.records.slice(1), nothing, sheet.passed_over)
    at, match = found
    headings = cells_of(sheet.records, at)
    below = sheet.records.slice(at + 1)
    suspect = below.select(_suspect(headings, _width(below))).to_series()
    judged = below.filter(suspect).with_columns(fault=_fault(headings, _width(below)))
    faulty = judged.drop_nulls("fault")
    rows = below if faulty.is_empty() else below.join(faulty, on="row", how="anti", maintain_order="left")
    return Recognised(sheet.name, sheet.export, match, headings, rows, faulty, sheet.passed_over)


def _first_cell() -> pl.Expr:
    """The first cell with something in it."""
    return pl.coalesce(pl.all().exclude(*LEADING, "fault").str.strip_chars().replace("", None))


def _width(records: pl.DataFrame) -> int:
    return records.width - len(LEADING)


def _suspect(headings: list[str], width: int) -> pl.Expr:
    """Whether a record has to be looked at whole: most can be told to be rows by their first cell and their count."""
    first = pl.col("c0").str.strip_chars()
    beyond = [pl.col(f"c{at}") != "" for at in range(len(headings), width)]
    odd_count = (pl.col("count") < len(headings)) | (pl.col("count") > MOST_COLUMNS)
    return pl.any_horizontal("spoilt", odd_count, first == "", first == headings[0].strip(), _total(first), *beyond)


def _total(cell: pl.Expr) -> pl.Expr:
    return cell.str.strip_chars_end(":").str.to_lowercase().is_in(sorted(TOTAL_WORDS))


def _fault(headings: list[str], width: int) -> pl.Expr:
    """The code of a record that cannot be a row, else null."""
    same = [pl.col(f"c{at}").str.strip_chars() == heading.strip() for at, heading in enumerate(headings) if at < width]
    beyond = [pl.col(f"c{at}").str.contains(r"\S") for at in range(len(headings), width)]
    ragged = (pl.col("count") < len(headings)) | (pl.col("count") > MOST_COLUMNS) | pl.any_horizontal(False, *beyond)
    return (
        pl.when("spoilt")
        .then(pl.lit("open_quotation"))
        .when(_total(_first_cell()))
        .then(pl.lit("total_line"))
        .when(pl.all_horizontal(same))
        .then(pl.lit("repeated_heading"))
        .when(ragged)
        .then(pl.lit("ragged_row"))
    )
