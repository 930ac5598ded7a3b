"""A file dropped on the exports page: looked at, its headings matched by choice, kept only when asked to.

The bytes lie in a temporary folder while they are looked at. The name they came with is text and never a path, and
nothing of the file goes through Markdown, into an exception or into a log.
"""

import tempfile
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from html import escape
from pathlib import Path
from typing import Any, TypeVar

import polars as pl
import streamlit as st

from analytics.intake.apart import try_apart
from analytics.intake.headings import Meaning, column_meant
from analytics.intake.preview import Tried
from analytics.keeping import Kept, keep, safe_name, with_columns
from analytics.loading import load_salon
from analytics.sentences.tried import matched_by, tried_sentence
from analytics.settings import Settings
from analytics.stops import WorkStopped
from analytics.tables import CORRECTS, TABLES
from dashboard import lists, parts
from dashboard.data import Reading

MOST_UNPACKED = 300 * 1024**2  # twelve times what can be dropped: exports unpack to that, bombs to more
NOT_USED = NO_TABLE = ""
LARGER = "A file of more than 25 MB is put into the salon's folder exports/ by hand and then loaded from this page."

Choices = dict[str, dict[str, str]]
"""By table: heading -> the column chosen for it, "" for none."""
Answer = TypeVar("Answer")


@dataclass(frozen=True)
class Dropped:
    """What lies in the uploader: the number of the drop on this page, an id of its bytes, their name, the bytes."""

    number: int
    id: str
    name: str
    content: memoryview


def dropped_file(read: Reading) -> None:
    """The uploader, and how the file in it would be read."""
    parts.said(st.session_state.pop("kept_says", ""))
    number = st.session_state.setdefault("drops", 0)
    found = st.file_uploader("Drop an export here to see how it would be read", key=f"drop-{number}")
    if found is None:
        st.session_state.pop("tried", None)
        parts.note(LARGER)
        return
    with st.container(border=True, key="dropped"):
        _looked_at(Dropped(number, found.file_id, found.name, found.getbuffer()), read)


def load_again(read: Reading) -> None:
    """A button that loads the exports, where they are not those the book was made from."""
    if read.stale and st.button("Load the exports again"):
        _load(read.folder, "The exports were loaded again.")


def _looked_at(dropped: Dropped, read: Reading) -> None:
    """Sheet by sheet what would become of it, with a choice for every heading, and the button that keeps it."""
    first = _tried(dropped, read, {})
    keys = [f"{dropped.number}-{number}" for number in range(len(first))]
    tables = [_table_of(sheet, key) for sheet, key in zip(first, keys, strict=True)]
    meant = [_meant(sheet, table, read.settings) for sheet, table in zip(first, tables, strict=True)]
    choices: Choices = {}
    for sheet, table, headings, key in zip(first, tables, meant, keys, strict=True):
        if chosen := _chosen(headings, f"{key}-{table}", everything=sheet.table is None):
            choices.setdefault(table, {}).update(chosen)
    now = _tried(dropped, read, choices) if choices else first
    for sheet, before, table, headings, key in zip(now, first, tables, meant, keys, strict=True):
        _show(sheet, before.table is None, table, headings, key, read.settings)
    if _can_be_kept(now) and st.button("Keep this file"):
        _keep(dropped, read, choices)


def _can_be_kept(tried: list[Tried]) -> bool:
    """No sheet of it would stop the load, and one at least is a table; what is set aside is said above."""
    return all(one.stopped is None for one in tried) and any(one.table for one in tried)


def _table_of(sheet: Tried, key: str) -> str:
    """The table the sheet was taken for; where it fits none, the one somebody chose."""
    return sheet.table or st.session_state.get(f"table-{key}", NO_TABLE)


def _meant(sheet: Tried, table: str, settings: Settings) -> list[Meaning]:
    """Each heading once, with its column, those without one first: they are what may want a choice.

    Of a chosen table, what the heading means in it by itself.
    """
    by_heading = {one.heading: one for one in sheet.headings if one.heading.strip()}
    meant = list(by_heading.values())
    if sheet.table is None and table:
        meant = [column_meant(TABLES[table], heading, settings) for heading in by_heading]
    return sorted(meant, key=lambda one: one.column is not None)


def _chosen(headings: list[Meaning], key: str, *, everything: bool) -> dict[str, str]:
    """The choices that differ from the match; of a table chosen by hand everything, which is what makes it fit."""
    chosen = {}
    for number, one in enumerate(headings):
        column = st.session_state.get(f"column-{key}-{number}", one.column or NOT_USED)
        if column != (one.column or NOT_USED) or (everything and column):
            chosen[one.heading] = column
    return chosen


def _show(sheet: Tried, unfit: bool, table: str, headings: list[Meaning], key: str, settings: Settings) -> None:  # noqa: PLR0917
    """One sheet: a sentence, the headings with their choices, the first rows as they were read, what is wrong."""
    parts.head(sheet.name)
    parts.said(tried_sentence(sheet, settings, here=True))
    if unfit and headings:
        names = [NO_TABLE, *TABLES]
        st.selectbox("Read it as", names, format_func=lambda name: name or "no table", key=f"table-{key}", width=260)
    if table:
        parts.note("Each heading, and the column it is read as; choose another where that is wrong.")
        now = {one.heading: one for one in sheet.headings}
        with st.container(key=f"headings-{key}", width=560, gap="small"):
            for number, one in enumerate(headings):
                _choice(one, now.get(one.heading, one), table, f"column-{key}-{table}-{number}", number)
    if sheet.rows.height:
        parts.note(f"The first {sheet.rows.height} rows as they were read" if sheet.table else "The first rows")
        columns: dict[str, Any] = {name: name for name in sheet.rows.columns}
        parts.table(sheet.rows, columns | {"row": parts.number_column("Row")}, "The first rows", f"rows-{key}")
    if sheet.table and not sheet.findings.is_empty():
        parts.html(lists.finding_list(sheet.findings.with_columns(files=1, count=1).to_dicts(), settings))


def _choice(before: Meaning, now: Meaning, table: str, key: str, number: int) -> None:
    """A heading, by what it was matched, and the columns it can be given.

    salon.toml has no word for "leave this heading out", so that is offered only where nothing else matches it.
    """
    by_hand = before.column is None or before.by.startswith("[columns")
    columns = [name for name in TABLES[table].headings if name not in CORRECTS or name == before.column]
    options = [NOT_USED, *columns] if by_hand else columns
    by = "your choice" if now.column != before.column and now.by.startswith("[columns") else matched_by(now.by)
    with st.container(horizontal=True, vertical_alignment="center", gap="small"):
        said = f'<p class="said">{escape(before.heading)}</p><p class="note">{escape(by)}</p>'
        parts.html(f'<div style="contain: inline-size; overflow-wrap: anywhere">{said}</div>')
        st.selectbox(
            f"Column of heading {number + 1}",
            options,
            index=options.index(before.column or NOT_USED),
            format_func=lambda name: name or "not used",
            key=key,
            label_visibility="collapsed",
            width=170,
        )


def _tried(dropped: Dropped, read: Reading, choices: Choices) -> list[Tried]:
    """How it would be read with these choices; worked out once as long as nothing changes."""
    key = (dropped.id, read.at, str(sorted((table, sorted(own.items())) for table, own in choices.items())))
    before: dict[tuple[Any, ...], list[Tried]] = st.session_state.get("tried", {})
    known = {at: tried for at, tried in before.items() if at[:2] == key[:2]}
    if key not in known:
        settings = read.settings
        for table, own in choices.items():
            settings = with_columns(settings, table, own)
        with st.spinner("Reading it beside the salon's exports"), _on_disk(dropped.content) as path:
            known[key] = _look(path, dropped.name, read.folder, settings)
    st.session_state["tried"] = known
    return known[key]


def _look(path: Path, name: str, folder: Path, settings: Settings) -> list[Tried]:
    try:
        _refuse_bombs(path, safe_name(name))
        return _in_silence(lambda: try_apart(path, name, folder, settings), safe_name(name))
    except WorkStopped as stop:
        return [Tried(safe_name(name), stopped=str(stop))]


def _refuse_bombs(path: Path, name: str) -> None:
    """An archive or workbook that unpacks to more than the page can hold in memory."""
    if not zipfile.is_zipfile(path):
        return
    try:
        with zipfile.ZipFile(path) as archive:
            unpacked = sum(item.file_size for item in archive.infolist())
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError):
        return  # what is wrong with it is told by reading it
    if unpacked > MOST_UNPACKED:
        raise WorkStopped(
            f"{name} unpacks to {unpacked // 1024**2:,} MB, too much to be looked at here; pack fewer exports together."
        )


def _in_silence(work: Callable[[], Answer], name: str) -> Answer:
    """The answer of the work. What goes wrong unforeseen may quote cells, so it is not passed on."""
    try:
        return work()
    except WorkStopped:
        raise
    except (Exception, pl.exceptions.PanicException):
        raise WorkStopped(
            f"{name} could not be read, for a reason we do not know; open it in a spreadsheet and save it again."
        ) from None


@contextmanager
def _on_disk(content: memoryview) -> Iterator[Path]:
    """The bytes as a file that only this user can read, for as long as they are looked at."""
    with tempfile.TemporaryDirectory(prefix="salon-figures-") as folder:
        path = Path(folder) / "dropped"
        path.write_bytes(content)
        yield path


def _keep(dropped: Dropped, read: Reading, choices: Choices) -> None:
    """Save the file and the choices, load the book again, and start over with an empty uploader."""
    try:
        with _on_disk(dropped.content) as path:
            kept = [keep(path, dropped.name, read.folder, own, table) for table, own in choices.items()]
            kept = kept or [keep(path, dropped.name, read.folder, {})]
    except WorkStopped as stop:
        parts.said(str(stop))
        return
    st.session_state["drops"] = dropped.number + 1
    st.session_state.pop("tried", None)
    _load(read.folder, _kept_sentence(replace(kept[0], columns={k: v for one in kept for k, v in one.columns.items()})))


def _kept_sentence(kept: Kept) -> str:
    where = "was in exports/ already" if kept.already else "was kept in exports/"
    matches = f", and what was chosen for {len(kept.columns)} of its headings in salon.toml" if kept.columns else ""
    return f"{kept.name} {where}{matches}. The exports were loaded again."


def _load(folder: Path, says: str) -> None:
    """Load the salon's exports with a bar, then show the page anew under this sentence."""
    bar = st.progress(0.0, "Loading the exports")

    def progress(_: str, done: int, steps: int) -> None:
        bar.progress(done / steps, "Loading the exports")

    try:
        _in_silence(lambda: load_salon(folder, progress), "A file")
    except WorkStopped as stop:
        says = f"{says.removesuffix(' The exports were loaded again.')} {stop}"
    st.session_state["kept_says"] = says
    st.rerun()
