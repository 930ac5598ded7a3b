"""Sheets told apart by table, and records by whether they can be rows of it at all."""

import json
from collections.abc import Sequence
from dataclasses import dataclass, field

import polars as pl

from analytics.definitions import findings
from analytics.definitions.columns import CORRECTS
from analytics.intake.cells.made import Made
from analytics.intake.evidence.plan import Plan
from analytics.intake.meaning.heading_row import MOST_ABOVE, cells_of, find_headings
from analytics.intake.meaning.match import NOT_USED, Match
from analytics.intake.meaning.sheets import Sheet
from analytics.intake.meaning.table_rules import LEFT_OUT, told_table
from analytics.intake.meaning.words import TOTAL_WORDS
from analytics.intake.meaning.words.spelling import folded
from analytics.intake.reading.find import Export
from analytics.intake.reading.split import LEADING, MOST_COLUMNS
from analytics.settings import Settings

FEW = 0.1  # share of records


@dataclass(frozen=True)
class Recognised:
    """A sheet by name and what it is.

    match: the table and which cell holds which column, None where the headings fit no table. headings: the cells of
    the heading row. rows: the records that can be rows, as in split_records. faulty: the others, with `fault`.
    left_out: salon.toml says that nothing of it is to be read. constants: by column, what all its rows say. cents:
    columns whose amounts stand in cents.
    """

    name: str
    export: Export
    match: Match | None
    headings: list[str]
    rows: pl.DataFrame
    faulty: pl.DataFrame
    passed_over: tuple[str, ...] = ()
    left_out: bool = False
    constants: dict[str, str] = field(default_factory=dict)
    cents: tuple[str, ...] = ()

    @property
    def rows_read(self) -> int:
        return self.rows.height + self.faulty.height

    @property
    def unused(self) -> tuple[str, ...]:
        """Headings with something under them that mean no column, though salon.toml does not say that they do not."""
        why = self.match.why if self.match else ()
        return tuple(
            meaning.heading
            for at, meaning in enumerate(why)
            if meaning.column is None and meaning.by.startswith(NOT_USED) and meaning.heading.strip()
            if f"c{at}" in self.rows.columns and (self.rows[f"c{at}"] != "").any()
        )

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

    def read(self, noted: pl.DataFrame | None = None, made: Sequence[Made] = ()) -> "Read":
        """What is kept of the sheet once its rows are in the book; noted: hits of what was found while reading them;
        made: columns it does not have."""
        hidden = [("hidden_sheet", "", self.name, None, None, title, None) for title in self.passed_over]
        odd = pl.concat([findings.hits(hidden), findings.hits([]) if noted is None else noted])
        cells = {row: json.dumps(named, ensure_ascii=False) for row, named in self.cells(self.faulty["row"]).items()}
        return Read(
            self.name,
            self.export,
            self.match,
            self.rows_read,
            self.hits(),
            cells,
            odd,
            self.left_out,
            self.unused,
            tuple(made),
        )

    def _named(self, cells: list[str]) -> dict[str, str]:
        extra = [f"cell {number + 1}" for number in range(len(self.headings), len(cells))]
        return dict(zip([*self.headings, *extra], cells, strict=False))


@dataclass(frozen=True)
class Read:
    """A sheet after its rows went into the book: how many there were, and the faulty ones with their cells as JSON.

    noted: hits of what wants a look and was used all the same, or passed over. unused: headings that mean no column.
    """

    name: str
    export: Export
    match: Match | None
    rows_read: int
    faulty: pl.DataFrame
    cells: dict[int, str]
    noted: pl.DataFrame
    left_out: bool = False
    unused: tuple[str, ...] = ()
    made: tuple[Made, ...] = ()


def recognise(sheet: Sheet, settings: Settings, plan: Plan) -> Recognised:
    """A sheet as it was planned; by its words alone where the plan does not know it, as where it corrects rows.

    Raises WorkStopped where its words are a table's but lack a column it needs, or name one twice.
    """
    settings = as_corrected(sheet, settings)
    if told_table(sheet.name, settings) == LEFT_OUT:
        return left_out(sheet)
    known = plan.sheets.get(sheet.name)
    if known is not None:
        found: tuple[int, Match] | None = (known.at, known.match)
    else:
        passed = sheet.name in plan.passed_by or _empty_form(sheet)
        found = None if passed else find_headings(sheet.records, sheet.name, settings)
    if found is None:
        rows, nothing = sheet.records.slice(1), _no_faults(sheet.records)
        return Recognised(sheet.name, sheet.export, None, [], rows, nothing, sheet.passed_over)
    at, match = found
    headings = cells_of(sheet.records, at)
    below = sheet.records.slice(at + 1)
    most = len(headings) if _few_are_longer(below, len(headings)) else MOST_COLUMNS
    suspect = below.select(_suspect(headings, _width(below), most)).to_series()
    judged = below.filter(suspect).with_columns(fault=_fault(headings, _width(below), most))
    faulty = judged.drop_nulls("fault")
    rows = below if faulty.is_empty() else below.join(faulty, on="row", how="anti", maintain_order="left")
    constants, cents = (known.constants, known.cents) if known else ({}, ())
    return Recognised(
        sheet.name, sheet.export, match, headings, rows, faulty, sheet.passed_over, constants=constants, cents=cents
    )


def as_corrected(sheet: Sheet, settings: Settings) -> Settings:
    """Settings by which rows that correct a file's are read as that file is, whatever their own file is called."""
    corrected = _file_corrected(sheet.records) if settings.tables else None
    told = told_table(corrected, settings) if corrected else None
    if told is None or told_table(sheet.name, settings) is not None:
        return settings
    return settings.model_copy(update={"tables": settings.tables | {sheet.name: told}})


def _file_corrected(records: pl.DataFrame) -> str | None:
    """The file that the first row says it corrects."""
    for at in range(min(MOST_ABOVE, records.height - 1)):
        cells = list(map(folded, cells_of(records, at)))
        if CORRECTS[0] in cells:
            return str(records[f"c{cells.index(CORRECTS[0])}"][at + 1]).removeprefix("'")
    return None


def _empty_form(sheet: Sheet) -> bool:
    """Whether it is one of several sheets and has nothing below its headings."""
    return "#" in sheet.name and sheet.records.height == 1


def left_out(sheet: Sheet) -> Recognised:
    """Nothing of it."""
    nothing = sheet.records.clear()
    return Recognised(sheet.name, sheet.export, None, [], nothing, _no_faults(nothing), left_out=True)


def _no_faults(records: pl.DataFrame) -> pl.DataFrame:
    return records.clear().with_columns(fault=pl.lit(None, pl.String))


def _first_cell() -> pl.Expr:
    """The first cell with something in it."""
    return pl.coalesce(pl.all().exclude(*LEADING, "fault").str.strip_chars().replace("", None))


def _width(records: pl.DataFrame) -> int:
    return records.width - len(LEADING)


def _few_are_longer(below: pl.DataFrame, width: int) -> bool:
    """Whether a few records have more cells than there are headings, if only empty ones: a separator that belongs to a
    cell moves all behind it. Where many have, they end with a separator."""
    longer = int((below["count"] > width).sum())
    return 0 < longer <= FEW * below.height


def _suspect(headings: list[str], width: int, most: int) -> pl.Expr:
    """Whether a record has to be looked at whole: most can be told to be rows by their first cell and their count."""
    first = pl.col("c0").str.strip_chars()
    beyond = [pl.col(f"c{at}") != "" for at in range(len(headings), width)]
    odd_count = (pl.col("count") < len(headings)) | (pl.col("count") > most)
    return pl.any_horizontal("spoilt", odd_count, first == "", first == headings[0].strip(), _total(first), *beyond)


def _total(cell: pl.Expr) -> pl.Expr:
    return cell.str.strip_chars_end(":").str.to_lowercase().is_in(sorted(TOTAL_WORDS))


def _fault(headings: list[str], width: int, most: int) -> pl.Expr:
    """The code of a record that cannot be a row, else null."""
    same = [pl.col(f"c{at}").str.strip_chars() == heading.strip() for at, heading in enumerate(headings) if at < width]
    beyond = [pl.col(f"c{at}").str.contains(r"\S") for at in range(len(headings), width)]
    ragged = (pl.col("count") < len(headings)) | (pl.col("count") > most) | pl.any_horizontal(False, *beyond)
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
