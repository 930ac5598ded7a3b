"""A text file as cells: lines that nothing is changed in stay as they are, with their line ends and their alphabet."""

import codecs
import csv
import io
import re
from collections.abc import Iterator

from analytics.erasing.cells import Grid
from analytics.intake.meaning.sheets import delimiter_of, separator_line
from analytics.intake.reading.decode import MARKS, alphabet_of
from analytics.intake.reading.quoting import as_rfc_4180
from analytics.intake.reading.split import record_at
from analytics.settings import Settings

LINE_END, ANY_END = re.compile(r"\r?\n"), re.compile(r"\r\n|\n|\r")


class TextCells:
    """A file of records. Raises WorkStopped where its bytes are no text."""

    def __init__(self, content: bytes, name: str, settings: Settings) -> None:
        self.alphabet, mark = alphabet_of(content, name, settings.files.encoding)
        self._mark = content[:mark]
        text = content[mark:].decode(self.alphabet)
        _, rest = separator_line(text)
        self._head, body = text[: len(text) - len(rest)], as_rfc_4180(rest)
        self.delimiter = delimiter_of(body, name, settings)
        line_end = ANY_END if body.count("\r") > body.count("\r\n") else LINE_END
        ends = [found.group() for found in line_end.finditer(body)]
        self._lines = line_end.split(body)
        self._ends = [*ends, ""]
        self._spans: dict[int, tuple[int, int]] = {}
        self.grids = [Grid("", dict(self._records()))]

    def _records(self) -> Iterator[tuple[int, dict[int, str]]]:
        usual = self._usual()
        at, row = 0, 0
        while at < len(self._lines):
            row += 1
            cells, count = self._record(at, usual)
            self._spans[row] = (at, count)
            yield row, dict(enumerate(cells))
            at += count

    def _usual(self) -> int:
        counts = [line.count(self.delimiter) + 1 for line in self._lines if line and '"' not in line]
        return max(set(counts), key=counts.count) if counts else 0

    def _record(self, at: int, usual: int) -> tuple[list[str], int]:
        line = self._lines[at]
        if '"' not in line:
            return line.split(self.delimiter), 1
        cells, count = record_at(self._lines, at, self.delimiter, usual)
        return (line.split(self.delimiter), 1) if cells is None else (cells, count)

    def written(self) -> bytes:
        (grid,) = self.grids
        changed = {row for row, _ in grid.new}
        parts = [self._head]
        for row, (at, count) in self._spans.items():
            if row in changed:
                cells = [grid.now(row, column) for column in grid.rows[row]]
                parts.append(self._line(cells) + self._ends[at + count - 1])
            else:
                parts += [line + end for line, end in zip(self._lines[at : at + count], self._ends[at:], strict=False)]
        return self._mark + "".join(parts).encode(self.alphabet, "backslashreplace")

    def _line(self, cells: list[str]) -> str:
        if not any(cell.strip() for cell in cells):
            return ""  # an empty line is no row, and those below keep their numbers
        text = io.StringIO()
        csv.writer(text, delimiter=self.delimiter, lineterminator="").writerow(cells)
        return text.getvalue()


def is_text(content: bytes) -> bool:
    """Whether the bytes can be read as text without asking anybody."""
    if any(content.startswith(mark) for mark, _ in MARKS):
        return True
    try:
        codecs.decode(content, "utf-8")
    except UnicodeDecodeError:
        return False
    return b"\0" not in content
