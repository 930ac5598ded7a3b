"""The pieces that every page is put together from. Text from data never goes through Markdown here."""

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from html import escape
from typing import Any

import plotly.graph_objects as go
import streamlit as st

from analytics import wording
from analytics.catalogue import explain
from analytics.money import digits_of
from analytics.output import as_csv
from analytics.settings import Settings
from dashboard.frames import Frame, in_percent
from dashboard.page import pages
from dashboard.parts.palette import Ink, ink
from dashboard.parts.style import style_sheet

KINDS_OF_FILE = {"pdf": "application/pdf", "ics": "text/calendar", "csv": "text/csv"}
BESIDE = "beside the answer"
PICTURE = {"displayModeBar": False, "responsive": True, "scrollZoom": False}


def paper() -> Ink:
    """The colours of the reader's screen, light or dark."""
    return ink(_dark())


def _dark() -> bool:
    return bool(st.context.theme.type == "dark")


def style() -> None:
    """The style sheet, once a page."""
    st.html(style_sheet(paper(), _dark()))


def _kept_together(text: str) -> str:
    """Escaped, and with ranges that do not break over two lines."""
    return re.sub(r"(\S+–\S+)", r'<span class="range">\1</span>', escape(text))


def _paragraph(text: str, name: str) -> None:
    if text:
        st.html(f'<p class="{name}">{_kept_together(text)}</p>')


def answer(text: str) -> None:
    """The sentence that a page opens with."""
    st.html(f'<h1 class="answer">{_kept_together(text)}</h1>')
    st.session_state[BESIDE] = st.empty()


def beside_answer(assumed: list[str], may_set: bool) -> None:
    """What the page rests on and nobody ever said, under its first sentence, with the way to say it."""
    beside = st.session_state.pop(BESIDE, None)
    if not assumed or beside is None:
        return
    with beside.container(horizontal=True, vertical_alignment="center", gap="small", key="assumed"):
        html(f'<p class="note assumed">{escape(" ".join(assumed))}</p>', width="content")
        if may_set:
            st.page_link("../pages/settings.py", label="Set it")


def said(text: str) -> None:
    """A further sentence of the same weight as the table it stands beside."""
    _paragraph(text, "said")


def note(text: str) -> None:
    """What one must know to read the thing above."""
    _paragraph(text, "note")


def said_small(text: str, mark: str, **size: Any) -> None:
    """A note beside a field; mark: a class of the style sheet, for what was never set."""
    st.html(f'<p class="note{mark}">{escape(text)}</p>', **size)


def named(name: str, note: str) -> str:
    """A name out of data, with a note under it."""
    return f'<div class="heading"><p class="said">{escape(name)}</p><p class="note">{escape(note)}</p></div>'


def pairs(headings: tuple[str, str, str], rows: list[tuple[str, str, str]]) -> str:
    """A small table of names with two values each, that can be read aloud and on a phone."""
    cells = ["".join(f"<td>{escape(cell)}</td>" for cell in row) for row in rows]
    head = "".join(f"<th>{escape(heading)}</th>" for heading in headings)
    return f'<table class="pairs"><tr>{head}</tr>' + "".join(f"<tr>{row}</tr>" for row in cells) + "</table>"


def html(body: str, **size: Any) -> None:
    """A list of dashboard.parts, which escapes what comes from data."""
    st.html(body, **size)


def caution(text: str) -> None:
    """The usual cautions."""
    _paragraph(text, "caution")


def head(text: str) -> None:
    """The name of the next part."""
    st.html(f'<h2 class="head">{escape(text)}</h2>')


def picture(figure: go.Figure, says: str, key: str) -> None:
    """A picture; `says` is the same in words, for whoever cannot see it."""
    st.plotly_chart(figure, theme=None, width="stretch", config=PICTURE, key=key, alt=says)


def page_line(page: str, says: str) -> None:
    """A page by name, to go there, and what it says."""
    with st.container(horizontal=True, vertical_alignment="center", gap="xxsmall", key=f"to-{page}"):
        st.page_link(f"../pages/{page}.py", label=pages()[page].title, width=150)
        html(f'<p class="said">{escape(says)}</p>', width="stretch")


def table(frame: Frame, columns: dict[str, Any], says: str, key: str, shares: tuple[str, ...] = ()) -> None:
    """A table to sort, with the columns named in `columns`, in that order; `shares` are written as percent."""
    shown = [name for name in columns if name in frame.columns]
    st.dataframe(
        in_percent(frame.select(shown), shares),
        column_config=columns,
        hide_index=True,
        width="stretch",
        placeholder=wording.NOTHING,
        alt=says,
        key=key,
    )


def money_column(label: str, settings: Settings, **more: Any) -> Any:
    """A column of money in the salon's currency, right-aligned."""
    digits = digits_of(settings.salon.currency)
    return st.column_config.NumberColumn(f"{label} ({settings.salon.currency})", format=f"%,.{digits}f", **more)


def number_column(label: str, digits: int = 0, **more: Any) -> Any:
    """A column of numbers; the label holds the unit."""
    return st.column_config.NumberColumn(label, format=f"%,.{digits}f", **more)


def share_column(label: str) -> Any:
    """A column of shares, shown as percent: `table` has to be told their names."""
    return st.column_config.NumberColumn(label, format="%.0f%%")


def day_column(label: str) -> Any:
    """A column of days, year first so that it sorts as it reads."""
    return st.column_config.DateColumn(label, format="YYYY-MM-DD")


def choice(label: str, options: dict[str, str], key: str) -> str:
    """One of a few ways to show what follows; the first until somebody chooses."""
    chosen: str = st.segmented_control(
        label,
        list(options),
        default=next(iter(options)),
        format_func=options.__getitem__,
        key=key,
        required=True,
        label_visibility="collapsed",
    )
    return chosen


def worked_out(*names: str) -> None:
    """'How is this worked out?': what the figures' own pages in the reference say, and above it what they rest on."""
    for sentence in st.session_state["reading"].resting_on(*names):
        note(sentence)
    with st.expander("How is this worked out?"):
        for name in names:
            st.text(explain(name).replace("\n\n", "\0").replace("\n", " ").replace("\0", "\n\n"))


@contextmanager
def fold(title: str, key: str) -> Iterator[None]:
    """What is one tap away: whatever is drawn inside is seen once somebody opens it."""
    with st.expander(_as_label(title), key=key):
        yield


def _as_label(text: str) -> str:
    """The text as a label that Streamlit reads as Markdown, nothing of it live."""
    return re.sub(r"([\\`*_\[\]$~:<#|])", r"\\\1", text)


def when_opened(title: str, body: Callable[[], str], key: str) -> None:
    """A list that is worked out once somebody opens it."""
    with st.expander(title, key=key, on_change="rerun") as opened:
        if opened.open:
            html(body())


def show_rows(rows: Callable[[], Frame], key: str, title: str = "Show the rows") -> None:
    """The rows a figure adds up, fetched once somebody opens them."""
    with st.expander(title, key=key, on_change="rerun") as opened:
        if opened.open:
            frame = rows()
            note(f"{frame.height} rows")
            st.dataframe(frame, hide_index=True, width="stretch", placeholder=wording.NOTHING)


def download(label: str, frame: Frame, file_name: str) -> None:
    """A button that hands the table over as a CSV file."""
    st.download_button(label, as_csv(frame).encode("utf-8"), file_name, "text/csv", key=file_name, on_click="ignore")


def file_button(label: str, made: Callable[[], bytes], file_name: str) -> None:
    """A button that hands over a file, made once somebody asks for it."""
    st.download_button(
        label, made, file_name, KINDS_OF_FILE[file_name.rpartition(".")[2]], key=file_name, on_click="ignore"
    )
