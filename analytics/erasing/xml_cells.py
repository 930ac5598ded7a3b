"""Workbooks as cells: .xlsx and .ods are archives of XML, in which single cells are written anew where they stand."""

import io
import re
import zipfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from xml.parsers import expat
from xml.sax.saxutils import escape

from analytics.erasing.cells import Grid

SHEET, STRINGS, ODS = re.compile(r"xl/worksheets/[^/]+\.xml"), "xl/sharedStrings.xml", "content.xml"
REFERENCE = re.compile(r"([A-Z]+)(\d+)")
MOST_REPEATED = 1000  # columns or rows of an .ods that are written out; more are empty space


@dataclass
class Element:
    """name without its prefix, attributes, where it begins and ends in the bytes, and the text within."""

    name: str
    tag: str
    attributes: dict[str, str]
    start: int
    end: int = 0
    text: str = ""
    value: str = ""


def elements(xml: bytes, wanted: tuple[str, ...], texts: tuple[str, ...]) -> Iterator[Element]:
    """Every element of these names in order of their ends; text: what stands in elements of the names in `texts` within
    it, value: what stands in its <v>."""
    found: list[Element] = []
    open_ones: list[Element] = []
    path: list[str] = []
    parser = expat.ParserCreate()
    parser.buffer_text = True

    def begin(tag: str, attributes: dict[str, str]) -> None:
        name = tag.rpartition(":")[2]
        path.append(name)
        if name in wanted:
            open_ones.append(Element(name, tag, attributes, parser.CurrentByteIndex))

    def said(text: str) -> None:
        for one in open_ones:
            if path[-1] == "v":
                one.value += text
            elif any(name in path for name in texts) and "rPh" not in path:
                one.text += text

    def end(tag: str) -> None:
        path.pop()
        if open_ones and open_ones[-1].tag == tag:
            one = open_ones.pop()
            at = parser.CurrentByteIndex
            one.end = xml.index(b">", at) + 1 if xml[at : at + 2] == b"</" else _end_of_empty(xml, one.start)
            found.append(one)

    parser.StartElementHandler, parser.EndElementHandler, parser.CharacterDataHandler = begin, end, said
    parser.Parse(xml, True)
    yield from found


def _end_of_empty(xml: bytes, start: int) -> int:
    found = re.compile(rb"""<(?:[^>"']|"[^"]*"|'[^']*')*>""").match(xml, start)
    return found.end() if found else start


def spliced(xml: bytes, new: list[tuple[int, int, bytes]]) -> bytes:
    """The bytes with some spans written anew."""
    parts, at = [], 0
    for start, end, content in sorted(new):
        parts += [xml[at:start], content]
        at = end
    return b"".join([*parts, xml[at:]])


class WorkbookCells:
    """The archive's parts; clean: takes a client out of any other XML in it, such as remarks and titles. cleaned:
    whether it had to, once the file was written."""

    def __init__(self, content: bytes, clean: Callable[[str], str]) -> None:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            self._items = [(item, archive.read(item)) for item in archive.infolist()]
        self._clean, self.cleaned = clean, False
        self._cells: dict[str, dict[tuple[int, int], Element]] = {}
        parts = {item.filename: xml for item, xml in self._items}
        self._strings = list(elements(parts.get(STRINGS, b"<x/>"), ("si",), ("t",)))
        self.grids: list[Grid] = []
        for name, xml in parts.items():
            if SHEET.fullmatch(name):
                self.grids.append(self._grid(name, dict(self._of_sheet(xml))))
            elif name == ODS:
                self.grids += [self._grid(title, cells) for title, cells in _of_ods(xml)]

    def _grid(self, name: str, cells: dict[tuple[int, int], Element]) -> Grid:
        self._cells[name] = cells
        rows: dict[int, dict[int, str]] = {}
        for (row, column), cell in cells.items():
            rows.setdefault(row, {})[column] = cell.text
        return Grid(name, rows)

    def _of_sheet(self, xml: bytes) -> Iterator[tuple[tuple[int, int], Element]]:
        for cell in elements(xml, ("c",), ("t",)):
            found = REFERENCE.fullmatch(cell.attributes.get("r", ""))
            if not found:
                continue
            if cell.attributes.get("t") == "s" and cell.value.strip().isdigit():
                cell.text = self._strings[int(cell.value)].text if int(cell.value) < len(self._strings) else ""
            else:
                cell.text = cell.text or cell.value
            yield (int(found[2]), _column(found[1])), cell

    def written(self) -> bytes:
        target = io.BytesIO()
        with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
            for item, xml in self._items:
                info = zipfile.ZipInfo(item.filename, item.date_time)
                info.compress_type, info.external_attr = item.compress_type, item.external_attr
                archive.writestr(info, self._part(item.filename, xml))
        return target.getvalue()

    def _part(self, name: str, xml: bytes) -> bytes:
        if name == STRINGS:
            used = {int(cell.value) for cell in self._left() if cell.attributes.get("t") == "s"}
            unused = [one for number, one in enumerate(self._strings) if number not in used]
            xml = spliced(xml, [(one.start, one.end, f"<{one.tag}/>".encode()) for one in unused])
        elif name == ODS:
            grids = {grid.title: grid for grid in self.grids}
            new = {(c.start, c.end): _ods_cell(c, text) for c, text in self._changed(grids)}
            xml = spliced(xml, [(*span, content) for span, content in new.items()])
        elif name in self._cells:
            grid = next(grid for grid in self.grids if grid.title == name)
            new_cells = [(c.start, c.end, _xlsx_cell(c, text)) for c, text in self._changed({name: grid})]
            xml = spliced(xml, new_cells)
        if name.endswith((".xml", ".rels", ".vml")):
            cleaned = self._clean(xml.decode("utf-8", "surrogateescape")).encode("utf-8", "surrogateescape")
            self.cleaned = self.cleaned or cleaned != xml
            return cleaned
        return xml

    def _left(self) -> Iterator[Element]:
        """Cells that stay as they are."""
        for grid in self.grids:
            yield from (cell for place, cell in self._cells[grid.title].items() if place not in grid.new)

    def _changed(self, grids: dict[str, Grid]) -> Iterator[tuple[Element, str]]:
        for title, grid in grids.items():
            yield from ((self._cells[title][place], text) for place, text in grid.new.items())


def _column(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number - 1


def _xlsx_cell(cell: Element, text: str) -> bytes:
    prefix = cell.tag.rpartition(":")[0]
    p = f"{prefix}:" if prefix else ""
    style = f' s="{cell.attributes["s"]}"' if "s" in cell.attributes else ""
    head = f'<{p}c r="{cell.attributes["r"]}"{style}'
    if not text:
        return f"{head}/>".encode()
    return f'{head} t="inlineStr"><{p}is><{p}t>{escape(text)}</{p}t></{p}is></{p}c>'.encode()


def _of_ods(xml: bytes) -> Iterator[tuple[str, dict[tuple[int, int], Element]]]:
    """The sheets of an .ods; a cell that is said to repeat stands in each of its places."""
    found = sorted(
        elements(xml, ("table", "table-row", "table-cell", "covered-table-cell"), ("p",)), key=lambda one: one.start
    )
    title, row, column, rows = "", 0, 0, 1
    cells: dict[tuple[int, int], Element] = {}
    for one in found:
        if one.name == "table":
            if cells:
                yield title, cells
            title, cells, row, rows = _attribute(one, "name"), {}, 0, 1
        elif one.name == "table-row":
            row, column = row + rows if row else 1, 0
            rows = int(_attribute(one, "number-rows-repeated") or 1)
        else:
            wide = int(_attribute(one, "number-columns-repeated") or 1)
            if one.text or _attribute(one, "value"):
                one.text = one.text or _attribute(one, "value")
                for down in range(min(rows, MOST_REPEATED)):
                    for across in range(min(wide, MOST_REPEATED)):
                        cells[row + down, column + across] = one
            column += wide
    if cells:
        yield title, cells


def _attribute(one: Element, name: str) -> str:
    return next((value for key, value in one.attributes.items() if key.rpartition(":")[2] == name), "")


def _ods_cell(cell: Element, text: str) -> bytes:
    prefix = cell.tag.rpartition(":")[0]
    kept = "".join(
        f' {key}="{escape(value)}"'
        for key, value in cell.attributes.items()
        if key.startswith(f"{prefix}:") and not key.endswith((":formula", ":content-validation-name"))
    )
    if not text:
        return f"<{cell.tag}{kept}/>".encode()
    return (f'<{cell.tag}{kept} office:value-type="string"><text:p>{escape(text)}</text:p></{cell.tag}>').encode()
