"""A file of the salon -> the same without a client, whatever its kind; and how often she stood in it.

In her rows of a table stays what is counted: her number and name give way to what stands in her place, and every cell
that no column is read from is emptied. Her rows among the clients, and in files that are no table, are emptied whole.
In every other cell her name, telephone number and mail address are taken out of the text around them.
"""

import io
import zipfile
from dataclasses import dataclass
from pathlib import PurePosixPath

from analytics.erasing.cells import Cells, Grid
from analytics.erasing.client import Client, Rows
from analytics.erasing.text_cells import TextCells, is_text
from analytics.erasing.traces import Traces
from analytics.erasing.xml_cells import WorkbookCells
from analytics.intake.reading.find import ARCHIVES, TEXTS, UNPACKING, WORKBOOKS
from analytics.settings import Settings
from analytics.stops import WorkStopped

LOOKS_LIKE_TEXT = (*TEXTS, ".ics", ".json", ".md", ".html", ".xml", ".vcf")
DEEPEST = 4  # archives within archives
CLIENTS = "clients"


@dataclass(frozen=True)
class Rewritten:
    """The new content, None where nothing was hers; in how many cells; and whether she stands in it still."""

    content: bytes | None
    cells: int = 0
    left: bool = False


@dataclass(frozen=True)
class Eraser:
    """Takes a client out of files. sheets: the rows of tables that name clients."""

    her: Client
    traces: Traces
    sheets: dict[str, Rows]
    settings: Settings

    def rewritten(self, name: str, content: bytes, deep: int = 0) -> Rewritten:
        """name: as exports are called, archives with their members' names behind them."""
        suffix = PurePosixPath(name).suffix.lower()
        try:
            if suffix in ARCHIVES and deep < DEEPEST:
                return self._archive(name, content, deep)
            if suffix in WORKBOOKS:
                return self._cells(name, content, WorkbookCells(content, self.traces.cleaned))
            if suffix in LOOKS_LIKE_TEXT and (suffix in TEXTS or is_text(content)):
                return self._cells(name, content, TextCells(content, name, self.settings))
        except (*UNPACKING, WorkStopped, SyntaxError, OSError):
            pass
        return Rewritten(None, left=self._within(content))

    def _cells(self, name: str, content: bytes, cells: Cells) -> Rewritten:
        count = sum(self._edit(name, grid, len(cells.grids) == 1) for grid in cells.grids)
        new = cells.written()
        if new == content or (not count and isinstance(cells, WorkbookCells) and not cells.cleaned):
            return Rewritten(None)
        return Rewritten(new, max(count, 1))

    def _archive(self, name: str, content: bytes, deep: int) -> Rewritten:
        target, count, left = io.BytesIO(), 0, False
        with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as new:
            for item in old.infolist():
                member = old.read(item)
                found = self.rewritten(f"{name}/{item.filename}", member, deep + 1)
                count, left = count + found.cells, left or found.left
                info = zipfile.ZipInfo(item.filename, item.date_time)
                info.compress_type, info.external_attr = item.compress_type, item.external_attr
                new.writestr(info, member if found.content is None else found.content)
        return Rewritten(target.getvalue() if count else None, count, left)

    def _edit(self, name: str, grid: Grid, alone: bool) -> int:
        """Mark the cells to be written anew; how many."""
        rows = self._rows_of(name, grid, alone)
        is_table = any(sheet == name or sheet.startswith((f"{name}#", f"{name} (table ")) for sheet in self.sheets)
        for row, cells in grid.rows.items():
            said = rows.said.get(row) if rows else None
            if rows and said and self.her.is_hers(said) and self._in_place(cells, rows, said):
                self._her_row(grid, row, rows)
            else:
                self._other_row(grid, row, rows.places if rows else None if is_table else {})
        return len(grid.new)

    def _rows_of(self, name: str, grid: Grid, alone: bool) -> Rows | None:
        """The rows of the table that this grid is; a sheet of a workbook is found by what stands in it."""
        if alone and name in self.sheets:
            return self.sheets[name]
        fitting = [rows for sheet, rows in self.sheets.items() if sheet == name or sheet.startswith(f"{name}#")]
        scored = [(sum(self._fits(grid, rows, row) for row in list(rows.said)[:50]), rows) for rows in fitting]
        best = max(scored, key=lambda one: one[0], default=(0, None))
        return best[1] if best[0] else None

    def _fits(self, grid: Grid, rows: Rows, row: int) -> bool:
        return row in grid.rows and self._in_place(grid.rows[row], rows, rows.said[row])

    def _in_place(self, cells: dict[int, str], rows: Rows, said: tuple[str, ...]) -> bool:
        """Whether number or name stand where the table has them: not where the sheet was laid out in another way."""
        first = self._offset(cells, rows, said)
        return first is not None

    def _offset(self, cells: dict[int, str], rows: Rows, said: tuple[str, ...]) -> int | None:
        """How far the sheet's first column lies from the file's: readers begin where something stands."""
        for first in range(4):
            places = [
                (rows.places[column], said[at])
                for at, column in ((1, "client_id"), (2, "client"))
                if column in rows.places
            ]
            if all(cells.get(place + first, "").strip() == text for place, text in places) and any(
                text for _, text in places
            ):
                return first
        return None

    def _her_row(self, grid: Grid, row: int, rows: Rows) -> None:
        cells = grid.rows[row]
        first = self._offset(cells, rows, rows.said[row]) or 0
        who = {rows.places[name] + first for name in ("client_id", "client") if name in rows.places}
        kept = {place + first for name, place in rows.places.items() if name not in ("phone", "email")}
        for column, text in cells.items():
            if rows.table == CLIENTS or column not in kept:
                grid.put(row, column, "")
            elif column in who:
                grid.put(row, column, self.traces.instead if text.strip() else text)
            else:
                grid.put(row, column, self.traces.cleaned(text))

    def _other_row(self, grid: Grid, row: int, places: dict[str, int] | None) -> None:
        """places: where columns are read from, None where it is not known which."""
        cells = grid.rows[row]
        for column, text in cells.items():
            halves = self.traces.halves(text, cells.get(column + 1, ""))
            if halves:
                grid.put(row, column, halves[0])
                grid.put(row, column + 1, halves[1])
            elif (row, column) not in grid.new:
                grid.put(row, column, self.traces.cleaned(text))
        if places is not None and self._is_list_row(grid, row):
            for column in set(cells) - set(places.values()):
                grid.put(row, column, "")

    def _is_list_row(self, grid: Grid, row: int) -> bool:
        """Whether a row of a list, such as a call sheet, is hers: one of its cells is her name or what she is reached
        by, and nothing else."""
        cells = grid.rows[row]
        if len(cells) < 2:
            return False
        return any((row, column) in grid.new and grid.new[row, column] in ("", self.traces.instead) for column in cells)

    def _within(self, content: bytes) -> bool:
        """Whether bytes that are no text or table we can write hold her name or address as they were typed."""
        words = [*self.her.names, *self.her.emails, *self.her.phones]
        forms = [word.encode(alphabet) for word in words for alphabet in ("utf-8", "utf-16-le") if len(word) > 4]
        return any(form in content for form in forms)
