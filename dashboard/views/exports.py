"""Exports and findings: what became of every row, what is wrong, and what to do about it."""

import streamlit as st

from analytics import sentences
from dashboard import bars, dropping, lists, parts
from dashboard.data import reading

read = reading()

if not read.loaded:
    parts.answer(sentences.NOT_LOADED)
    dropping.load_again(read)
    dropping.dropped_file(read)
    st.stop()
settings, book = read.settings, read.book

parts.answer(sentences.exports_sentence(book.files, book.findings, settings))
dropping.load_again(read)
dropping.dropped_file(read)
if not book.findings.is_empty():
    parts.head("What wants a look")
    parts.html(lists.finding_list(read.causes(), settings))
if not book.files.is_empty():
    parts.head("What became of the rows, table by table")
    parts.html(bars.drawn(bars.table_bars(read.by_table(), settings)))
    parts.note(
        "Read = used + repeats + superseded + set aside, for every file. A repeat is the same row once more, as "
        "exports overlap; superseded is an older state of a row that a later export brings; set aside cannot be used."
    )
    parts.head("File by file")
    parts.table(
        book.files,
        {
            "file": "File",
            "table": "Table",
            "rows_read": parts.number_column("Read"),
            "rows_used": parts.number_column("Used"),
            "repeats": parts.number_column("Repeats"),
            "superseded": parts.number_column("Superseded"),
            "set_aside": parts.number_column("Set aside"),
        },
        "Rows read, used, repeated, superseded and set aside, by file",
        "files",
    )
if not book.findings.is_empty():
    parts.head("The findings as a table")
    parts.table(
        book.findings,
        {
            "file": "File",
            "row": parts.number_column("Row"),
            "column": "Column",
            "value": "Cell",
            "count": parts.number_column("Rows like it"),
            "message": "What is wrong",
            "what_to_do": "What to do",
        },
        "Findings",
        "findings",
    )
if not book.set_aside.is_empty():
    parts.download("Rows set aside (CSV)", book.set_aside, "set-aside.csv")
    parts.show_rows(lambda: book.set_aside, "set_aside", "Show the rows set aside")
