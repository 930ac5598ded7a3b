"""Loading the salon's exports from a page: with a bar, what stopped it kept, and what it asks put as questions to tap.

An answer is written into salon.toml and the load goes on. What stopped a load counts until exports or settings change.
"""

from collections.abc import Callable
from html import escape
from typing import TypeVar

import streamlit as st

from analytics.intake.answers import Answer, Inquiry, asked_of_findings, inquiries
from analytics.loading import load_salon
from analytics.sentences.tried_file import waiting_sentence
from analytics.settings import FILE_NAME
from analytics.stops import TablesLacking, WorkStopped
from analytics.storage.settings_file import Sections, write_settings
from dashboard.data import Reading
from dashboard.frames import Panic
from dashboard.parts import layout

LOADED = "The exports were loaded again."
SAYS = "kept_says"
STOPPED = "stopped"
LEFT_FOR_LATER = "left_for_later"

Done = TypeVar("Done")
State = tuple[object, ...]


def in_silence(work: Callable[[], Done], name: str) -> Done:
    """The answer of the work. What goes wrong unforeseen may quote cells, so it is not passed on."""
    try:
        return work()
    except WorkStopped:
        raise
    except (Exception, Panic):
        raise WorkStopped(
            f"{name} could not be read, for a reason we do not know; open it in a spreadsheet and save it again."
        ) from None


def load(read: Reading, says: str) -> None:
    """Load the salon's exports with a bar, then show the page anew under this sentence; why not, where it stopped."""
    bar = st.progress(0.0, "Loading the exports")

    def progress(_: str, done: int, steps: int) -> None:
        bar.progress(done / steps, "Loading the exports")

    stop: WorkStopped | None = None
    try:
        in_silence(lambda: load_salon(read.folder, progress), "A file")
    except TablesLacking as found:
        stop, says = found, f"{says.removesuffix(LOADED)}{waiting_sentence(found.tables)}"
    except WorkStopped as found:
        stop, says = found, f"{says.removesuffix(LOADED)}{'' if inquiries(found) else found}"
    st.session_state[STOPPED] = _state(read), stop
    st.session_state[SAYS] = says
    st.rerun()


def say() -> None:
    """What came of the last load, once."""
    layout.said(str(st.session_state.pop(SAYS, "")))


def tried(read: Reading) -> bool:
    """Whether these exports were loaded here under these settings, with whatever outcome."""
    return STOPPED in st.session_state and st.session_state[STOPPED][0] == _state(read)


def stopped(read: Reading) -> WorkStopped | None:
    """What stopped the load of these exports under these settings."""
    return st.session_state[STOPPED][1] if tried(read) else None


def _state(read: Reading) -> State:
    """Changes whenever an export or the settings do."""
    paths = [*read.exports, *(path for path in [read.folder / FILE_NAME] if path.is_file())]
    return tuple((str(path), path.stat().st_mtime_ns, path.stat().st_size) for path in paths)


def questions(read: Reading) -> list[Inquiry]:
    """What has to be said before the exports can be loaded, else what one word would bring into the figures."""
    if found := inquiries(stopped(read)):
        return found
    later = st.session_state.get(LEFT_FOR_LATER, set())
    return [one for one in asked_of_findings(read.book.findings) if one.says not in later] if read.loaded else []


def ask(read: Reading) -> None:
    """The first question with its answers to tap; nothing where nothing is asked."""
    found = questions(read)
    if not found:
        return
    first, must = found[0], bool(inquiries(stopped(read)))
    with st.container(border=True, key="question"):
        layout.said(first.says)
        with st.container(horizontal=not any(one.heading for one in first.answers), gap="small", key="answers"):
            for number, answer in enumerate(first.answers):
                _offer(read, answer, number)
            if not must and st.button("Not now", key="answer-later", type="tertiary"):
                st.session_state.setdefault(LEFT_FOR_LATER, set()).add(first.says)
                st.rerun()
        if len(found) > 1:
            layout.note(f"{len(found) - 1} more after this.")


def _offer(read: Reading, answer: Answer, number: int) -> None:
    with st.container(
        horizontal=True, vertical_alignment="center", gap="small", width="content", key=f"offer-{number}"
    ):
        if answer.heading:
            values = f'<p class="note">{escape(" · ".join(answer.values))}</p>'
            layout.html(f'<div class="heading"><p class="said">{escape(answer.heading)}</p>{values}</div>', width=260)
        if st.button(answer.label, key=f"answer-{number}"):
            try:
                write_settings(read.folder, answer.lines)
            except WorkStopped as stop:
                layout.said(str(stop))
                return
            load(read, LOADED)


def keep_settings(read: Reading, lines: Sections, says: str) -> None:
    """Write lines into salon.toml and show the page anew; exports that are read otherwise now are loaded again."""
    try:
        write_settings(read.folder, lines)
    except WorkStopped as stop:
        layout.said(str(stop))
        return
    was_stale, now = read.stale, Reading(read.folder, read.today, reader=read.reader)
    if read.loaded and now.stale and not was_stale:
        load(now, f"{says} {LOADED}")
    st.session_state[SAYS] = says
    st.rerun()
