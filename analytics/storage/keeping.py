"""Keep a file among a salon's exports under a safe name, and in salon.toml what was chosen for it.

Both are written beside their place and moved in whole (settings_file writes salon.toml).
"""

import filecmp
import os
import re
import shutil
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

from analytics.settings import FILE_NAME, Settings, parse_settings, read_settings
from analytics.stops import WorkStopped
from analytics.storage.private_files import part_beside
from analytics.storage.settings_file import changed_text, replace_settings, spelt, sync_folder

EXPORTS = "exports"
LONGEST = 100  # characters of a name
MOST_NAME_BYTES = 240  # file systems stop at 255
NAMELESS = "export"
SUFFIX = re.compile(r"\.[A-Za-z0-9]{1,5}")
RESERVED = re.compile(r"(?i)(con|prn|aux|nul|com\d|lpt\d)(?![^. ])")  # no file may be called so on some systems
OF_CLIENTS = 0o600  # exports name clients: at first only their owner reads them


Entries = dict[str, str | None]
"""Lines of one section of salon.toml; None takes a line out."""


@dataclass(frozen=True)
class Chosen:
    """What somebody chose for salon.toml.

    tables: of files and sheets by name the table they are, "" to leave them out. columns: by table, of headings the
    column they mean, "" for one that is not to be used. None where nothing shall be said any more. ways: under [dates]
    and [numbers], how files are written that do not show it.
    """

    tables: Entries = field(default_factory=dict)
    columns: dict[str, Entries] = field(default_factory=dict)
    ways: dict[str, Entries] = field(default_factory=dict)

    def __bool__(self) -> bool:
        return bool(self.tables or any(self.columns.values()) or self.ways)

    @property
    def sections(self) -> dict[tuple[str, ...], Entries]:
        """The sections of salon.toml with the lines to write."""
        of_columns = {("columns", table): entries for table, entries in self.columns.items()}
        of_ways = {(section,): entries for section, entries in self.ways.items()}
        said = {("tables",): self.tables} | of_columns | of_ways
        return {section: entries for section, entries in said.items() if entries}


@dataclass(frozen=True)
class KeptExport:
    """The name in exports/, and whether the same file was there already."""

    name: str
    already: bool


def safe_name(name: str) -> str:
    """The last part of the name in letters, digits, dot, dash, underscore and blank: a plain file in any folder.

    Never empty, hidden, reserved or longer than LONGEST; the ending, which says what kind of file it is, survives. What
    is taken out can leave a name that is not plain yet, so it is done until nothing changes.
    """
    plainer = _safer(name.replace("\0", ""))
    return plainer if plainer == name else safe_name(plainer)


def _safer(name: str) -> str:
    last = re.split(r"[/\\]", unicodedata.normalize("NFC", name))[-1]
    stem, dot, ending = last.rpartition(".")
    suffix = dot + ending if SUFFIX.fullmatch(dot + ending) else ""
    stem = _plain(stem if suffix else last) or NAMELESS
    stem = f"{NAMELESS} {stem}" if RESERVED.match(stem) else stem
    return _shortened(stem, suffix)


def _plain(text: str) -> str:
    kept = "".join(sign if sign.isalnum() or sign in "._- " else "-" for sign in text)
    return re.sub(r" {2,}", " ", kept).strip(". ").lstrip("-. ")


def _shortened(stem: str, suffix: str) -> str:
    stem = stem[: LONGEST - len(suffix)]
    while len((stem + suffix).encode()) > MOST_NAME_BYTES:
        stem = stem[:-1]
    return (stem.rstrip(". ") or NAMELESS) + suffix


def free_name(name: str, content: Path, folder: Path) -> tuple[str, bool]:
    """The safe name under which this content can lie in exports/, and whether it lies there already.

    Where another file has the name, a number is added.
    """
    for candidate in _numbered(safe_name(name)):
        there = folder / EXPORTS / candidate
        if not os.path.lexists(there):
            return candidate, False
        if there.is_file() and filecmp.cmp(there, content, shallow=False):
            return candidate, True
    raise AssertionError("numbers do not end")


def _numbered(name: str) -> Iterator[str]:
    yield name
    path = Path(name)
    for number in count(2):
        ending = f"-{number}{path.suffix}"
        yield _shortened(path.stem[: LONGEST - len(ending)], ending)


def with_chosen(settings: Settings, chosen: Chosen) -> Settings:
    """Settings in which salon.toml says what was chosen."""
    columns = dict(settings.columns)
    for table, entries in chosen.columns.items():
        columns[table] = _with_entries(columns.get(table, {}), entries)
    said = {table: own for table, own in columns.items() if own}
    ways = {section: getattr(settings, section).model_copy(update=entries) for section, entries in chosen.ways.items()}
    tables = _with_entries(settings.tables, chosen.tables)
    return settings.model_copy(update={"tables": tables, "columns": said, **ways})


def _with_entries(before: dict[str, str], entries: Entries) -> dict[str, str]:
    """The lines of a section with these in it, each under the spelling that stands there already."""
    as_there = {spelt(name): name for name in reversed(before)}
    meant = {spelt(name) for name in entries}
    own = {name: said for name, said in before.items() if spelt(name) not in meant}
    return own | {as_there.get(spelt(name), name.strip()): said for name, said in entries.items() if said is not None}


def keep_export(content: Path, name: str, folder: Path, chosen: Chosen) -> KeptExport:
    """Save the content into exports/ and what was chosen into salon.toml.

    Raises WorkStopped where the settings would not be valid, or the folder cannot be written to; the settings are then
    as they were.
    """
    settings = _new_settings(folder, chosen) if chosen else None
    try:
        (folder / EXPORTS).mkdir(exist_ok=True)
        part = _part(content, folder / EXPORTS)
        try:
            if settings is not None:
                replace_settings(settings, folder)
            kept_as, already = _moved_in(part, name, content, folder)
        finally:
            part.unlink(missing_ok=True)
    except OSError:
        raise WorkStopped(f"{folder} cannot be written to; check its rights and the free space.") from None
    return KeptExport(kept_as, already)


def keep_choices(folder: Path, chosen: Chosen) -> None:
    """Write what was chosen into salon.toml alone. Raises as `keep_export` does."""
    replace_settings(_new_settings(folder, chosen), folder)


def _new_settings(folder: Path, chosen: Chosen) -> str:
    """The text of salon.toml with what was chosen, held against what the choice is meant to say."""
    before = read_settings(folder)
    text = changed_text(folder, chosen.sections)
    if with_chosen(parse_settings(text), Chosen()) != with_chosen(before, chosen):
        raise WorkStopped(f"{FILE_NAME} is written in a way we cannot add to; write what you chose into it by hand.")
    return text


def _part(content: Path, exports: Path) -> Path:
    """The content beside its place, on the disk, under a name that loading passes over."""
    part = part_beside(exports / NAMELESS)
    try:
        with content.open("rb") as source, os.fdopen(os.open(part, _NEW, OF_CLIENTS), "wb") as target:
            shutil.copyfileobj(source, target)
            _sync(target.fileno())
    except OSError:
        part.unlink(missing_ok=True)
        raise
    return part


_NEW = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)


def _sync(handle: int) -> None:
    os.fsync(handle)


def _moved_in(part: Path, name: str, content: Path, folder: Path) -> tuple[str, bool]:
    """Give the file its name, never one that another file took in the meantime."""
    while True:
        kept_as, already = free_name(name, content, folder)
        if already:
            return kept_as, True
        try:
            os.link(part, folder / EXPORTS / kept_as)
        except FileExistsError:
            continue
        except OSError:  # a file system without links
            part.replace(folder / EXPORTS / kept_as)
        sync_folder(folder / EXPORTS)
        return kept_as, False
