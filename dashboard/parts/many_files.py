"""Many files dropped at once: those that can be read are kept in exports/, and the salon is loaded with them.

The bytes are looked at in another process before any of them lies among the exports.
"""

from contextlib import ExitStack
from pathlib import Path

import streamlit as st

from analytics.intake.separate_process import unreadable_apart
from analytics.sentences.start import FORMS, came_in
from analytics.stops import WorkStopped
from analytics.storage.keeping import Chosen, keep_export, safe_name
from dashboard.data import Reading
from dashboard.parts import layout
from dashboard.parts.file_drop import on_disk, refuse_bombs
from dashboard.parts.loading import LOADED, SAYS, load

NUMBER = "many_drops"


def dropped_files(read: Reading, label: str) -> None:
    """The place to drop files, and what becomes of them at once."""
    number = st.session_state.setdefault(NUMBER, 0)
    found = st.file_uploader(label, accept_multiple_files=True, key=f"drops-{number}")
    layout.note(FORMS)
    if not found:
        return
    with ExitStack() as lying, st.spinner("Reading what you dropped"):
        files = [(lying.enter_context(on_disk(one.getbuffer())), one.name) for one in found]
        says, any_kept = _kept(files, read)
    st.session_state[NUMBER] = number + 1
    if any_kept:
        load(read, f"{says} {LOADED}")
    st.session_state[SAYS] = says
    st.rerun()


def _kept(files: list[tuple[Path, str]], read: Reading) -> tuple[str, bool]:
    """What became of the files in a sentence, and whether one was kept."""
    refused = _bombs(files)
    rest = [file for place, file in enumerate(files) if place not in refused]
    why = unreadable_apart(rest, read.settings) if rest else {}
    kept: list[str] = []
    already: list[str] = []
    said = [*refused.values(), *why.values()]
    for path, name in (file for place, file in enumerate(rest) if place not in why):
        try:
            there = keep_export(path, name, read.folder, Chosen())
        except WorkStopped as stop:
            said.append(str(stop))
            continue
        (already if there.already else kept).append(there.name)
    return came_in(kept, already, said), bool(kept or already)


def _bombs(files: list[tuple[Path, str]]) -> dict[int, str]:
    """By place: archives and workbooks that unpack to more than can be held in memory."""
    found = {}
    for place, (path, name) in enumerate(files):
        try:
            refuse_bombs(path, safe_name(name))
        except WorkStopped as stop:
            found[place] = str(stop)
    return found
