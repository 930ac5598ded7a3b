"""Start: a few things about the salon, the files that are there, and what the next one would add."""

import streamlit as st

from analytics.records.loaded import used_tables
from analytics.sentences import start
from analytics.sentences.assumed import never_set
from analytics.settings import FILE_NAME
from analytics.stops import WorkStopped
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import about_salon, layout, lists, loading, many_files

PAGE = Page(title="Start", order=105, readers=("owner",), needs="nothing")

read = reading(PAGE)
try:
    settings = read.settings if (read.folder / FILE_NAME).is_file() else None
except WorkStopped as wrong:
    layout.answer(str(wrong))
    st.stop()
if settings is not None and read.stale and read.exports and not loading.tried(read):
    layout.answer(start.READING)
    loading.load(read, "")

there = set(used_tables(read.book.files)) if read.loaded else set()
stop, asked = loading.stopped(read), loading.questions(read)
says = "" if stop is None or asked else str(stop)
layout.answer(start.next_step(there, settings, asked=bool(asked) and stop is not None, stopped=says))
loading.say()
if settings is None:
    about_salon.about_salon(read)
    st.stop()
loading.ask(read)
if there:
    layout.head("What can be answered now")
    for one in start.answered(there):
        layout.page_line(one.page, one.says)
    if assumed := never_set(settings):
        layout.page_line("settings", " ".join(assumed))
many_files.dropped_files(read, "Drop what you have" if not read.exports else "Drop more")
layout.head("What the next files would add")
layout.html(lists.said_list(start.would_add(there)))
