"""What a dropped file should be read as: the choices of table and columns, and what they say for salon.toml.

Text of the file stands in options and paragraphs only, never in a label, which would be Markdown.
"""

from html import escape
from textwrap import shorten

import streamlit as st

from analytics.definitions.columns import CORRECTS
from analytics.definitions.tables import TABLES
from analytics.definitions.vocabulary import TABLE_NAMES
from analytics.intake.answers import WAYS
from analytics.intake.meaning.match import Meaning
from analytics.intake.meaning.table_rules import ANY, LEFT_OUT, named_like, told_table
from analytics.intake.preview import TriedFile
from analytics.sentences.tried_file import matched_by
from analytics.settings import Settings
from analytics.storage.keeping import Chosen, Entries, with_chosen
from dashboard.parts import layout

AS_FOUND = "as found"
NOT_USED = ""
LONGEST = 46  # letters of an option that a phone shows


def chosen_tables(sheets: list[TriedFile], keys: list[str], settings: Settings) -> Entries:
    """The lines for [tables]: of each sheet whose table was changed, under its name or for all names like it."""
    lines: Entries = {}
    for sheet, key in zip(sheets, keys, strict=True):
        picked = st.session_state.get(f"table-{key}", _table_before(sheet))
        if picked == _table_before(sheet):
            continue
        if picked == AS_FOUND:
            lines[sheet.rule or sheet.name] = None
            continue
        like = _like(sheet, picked, settings)
        wide = like is not None and st.session_state.get(f"like-{key}", sheet.rule is None)
        name = like if like and wide and lines.get(like, picked) == picked else sheet.name
        lines[name] = picked
    return lines


def chosen_columns(sheets: list[TriedFile], keys: list[str]) -> dict[str, Entries]:
    """The lines for [columns.<table>]: of each heading whose column was changed."""
    lines: dict[str, Entries] = {}
    for sheet, key in zip(sheets, keys, strict=True):
        for number, one in enumerate(headings(sheet)):
            picked = st.session_state.get(_column_key(key, sheet, number), _column_before(one))
            if picked != _column_before(one) and sheet.table:
                lines.setdefault(sheet.table, {})[one.heading] = None if picked == AS_FOUND else picked
    return lines


def chosen_ways(sections: list[str]) -> dict[str, Entries]:
    """The lines for [dates] and [numbers], of those that had to be asked: how files are written that leave it open."""
    picked = {section: st.session_state.get(f"way-{section}") for section in sections}
    return {section: {WAYS[section][0]: way} for section, way in picked.items() if way is not None}


def way_choice(section: str) -> None:
    """How dates or numbers are written that do not show it, in this file and in all others."""
    _, ways = WAYS[section]
    label = f"Its {section} are written"
    st.selectbox(
        label,
        list(ways),
        index=None,
        placeholder="Choose",
        format_func=ways.__getitem__,
        key=f"way-{section}",
        width=280,
    )
    layout.note(f"This holds for every file whose {section} leave it open; the others show it themselves.")


def headings(sheet: TriedFile) -> list[Meaning]:
    """Each heading once, with its column, those without one first: they are what may want a choice."""
    by_heading = {one.heading: one for one in sheet.headings if one.heading.strip()}
    return sorted(by_heading.values(), key=lambda one: one.column is not None)


def table_choice(sheet: TriedFile, key: str, settings: Settings) -> None:
    """What the sheet is read as, another table, or nothing; and whether that holds for files to come."""
    others = [table for table in TABLES if sheet.rule is not None or table != sheet.table]
    if not (sheet.headings or sheet.left_out):
        others = []  # it cannot be read, so it can only be left out
    options = [AS_FOUND, *others, LEFT_OUT]
    found = "what its headings say" if sheet.rule is not None else TABLE_NAMES.get(sheet.table or "", "no table")
    names = {**TABLE_NAMES, AS_FOUND: found, LEFT_OUT: "nothing: leave it out"}
    picked = st.selectbox(
        "Read it as",
        options,
        index=options.index(_table_before(sheet)),
        format_func=names.__getitem__,
        key=f"table-{key}",
        width=280,
    )
    if picked == AS_FOUND and ANY in (sheet.rule or ""):
        layout.note(f"That takes {sheet.rule} out of salon.toml, for every file named so.")
    like = _like(sheet, picked, settings) if picked not in (AS_FOUND, _table_before(sheet)) else None
    if like is not None:
        st.checkbox("The same for every file named like it", value=sheet.rule is None, key=f"like-{key}")
        layout.note(f"That is {like}, where {ANY} stands for anything. Untick it if only this file is meant.")


def column_choices(before: TriedFile, now: TriedFile, key: str) -> None:
    """A choice for every heading."""
    meant = {one.heading: one for one in now.headings}
    for number, one in enumerate(headings(before)):
        _column_choice(one, meant.get(one.heading, one), before, _column_key(key, before, number), number)


def _column_choice(before: Meaning, now: Meaning, sheet: TriedFile, key: str, number: int) -> None:
    """A heading, by what it was matched, and the columns it can be given."""
    said = _from_settings(before)
    columns = [name for name in TABLES[sheet.table or ""].headings if name not in CORRECTS or name == before.column]
    options = [*([AS_FOUND] if said else []), NOT_USED, *columns]
    by = "your choice" if _from_settings(now) and now != before else matched_by(now.by)
    names = _meanings(sheet.table or "") | {AS_FOUND: "as it was found", NOT_USED: "not used"}
    with st.container(horizontal=True, vertical_alignment="center", gap="xxsmall"):
        text = f'<p class="said">{escape(before.heading)}</p><p class="note">{escape(by)}</p>'
        layout.html(f'<div class="heading">{text}</div>', width=260)
        st.selectbox(
            f"Column of heading {number + 1}",
            options,
            index=options.index(_column_before(before)),
            format_func=lambda name: names.get(name, name),
            key=key,
            label_visibility="collapsed",
            width=330,
        )


def _meanings(table: str) -> dict[str, str]:
    """Each column by name, with what it means."""
    return {
        column.name: shorten(f"{column.name}: {column.meaning}", LONGEST, placeholder=" …")
        for column in TABLES[table].columns
    }


def _table_before(sheet: TriedFile) -> str:
    """What the choice of table stands at until somebody chooses."""
    if sheet.left_out:
        return LEFT_OUT
    return AS_FOUND if sheet.rule is None else sheet.table or AS_FOUND


def _column_before(meaning: Meaning) -> str:
    return meaning.column or NOT_USED


def _column_key(key: str, sheet: TriedFile, number: int) -> str:
    return f"column-{key}-{sheet.table}-{number}"


def _from_settings(meaning: Meaning) -> bool:
    return meaning.by.startswith("[columns")


def _like(sheet: TriedFile, picked: str, settings: Settings) -> str | None:
    """A line for all files named like this one that would decide for this one too; None where there is none."""
    for like in (sheet.rule or "", named_like(sheet.name)):
        chosen = with_chosen(settings, Chosen({like: picked}))
        if ANY in like and told_table(sheet.name, chosen) == picked:
            return like
    return None
