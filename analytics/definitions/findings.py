"""The catalogue of what can be wrong with exports: code, what it says, what to do.

`sets_aside` tells whether a row with this fault is kept out of the figures. Sentences may use {file}, {row},
{column}, {value}, {table}, {expected} and {count}.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import polars as pl


@dataclass(frozen=True)
class Fault:
    code: str
    says: str
    what_to_do: str
    sets_aside: bool = True


CATALOGUE = {
    fault.code: fault
    for fault in (
        Fault(
            "unknown_table",
            "The headings of {file} fit no table of the reference (salon-figures reference)",
            'say what it is under [tables] in salon.toml ("" leaves it out) and what its headings mean under '
            "[columns.<table>]",
        ),
        Fault(
            "left_out",
            "Nothing of {file} was read, because [tables] in salon.toml leaves it out",
            "nothing, if it is not wanted; else take its line out of [tables]",
            sets_aside=False,
        ),
        Fault(
            "idle_rule",
            "No export is called {value!r}, which [tables] in {file} names",
            "correct the name, or take the line out",
            sets_aside=False,
        ),
        Fault(
            "heading_not_used",
            "Nothing that stands under {value} in {file} was used, since it means no column we know",
            "nothing, if no figure needs it; else say what it means under [columns.{table}] in salon.toml, or choose "
            'it on the page Exports and findings, where "not used" ends this sentence',
            sets_aside=False,
        ),
        Fault(
            "read_by_values",
            "What stands under {value!r} in {file} was read as {column}: {expected}",
            "nothing, if that is what it is; else say what it means under [columns.{table}] in salon.toml, or choose "
            "it on the page Exports and findings",
            sets_aside=False,
        ),
        Fault(
            "read_as_cents",
            "Amounts under {value!r} in {file} stand in cents, and were divided by 100",
            'nothing, if they do; else say [constants."{file}"] amounts = "whole" in salon.toml',
            sets_aside=False,
        ),
        Fault(
            "table_left_out",
            "Nothing in {file}, which looks like {table}, was read as {value}, so that it was left out",
            "name the heading that means it under [columns.{table}] in salon.toml, or say under [constants] what all "
            "its rows have in common",
            sets_aside=False,
        ),
        Fault(
            "column_made",
            "No column of {file} is {column}, so it was made: {value}",
            "nothing, if that will do; else add it to the export",
            sets_aside=False,
        ),
        Fault(
            "visit_once",
            "Neither day nor client stands in {value} rows of {file}; they were read as further lines of the visit "
            "above them",
            "nothing, if a visit is written once with blanks below; else fill the cells in",
            sets_aside=False,
        ),
        Fault(
            "menu_drafted",
            "No export is a menu, so one was drafted from the bookings: {value}",
            "look the kinds, prices and minutes over and keep them as an export of your own; figures by kind and by "
            "hour rest on them",
            sets_aside=False,
        ),
        Fault(
            "unknown_file",
            "{file} is not a kind of file we read",
            "export it as .csv, .xlsx or .ods, or take it out of exports/",
        ),
        Fault(
            "hidden_sheet",
            "A hidden sheet of {file}, {value!r}, was passed over",
            "show it in the spreadsheet and save the workbook again, if its rows should count",
            sets_aside=False,
        ),
        Fault(
            "rate_as_share",
            "Rates under {column} in {file} stand as shares such as {value}, as workbooks hold them; they were read as "
            "percent, this one as {expected} %",
            "export the rate as a percentage such as 21, if less than 1 % is meant",
            sets_aside=False,
        ),
        Fault(
            "share_as_percent",
            "Shares under {column} in {file} stand as percentages such as {value}; they were read as shares of 1, this "
            "one as {expected}",
            "write shares from 0 to 1, or a % sign behind each, if it bothers you",
            sets_aside=False,
        ),
        Fault(
            "read_as_nothing",
            "Row {row} of {file} says {value!r} under {column}, which was read as an empty cell",
            "write the value if there is one, 0 where 0 is meant; else nothing",
            sets_aside=False,
        ),
        Fault(
            "ragged_row",
            "Row {row} of {file} has {value} cells, but there are {expected} headings",
            "look for a missing or extra separator in that row",
        ),
        Fault(
            "open_quotation",
            "Row {row} of {file} has a quotation mark that is not closed or stands in mid-cell",
            "take the quotation mark out, or double it",
        ),
        Fault(
            "repeated_heading",
            "Row {row} of {file} repeats the headings",
            "nothing, it was skipped; take it out if it bothers you",
        ),
        Fault("total_line", "Row {row} of {file} is a total, not a record", "nothing, it was skipped"),
        Fault(
            "missing_value",
            "Row {row} of {file} has nothing under {column}, which is needed",
            "fill in {expected} and load again",
        ),
        Fault(
            "bad_date",
            "Row {row} of {file} says {value!r} under {column}, which is no day of the calendar",
            "write {expected}",
        ),
        Fault(
            "bad_number",
            "Row {row} of {file} says {value!r} under {column}, where a number was expected",
            "write {expected}",
        ),
        Fault(
            "unknown_word",
            "Row {row} of {file} says {value!r} under {column}, which is none of the words we know",
            "use {expected}, or map the word under [words.{column}] in salon.toml",
        ),
        Fault(
            "unknown_service",
            "Row {row} of {file} names the service {value!r}, which is not on the menu",
            "add it to the services export, or correct its name or id",
        ),
        Fault(
            "ambiguous_service",
            "Row {row} of {file} names the service {value!r}, which stands on the menu more than once",
            "give its service_id",
        ),
        Fault(
            "end_before_start",
            "Row {row} of {file} ends at {value} before it starts",
            "correct starts_at or ends_at",
        ),
        Fault(
            "end_too_late",
            "Row {row} of {file} ends at {value}, more than a day after it starts",
            "correct starts_at or ends_at; a wrong month or year is the usual slip",
        ),
        Fault(
            "unknown_product",
            "Row {row} of {file} names the product {value!r}, which is not in the products export, so it has no cost",
            "add it to the products export with pack_g and pack_cost",
            sets_aside=False,
        ),
        Fault(
            "stock_below_nothing",
            "Row {row} of {file} takes {value} below what there was of it on the shelf, {expected} g short",
            "look for a delivery or count that was not entered, or for a slip in this row",
            sets_aside=False,
        ),
        Fault(
            "same_line_twice",
            "Row {row} of {file} is the same as another line of visit {value}; lines have no numbers, so each was "
            "counted",
            "if it was done once, take the second line out, or export lines with a line column",
            sets_aside=False,
        ),
        Fault(
            "price_shared",
            "Row {row} of {file} has one price for several services; it was shared over them by their list prices",
            "export one row per service where you can",
            sets_aside=False,
        ),
        Fault(
            "same_name",
            "Row {row} of {file} is another client called {value}, and clients have no numbers here, so the later row "
            "stands for both",
            "export clients with client_id, or tell the names apart",
            sets_aside=False,
        ),
        Fault(
            "before_menu",
            "Row {row} of {file} is dated before the first menu row of {value!r}, so that first row was used",
            "add the older menu row with its valid_from",
            sets_aside=False,
        ),
        Fault(
            "out_of_range",
            "Row {row} of {file} says {value} under {column}, outside {expected}; it was used as it stands",
            "correct it if it is a slip",
            sets_aside=False,
        ),
        Fault(
            "impossible_regrowth",
            "Row {row} of {file} says {value} mm of regrowth, more than hair can grow in that time, so the "
            "measurement was left out",
            "correct regrowth_mm",
            sets_aside=False,
        ),
        Fault(
            "shrinking_regrowth",
            "Row {row} of {file} says {value} mm of regrowth, but {expected} mm was measured before it with no colour "
            "on the roots between; both were used",
            "correct regrowth_mm of one of them, or add the root service between",
            sets_aside=False,
        ),
        Fault(
            "short_root_visit",
            "Row {row} of {file} colours roots in a visit of {value} minutes; one under an hour deserves a look "
            "(common practice, no source)",
            "correct its start or end, or its service if the roots were not coloured",
            sets_aside=False,
        ),
        Fault(
            "outside_hours",
            "Row {row} of {file} lies outside opening hours ({expected}); it counts as occupied hours beyond the share",
            "correct [hours] in salon.toml or the time, if one of them is wrong",
            sets_aside=False,
        ),
        Fault(
            "chair_taken_twice",
            "Row {row} of {file} begins in a chair that is {expected}; hours that overlap count once",
            "correct the chair or the time of one of the two, if it is a slip",
            sets_aside=False,
        ),
        Fault(
            "check_failed",
            "The check {value} of {table} could not be carried out",
            "report it together with the versions that salon-figures --version prints",
            sets_aside=False,
        ),
        Fault(
            "lines_disagree",
            "Row {row} of {file} begins a visit whose lines name {expected}, so they may be several visits under one "
            "number",
            "give each visit its own booking_id in the export, or correct the line that is wrong",
            sets_aside=False,
        ),
        Fault(
            "paid_differs",
            "Row {row} of {file} begins a visit for which {expected} was paid than its lines, tips and retail come to",
            "look for a payment entered twice, left out or under another visit, or for a line that was set aside",
            sets_aside=False,
        ),
        Fault(
            "visit_unpaid",
            "Row {row} of {file} begins a completed visit of {expected} without any payment, though nearly all "
            "visits have one",
            "enter the payment, name the visit in it, or load the payments export of that time",
            sets_aside=False,
        ),
        Fault(
            "price_far_off",
            "Row {row} of {file} charges {expected} for that service; it was used as it stands",
            "correct the price if a decimal sign slipped, or the menu if its price is another one by now",
            sets_aside=False,
        ),
        Fault(
            "bowl_without_colour",
            "Row {row} of {file} is a bowl for a visit that has no line of a colouring kind",
            "correct the booking_id of the bowl, add the missing line, or the kind of the service on the menu",
            sets_aside=False,
        ),
        Fault(
            "ratio_far_off",
            "Row {row} of {file} begins a bowl mixed {expected} for that service; it was used as it stands",
            "correct the grams if a digit slipped; what goes into a bowl is for the maker's instructions to say",
            sets_aside=False,
        ),
        Fault(
            "mix_too_strong",
            "Row {row} of {file} begins a bowl of {expected} hydrogen peroxide when ready; products for hair may hold "
            "12 % (in the EU; elsewhere it may be less)",
            "correct the grams or strength_percent if one is wrong; else keep to the maker's instructions, local rules "
            "and licensed practice",
            sets_aside=False,
        ),
        Fault(
            "lightener_without_developer",
            "Row {row} of {file} begins a bowl of lightener without any developer",
            "add the developer to the log if it was left out; what goes into a bowl is for the maker to say",
            sets_aside=False,
        ),
        Fault(
            "not_grams",
            "Row {row} of {file} says {expected} under {column}, so little that it may be kilograms or litres; it was "
            "used as it stands",
            "write grams, 60 for a tube of 60 ml and 1000 for a litre",
            sets_aside=False,
        ),
        Fault(
            "unknown_visit",
            "Row {row} of {file} names a visit that is not in the bookings",
            "load the bookings of that time, correct the rows of theirs that were set aside, or the booking_id here; "
            "where the bookings have a site, give these rows theirs",
            sets_aside=False,
        ),
        Fault(
            "service_not_listed",
            "Row {row} of {file} names the service {value!r}, which is not on the menu; it was used as it stands",
            "add it to the services export, or correct its id",
            sets_aside=False,
        ),
        Fault(
            "client_twice",
            "Row {row} of {file} is a client reached in the same way, and named nearly the same, as another one "
            "above; their visits were not added up",
            "if they are one, join them where the export comes from; else nothing",
            sets_aside=False,
        ),
        Fault(
            "calendar_gap",
            "No visit of any kind from {value}, {expected} open days, after row {row} of {file}, which looks like a "
            "missing export",
            "load the bookings of those days, or list them under closed in salon.toml if the salon was shut",
            sets_aside=False,
        ),
        Fault(
            "short_week",
            "From {value} there are {expected}, up to row {row} of {file}, which looks like an export that is missing "
            "in part",
            "load the bookings of those weeks again, or list the days under closed in salon.toml if the salon was shut",
            sets_aside=False,
        ),
        Fault(
            "lost_file",
            "Booking exports hold one stylist or chair each, and none holds visits of {value} between {expected}, "
            "after row {row} of {file}, though others worked then",
            "load the export of that time; nothing if she was away or the chair stood empty",
            sets_aside=False,
        ),
        Fault(
            "silent_month",
            "The month {value}, which begins with row {row} of {file}, has {expected} for as many booking lines",
            "load the export of that month that is missing; nothing if it was not kept then",
            sets_aside=False,
        ),
        Fault(
            "stylist_stops",
            "Row {row} of {file} is the last visit of {value}, on {expected} of the book follow",
            "nothing if she left or is away; else look for the export that lacks her visits",
            sets_aside=False,
        ),
    )
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
Said = str | pl.Expr | pl.Series | None
MOST_VALUES = 20  # more different values than this under one column of one file are one cause
FIRST_ROWS = 5


def hits(rows: Sequence[tuple[str, str, str, int | None, str | None, str | None, str | None]]) -> pl.DataFrame:
    """Single hits (code, table, file, row, column, value, expected) as a frame."""
    return pl.DataFrame(rows, schema=HITS, orient="row")


def hits_in(
    rows: pl.DataFrame, code: str, table: Said, column: Said, *, value: Said = None, expected: Said = None
) -> pl.DataFrame:
    """A hit for each of the rows, which have file and row. What is said of them: one text, or one for each row."""
    said = {"code": code, "table": table, "column": column, "value": value, "expected": expected}
    texts = {name: text if isinstance(text, (pl.Expr, pl.Series)) else pl.lit(text) for name, text in said.items()}
    return rows.select("file", "row", **texts).select(pl.col(name).cast(kind) for name, kind in HITS.items())


def in_general(template: str) -> str:
    """The sentence of the catalogue with an ellipsis for each value."""
    for name in ("file", "row", "column", "value", "value!r", "table", "expected", "count"):
        template = template.replace(f"{{{name}}}", "…")
    return template


def _sentences(row: dict[str, object]) -> dict[str, str]:
    fault = CATALOGUE[str(row["code"])]
    values = {name: "" if row[name] is None else row[name] for name in row}
    message = fault.says.format(**values)
    if int(str(row["count"])) > 1:
        message += f" ({row['count']} rows like it)"
    return {"message": message + ".", "what_to_do": fault.what_to_do.format(**values) + "."}


def summarise(found: pl.DataFrame) -> pl.DataFrame:
    """One row per cause from single hits: the first row, how many, the first rows, the sentence and what to do.

    found: frame of HITS. Hits of one code, file, column and value are one cause; where one column of one file has
    more than MOST_VALUES different values, all of them are one cause.
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
        [_sentences(row) for row in causes.iter_rows(named=True)],
        schema={"message": pl.String(), "what_to_do": pl.String()},
    )
    return pl.concat([causes, texts], how="horizontal").select(pl.col(name).cast(kind) for name, kind in SCHEMA.items())
