"""The page that was asked for, under the navigation. Started by dashboard.start, with a salon's folder and a day."""

import argparse
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import streamlit as st
from streamlit.navigation.page import StreamlitPage

from analytics import sentences
from analytics.sentences.assumed import never_set
from analytics.stops import WorkStopped
from dashboard.access import network, who
from dashboard.app.filters import narrowed
from dashboard.data import Reading
from dashboard.page import PAGES_FOLDER, Page, at_root, pages
from dashboard.parts import layout


def asked() -> Reading:
    """The folder and the day of the command line."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--salon", type=Path, default=Path())
    parser.add_argument("--today", type=date.fromisoformat, default=None)
    found, _ = parser.parse_known_args()
    return Reading(found.salon, found.today or date.today())


def foot(whole: Reading, shown: list[StreamlitPage]) -> None:
    """Whose figures these are, and on a phone the other pages, under the thumb."""
    try:
        if whole.loaded and whole.stale:
            layout.said(sentences.STALE)
        layout.note(sentences.foot(whole.settings, whole.months, whole.today))
    except WorkStopped:
        pass  # the page itself says it, or asks for what is missing
    if network.OPEN:
        layout.html(who.signed_in_as(whole.reader))
    with st.container(horizontal=True, key="foot"):
        for page in shown:
            st.page_link(page)


def missing(whole: Reading, page: Page) -> str:
    """What there is nothing to show without, in a sentence; empty where the page has all it needs."""
    if page.needs == "nothing":
        return ""
    try:
        if whole.settings and page.needs == "settings":
            return ""
        if not whole.loaded:
            return sentences.WHERE_TO_LOAD
        return "" if whole.months else sentences.NOTHING_YET
    except WorkStopped as stopped:
        return str(stopped)


def show() -> None:
    """The page that was asked for, over its foot."""
    st.set_page_config(page_title="Salon figures", layout="wide")
    whole = asked()
    me = who.reader(whole.folder)
    if me is None:
        st.html(f"<p>{who.NOBODY}</p>")
        return
    whole = replace(whole, reader=me)
    own = {file: page for file, page in pages().items() if me.role in page.readers}
    first = at_root(list(own), whole.loaded, st.context.url or "")
    there = {
        st.Page(PAGES_FOLDER / f"{file}.py", title=page.title, url_path=file, default=file == first): page
        for file, page in own.items()
    }
    chosen = st.navigation(list(there), position="top")
    layout.style()
    layout.html(who.last_seen(datetime.now()))
    above, below = st.container(), st.container()
    with below:  # first, since a page may stop before its end
        foot(whole, list(there))
    with above:
        if lacking := missing(whole, there[chosen]):
            layout.answer(lacking)
            return
        st.session_state["reading"] = narrowed(whole, there[chosen])
        if kept_out := st.session_state["reading"].kept_out:
            layout.caution(kept_out)
        try:
            chosen.run()
        finally:  # also where the page ends before its last line
            shows = whole.asked and there[chosen].needs == "months"
            layout.beside_answer(never_set(whole.settings, whole.asked) if shows else [], me.is_owner)


show()
