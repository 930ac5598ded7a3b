"""Text -> records, every record with its row as a spreadsheet counts it.

Lines that are whole records by RFC 4180 are read all at once; the others (a quoted cell with a line break, a quotation
mark in mid-cell, a broken quotation) one by one by Python's csv module. A quotation mark in mid-cell is a character
like any other. A quotation that is never closed, or goes on after it was closed, spoils its own line and no other.
"""

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

import polars as pl

DELIMITERS = (",", ";", "\t", "|")
MOST_LINES, MOST_CHARACTERS = 200, 1_000_000  # a record over more than these was never closed
MOST_COLUMNS = 256  # cells beyond are counted and not kept
QUOTE, OPENS = '"', re.compile(r'\S"\S')
LONE_RETURN = re.compile(r"\r(?![\r\n])")  # a line end of its own
LEADING = {"row": pl.Int64(), "count": pl.Int64(), "spoilt": pl.Boolean()}


@dataclass
class Single:
    """Records read one by one: the line each begins on, its cells, whether it is spoilt; lines swallowed by others."""

    at: list[int] = field(default_factory=list)
    cells: list[list[str]] = field(default_factory=list)
    spoilt: list[bool] = field(default_factory=list)
    swallowed: list[int] = field(default_factory=list)


def split_records(text: str, delimiter: str) -> pl.DataFrame:
    """Records that are not blank: row, count of cells, spoilt, then the cells as text in c0, c1, … ("" where none)."""
    body = LONE_RETURN.sub("\n", text) if "\r" in text and text.count("\r") > text.count("\r\n") else text
    raw = body.encode()
    lines = pl.read_lines(io.BytesIO(raw), name="line")["line"]
    quoted = lines.str.contains('"', literal=True)
    whole = _patched(~quoted, quoted, lines.filter(quoted).str.contains(_whole_record(delimiter)))
    counts = _cell_counts(lines, quoted, delimiter)
    single = _one_by_one(body, lines, whole, counts, delimiter)
    at_once = whole & (lines != "") & ~_marked(single.swallowed, len(lines))
    counts = counts.filter(at_once)
    widest = max([1, *counts.top_k(1).to_list(), *map(len, single.cells)])
    width = min(widest, MOST_COLUMNS)
    names = [f"c{number}" for number in range(width)]
    content = raw if at_once.all() and b"\r" not in raw else _joined(lines.filter(at_once))
    at = at_once.arg_true().cast(pl.Int64)
    frame = _read_at_once(content, names, delimiter).select(at.alias("at"), counts.alias("count"), "spoilt", *names)
    if single.at:
        frame = pl.concat([frame, _as_frame(single, names)]).sort("at")
    kept = frame.filter(_filled(frame, names))
    rows = _row_numbers(len(lines), single.swallowed)
    return kept.with_columns(row=rows.gather(kept["at"])).select(*LEADING, *names)


def _filled(frame: pl.DataFrame, names: list[str]) -> pl.Series:
    """Whether a record has anything in it; most have in their first cell, so that the others are looked at for few."""
    filled = frame["c0"].str.contains(r"\S") | frame["spoilt"]
    others = frame.filter(~filled).select(pl.any_horizontal(pl.col(names).str.contains(r"\S"))).to_series()
    return _patched(filled, ~filled, others)


def _patched(values: pl.Series, chosen: pl.Series, answers: pl.Series) -> pl.Series:
    """The values with the answers at the chosen places."""
    return values.scatter(chosen.arg_true(), answers) if len(answers) else values


def _whole_record(delimiter: str) -> str:
    plain, quoted = f'[^"{re.escape(delimiter)}]*', '"(?:[^"]|"")*"'
    return f"^(?:{plain}|{quoted})(?:{re.escape(delimiter)}(?:{plain}|{quoted}))*$"


def _cell_counts(lines: pl.Series, quoted: pl.Series, delimiter: str) -> pl.Series:
    """How many cells each line has; delimiters within quotations are none."""
    unquoted = lines.filter(quoted).str.replace_all('"(?:[^"]|"")*"', "")
    return _patched(_cell_count(lines, delimiter), quoted, _cell_count(unquoted, delimiter))


def _cell_count(lines: pl.Series, delimiter: str) -> pl.Series:
    return lines.str.count_matches(delimiter, literal=True).cast(pl.Int64) + 1


def _marked(places: list[int], length: int) -> pl.Series:
    return pl.int_range(length, eager=True).is_in(pl.Series(places, dtype=pl.Int64).implode())


def _joined(lines: pl.Series) -> bytes:
    return (lines.str.join("\n")[0] or "").encode()


def _read_at_once(content: bytes, names: list[str], delimiter: str) -> pl.DataFrame:
    schema = dict.fromkeys(names, pl.String())
    cells = (
        pl.read_csv(
            io.BytesIO(content),
            has_header=False,
            schema=schema,
            separator=delimiter,
            infer_schema=False,
            empty_string_is_null=False,
            missing_columns="insert",
            extra_columns="ignore",
        )
        if content
        else pl.DataFrame(schema=schema)
    )
    return cells.with_columns(pl.col(names).fill_null(""), spoilt=pl.lit(False))


def _one_by_one(body: str, lines: pl.Series, whole: pl.Series, counts: pl.Series, delimiter: str) -> Single:
    """The records that begin on lines that are not whole ones; counts: how many cells each line has."""
    single = Single()
    places = (~whole).arg_true().to_list()
    if not places:
        return single
    usual = max(counts.filter(whole & (lines != "")).mode().to_list(), default=0)
    raw = body.split("\n")  # with the carriage returns that a quoted cell may hold
    next_free = 0
    for place in places:
        if place < next_free:
            continue
        cells, count = record_at(raw, place, delimiter, usual)
        single.at.append(place)
        single.cells.append(cells or [lines[place]])
        single.spoilt.append(cells is None)
        next_free = place + count
        single.swallowed.extend(range(place + 1, next_free))
    return single


def record_at(raw: list[str], place: int, delimiter: str, usual: int) -> tuple[list[str] | None, int]:
    """Cells of the record that begins on this line and how many lines it takes; None where its quotation is broken.

    usual: the count of cells that most whole lines have; a quotation that swallows such lines was never closed.
    """
    reader = csv.reader(_from(raw, place), delimiter=delimiter, strict=True)
    try:
        cells = next(reader)
    except (csv.Error, StopIteration):
        return None, 1
    if _opens_in_mid_cell(cells):
        return None, 1
    inside = raw[place + 1 : place + reader.line_num - 1]
    swallows = usual > 2 and (
        any(line.count(delimiter) == usual - 1 for line in inside) or (reader.line_num > 1 and len(cells) > usual)
    )
    return (None, 1) if swallows else (cells, reader.line_num)


def _opens_in_mid_cell(cells: list[str]) -> bool:
    """Whether a quotation begins behind something else in its cell and ends in a later one, as where a separator before
    it is lacking; marks of inches have a blank behind them."""
    odd = [at for at, cell in enumerate(cells) if cell.count(QUOTE) % 2]
    return len(odd) > 1 and bool(OPENS.search(cells[odd[0]])) and cells[odd[1]].endswith(QUOTE)


def _from(raw: list[str], place: int) -> Iterator[str]:
    length = 0
    for at in range(place, min(place + MOST_LINES, len(raw))):
        length += len(raw[at])
        if length > MOST_CHARACTERS:
            return
        yield raw[at] + "\n"


def _as_frame(single: Single, names: list[str]) -> pl.DataFrame:
    padded = [(cells + [""] * len(names))[: len(names)] for cells in single.cells]
    leading = zip(single.at, map(len, single.cells), single.spoilt, strict=True)
    return pl.DataFrame(
        [(*head, *cells) for head, cells in zip(leading, padded, strict=True)],
        schema={"at": pl.Int64(), "count": pl.Int64(), "spoilt": pl.Boolean()} | dict.fromkeys(names, pl.String()),
        orient="row",
    )


def _row_numbers(length: int, swallowed: list[int]) -> pl.Series:
    """For each line the row a spreadsheet shows for the record that begins there."""
    return (~_marked(swallowed, length)).cast(pl.Int64).cum_sum()
