"""Exports and findings: what became of every row, what is wrong, and what to do about it."""

import streamlit as st

from analytics import sentences
from analytics.records.loaded import findings_by_cause, rows_by_table
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import bars, file_drop, layout, lists

PAGE = Page(
    title="Exports and findings",
    order=110,
    readers=("owner",),
    needs="settings",
    picture=(1280, 740),
)

read = reading(PAGE)

if not read.loaded:
    layout.answer(sentences.NOT_LOADED)
    file_drop.load_again(read)
    file_drop.dropped_file(read)
    st.stop()
settings, book = read.settings, read.book

layout.answer(sentences.exports_sentence(book.files, book.findings, settings))
file_drop.load_again(read)
file_drop.dropped_file(read)
if not book.findings.is_empty():
    layout.head("What wants a look")
    layout.html(lists.finding_list(findings_by_cause(book.findings).to_dicts(), settings))
if not book.files.is_empty():
    layout.head("What became of the rows, table by table")
    layout.html(bars.drawn(bars.table_bars(rows_by_table(book.files).to_dicts(), settings)))
    layout.note(
        "Read = used + repeats + superseded + set aside, for every file. A repeat is the same row once more, as "
        "exports overlap; superseded is an older state of a row that a later export brings; set aside cannot be used."
    )
    layout.head("File by file")
    layout.table(
        book.files,
        {
            "file": "File",
            "table": "Table",
            "rows_read": layout.number_column("Read"),
            "rows_used": layout.number_column("Used"),
            "repeats": layout.number_column("Repeats"),
            "superseded": layout.number_column("Superseded"),
            "set_aside": layout.number_column("Set aside"),
        },
        "Rows read, used, repeated, superseded and set aside, by file",
        "files",
    )
if not book.findings.is_empty():
    layout.head("The findings as a table")
    layout.table(
        book.findings,
        {
            "file": "File",
            "row": layout.number_column("Row"),
            "column": "Column",
            "value": "Cell",
            "count": layout.number_column("Rows like it"),
            "message": "What is wrong",
            "what_to_do": "What to do",
        },
        "Findings",
        "findings",
    )
if not book.set_aside.is_empty():
    layout.download("Rows set aside (CSV)", book.set_aside, "set-aside.csv")
    layout.show_rows(lambda: book.set_aside, "set_aside", "Show the rows set aside")
