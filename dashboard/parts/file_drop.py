"""A file dropped on the exports page: looked at, its headings matched by choice, kept only when asked to.

The bytes lie in a temporary folder while they are looked at. The name they came with is text and never a path, and
nothing of the file goes through Markdown, into an exception or into a log.
"""

import tempfile
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import streamlit as st

from analytics.intake.preview import TriedFile
from analytics.intake.reading.find import FOLDER
from analytics.intake.separate_process import try_apart
from analytics.sentences.tried_file import tried_sentence
from analytics.settings import Settings
from analytics.stops import WorkStopped
from analytics.storage.keeping import Chosen, keep_choices, keep_export, safe_name, with_chosen
from dashboard.data import Reading
from dashboard.parts import layout, lists
from dashboard.parts.file_choices import (
    chosen_columns,
    chosen_tables,
    chosen_ways,
    column_choices,
    table_choice,
    way_choice,
)
from dashboard.parts.loading import LOADED, ask, in_silence, load, say

MOST_UNPACKED = 300 * 1024**2  # twelve times what can be dropped: exports unpack to that, bombs to more
LARGER = "A file of more than 25 MB is put into the salon's folder exports/ by hand and then loaded from this page."


@dataclass(frozen=True)
class Dropped:
    """What is looked at: an id of the bytes, their name, and the bytes, or the place where they lie in exports/."""

    id: str
    name: str
    content: memoryview | Path

    @property
    def is_there(self) -> bool:
        return isinstance(self.content, Path)


def dropped_file(read: Reading) -> None:
    """The uploader and the exports that are there, and how the file dropped or chosen would be read."""
    say()
    ask(read)
    number = st.session_state.setdefault("drops", 0)
    found = st.file_uploader("Drop an export here to see how it would be read", key=f"drop-{number}")
    dropped = Dropped(found.file_id, found.name, found.getbuffer()) if found else _one_that_is_there(read, number)
    if dropped is None:
        st.session_state.pop("tried", None)
        layout.note(LARGER)
        return
    with st.container(border=True, key="dropped"):
        _looked_at(dropped, read)


def _one_that_is_there(read: Reading, number: int) -> Dropped | None:
    """An export that is looked at again, to read it another way from now on."""
    names = {path.relative_to(read.folder / FOLDER).as_posix(): path for path in read.exports}
    if not names:
        return None
    label = "Or look at one that is there, and change how it is read"
    name = st.selectbox(label, list(names), index=None, placeholder="An export", key=f"there-{number}", width=400)
    if name is None or not names[name].is_file():
        return None
    state = names[name].stat()
    return Dropped(f"{name}-{state.st_mtime_ns}-{state.st_size}", name, names[name])


def load_again(read: Reading) -> None:
    """A button that loads the exports, where they are not those the book was made from."""
    if read.stale and st.button("Load the exports again" if read.loaded else "Load the exports"):
        load(read, LOADED)


def _looked_at(dropped: Dropped, read: Reading) -> None:
    """Sheet by sheet what would become of it, with a choice of table and of every column, and the button that keeps it.

    Headings mean what they mean in the table that was chosen, so that is settled first; which of them are dates and
    numbers goes before the way these are written.
    """
    found = _tried(dropped, read, Chosen())
    keys = [f"{dropped.id}-{number}" for number in range(len(found))]
    tables = chosen_tables(found, keys, read.settings)
    matched = _tried(dropped, read, Chosen(tables))
    chosen, now, left_open = _with_ways(dropped, read, Chosen(tables, chosen_columns(matched, keys)))
    for key, first, meant, last in zip(keys, found, matched, now, strict=True):
        if len(now) > 1:
            layout.head(last.name)
        layout.said(tried_sentence(last, read.settings, here=True))
        while left_open:
            way_choice(left_open.pop(0))
        _show(key, first, meant, last, read.settings, is_there=dropped.is_there)
    if not _can_be_kept(now):
        return
    if (chosen or not dropped.is_there) and st.button("Keep these choices" if dropped.is_there else "Keep this file"):
        _keep(dropped, read, chosen)


def _with_ways(dropped: Dropped, read: Reading, chosen: Chosen) -> tuple[Chosen, list[TriedFile], list[str]]:
    """The choices with how dates and numbers are written, what comes of them, and which of the two had to be asked."""
    left_open: list[str] = []
    now = _tried(dropped, read, chosen)
    while more := {one.leaves_open for one in now if one.leaves_open} - {*left_open}:
        left_open += sorted(more)
        chosen = replace(chosen, ways=chosen_ways(left_open))
        now = _tried(dropped, read, chosen)
    return chosen, now, left_open


def _can_be_kept(tried: list[TriedFile]) -> bool:
    """No sheet of it would stop the load, and one at least is read or left out; what is set aside is said above.

    What is left out can be kept so while another file still stops the load, so that one can be mended after the other.
    """
    return all(one.stopped is None or one.waits_for or one.left_out for one in tried) and any(
        one.table or one.left_out for one in tried
    )


def _show(
    key: str, found: TriedFile, matched: TriedFile, now: TriedFile, settings: Settings, *, is_there: bool
) -> None:
    """One sheet: what it is read as, the headings with their choices, the first rows, what is wrong."""
    if found.headings or found.left_out or is_there:
        table_choice(found, key, settings)
    if matched.table:
        layout.note("What each heading means. Choose another meaning where this is wrong, or not to use it.")
        with st.container(key=f"headings-{key}", width=640, gap="small"):
            column_choices(matched, now, key)
    if now.rows.height:
        first = "The first row" if now.rows.height == 1 else f"The first {now.rows.height} rows"
        layout.note(f"{first} as read" if now.table else first)
        columns: dict[str, Any] = {name: name for name in now.rows.columns}
        layout.table(now.rows, columns | {"row": layout.number_column("Row")}, "The first rows", f"rows-{key}")
    if now.table and not now.findings.is_empty():
        layout.html(lists.finding_list(now.findings.with_columns(files=1, count=1).to_dicts(), settings))


def _tried(dropped: Dropped, read: Reading, chosen: Chosen) -> list[TriedFile]:
    """How it would be read with these choices; worked out once as long as nothing changes."""
    key = (dropped.id, read.at, repr(chosen.sections))
    before: dict[tuple[Any, ...], list[TriedFile]] = st.session_state.get("tried", {})
    known = {at: tried for at, tried in before.items() if at[:2] == key[:2]}
    if key not in known:
        with st.spinner("Reading it beside the salon's exports"), on_disk(dropped.content) as path:
            known[key] = _look(path, dropped.name, read.folder, with_chosen(read.settings, chosen))
    st.session_state["tried"] = known
    return known[key]


def _look(path: Path, name: str, folder: Path, settings: Settings) -> list[TriedFile]:
    try:
        refuse_bombs(path, safe_name(name))
        return in_silence(lambda: try_apart(path, name, folder, settings), safe_name(name))
    except WorkStopped as stop:
        return [TriedFile(safe_name(name), stopped=str(stop))]


def refuse_bombs(path: Path, name: str) -> None:
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


@contextmanager
def on_disk(content: memoryview | Path) -> Iterator[Path]:
    """The bytes as a file that only this user can read, for as long as they are looked at; or where they lie."""
    if isinstance(content, Path):
        yield content
        return
    with tempfile.TemporaryDirectory(prefix="salon-figures-") as folder:
        path = Path(folder) / "dropped"
        path.write_bytes(content)
        yield path


def _keep(dropped: Dropped, read: Reading, chosen: Chosen) -> None:
    """Save the file and the choices, load the book again, and start over with an empty uploader."""
    try:
        says = _kept(dropped, read, chosen)
    except WorkStopped as stop:
        layout.said(str(stop))
        return
    st.session_state["drops"] += 1
    st.session_state.pop("tried", None)
    load(read, f"{says} {LOADED}")


def _kept(dropped: Dropped, read: Reading, chosen: Chosen) -> str:
    """What was saved, in a sentence."""
    if dropped.is_there:
        keep_choices(read.folder, chosen)
        return f"What you chose for {dropped.name} was kept in salon.toml."
    with on_disk(dropped.content) as path:
        kept = keep_export(path, dropped.name, read.folder, chosen)
    where = "was in exports/ already" if kept.already else "was kept in exports/"
    return f"{kept.name} {where}{', and what you chose in salon.toml' if chosen else ''}."
