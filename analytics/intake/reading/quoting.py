"""Text whose cells are set off in other ways than RFC 4180's -> text that is: apostrophes as quotation marks, blanks
behind the separator and before a quotation, a backslash before what belongs to the cell, columns made of blanks.

Each way is recognised by nearly all of the first lines, never by a few.
"""

import csv
import io
import re

DELIMITERS = (",", ";", "\t", "|")
LOOKED_AT = 100  # lines
FEWEST_LINES = 3
NEARLY_ALL = 0.9
MOST_COLUMNS = 60


def as_rfc_4180(text: str) -> str:
    """The text as it is where none of the ways is there."""
    lines = [line for line in text[:100_000].splitlines()[:LOOKED_AT] if line.strip()]
    if len(lines) < FEWEST_LINES:
        return text
    try:
        return _rewritten_where_needed(text, lines)
    except csv.Error:  # a cell without end: as it is, its line alone is spoilt
        return text


def _rewritten_where_needed(text: str, lines: list[str]) -> str:
    if _apostrophes(lines):
        text = _from_apostrophes(text)
    elif _blanks_before_quotations(lines):
        text = re.sub(r'(?m)(^|[,;|])[ ]+"', r'\1"', text)
    elif _backslashes(lines):
        text = _from_backslashes(text, _delimiter(lines))
    elif not any(mark in line for line in lines[:1] for mark in DELIMITERS) and not any(map(_separates, lines)):
        text = _from_blanks(text)
    return text


def _share(lines: list[str], pattern: str) -> float:
    return sum(re.search(pattern, line) is not None for line in lines) / len(lines)


def _separates(line: str) -> bool:
    """Whether a separator stands there that no amount or name has."""
    return any(mark in line for mark in DELIMITERS[1:])


def _delimiter(lines: list[str]) -> str:
    return max(DELIMITERS, key=lambda mark: sum(mark in line for line in lines))


def _apostrophes(lines: list[str]) -> bool:
    """Nearly every line has a cell between two of them, and none begins a cell with a quotation mark."""
    cells = r"(?:^|[,;\t|])\s*'(?:[^']|'')*'\s*(?:[,;\t|]|$)"
    return not any(re.search(r'(?:^|[,;\t|])\s*"', line) for line in lines) and _share(lines, cells) >= NEARLY_ALL


def _from_apostrophes(text: str) -> str:
    """An apostrophe within a cell ends it only where a separator or the end of the line follows."""
    delimiter = _delimiter(text[:100_000].splitlines()[:LOOKED_AT])
    mark = re.escape(delimiter)
    cell = re.compile(
        rf"(?m)(?:^|(?<={mark}))[ ]*'(.*?)('(?=[ ]*(?:{mark}|\r?$))|$)"
    )  # to the line's end if never closed
    text = cell.sub(_doubled, text)
    return _rewritten(
        csv.reader(io.StringIO(text), delimiter=delimiter, quotechar="'", skipinitialspace=True), delimiter
    )


def _doubled(cell: re.Match[str]) -> str:
    """With the apostrophes within it doubled, as csv has them."""
    return "'" + cell[1].replace("''", "'").replace("'", "''") + "'" if cell[2] else cell[0]


def _blanks_before_quotations(lines: list[str]) -> bool:
    return _share(lines, r'[,;|][ ]+"[^"]*"([,;|]|\s*$)') >= NEARLY_ALL


def _backslashes(lines: list[str]) -> bool:
    """A backslash before a quotation mark or a separator in lines that have one, and no mark that is doubled."""
    escaped = [line for line in lines if re.search(r'\\["\',;]', line)]
    return len(escaped) >= FEWEST_LINES and not any('""' in line for line in lines)


def _from_backslashes(text: str, delimiter: str) -> str:
    reader = csv.reader(io.StringIO(text), delimiter=delimiter, escapechar="\\", doublequote=False)
    return _rewritten(reader, delimiter)


def _rewritten(records: "csv._reader", delimiter: str) -> str:  # type: ignore[name-defined]
    written = io.StringIO()
    writer = csv.writer(written, delimiter=delimiter, lineterminator="\n")
    writer.writerows(records)
    return written.getvalue()


def _from_blanks(text: str) -> str:
    """Columns where in all lines a blank stands in the same place before each, as tabs; the text where there is no such
    place, or words of one column reach into the next."""
    lines = text.splitlines()
    filled = [line for line in lines[:5000] if line.strip()]
    width = max(map(len, filled), default=0)
    taken = [any(len(line) > at and line[at] != " " for line in filled) for at in range(width)]
    begins = [at for at in range(width) if taken[at] and (at == 0 or not taken[at - 1])]
    cuts = [at for at in begins if at == begins[0] or _is_column(filled, at)]
    if not 3 <= len(cuts) <= MOST_COLUMNS:
        return text
    ends = [*cuts[1:], None]
    cells = [[line[begin:end].strip() for begin, end in zip(cuts, ends, strict=True)] for line in lines]
    return "\n".join("\t".join(row) for row in cells)


def _is_column(lines: list[str], at: int) -> bool:
    """Whether words begin here in most lines, as in a column that is set off to the left."""
    return sum(len(line) > at and line[at] != " " for line in lines) >= 0.5 * len(lines)
