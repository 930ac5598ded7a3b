"""Keep a file among a salon's exports under a safe name, and in salon.toml what was chosen for it.

Both are written beside their place and moved in whole: a stop in between leaves the old settings and no half file.
"""

import filecmp
import os
import re
import shutil
import unicodedata
from collections.abc import Iterator, MutableMapping
from contextlib import suppress
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from analytics.settings import FILE_NAME, Settings, parse_settings
from analytics.stops import WorkStopped

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
    as_there = {_spelt(name): name for name in reversed(before)}
    spelt = {_spelt(name) for name in entries}
    own = {name: said for name, said in before.items() if _spelt(name) not in spelt}
    return own | {as_there.get(_spelt(name), name.strip()): said for name, said in entries.items() if said is not None}


def _spelt(name: str) -> str:
    """A heading or file name as two spellings of it are compared."""
    return name.strip().casefold()


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
                _replace_settings(settings, folder / FILE_NAME)
            kept_as, already = _moved_in(part, name, content, folder)
        finally:
            part.unlink(missing_ok=True)
    except OSError:
        raise WorkStopped(f"{folder} cannot be written to; check its rights and the free space.") from None
    return KeptExport(kept_as, already)


def keep_choices(folder: Path, chosen: Chosen) -> None:
    """Write what was chosen into salon.toml alone. Raises as `keep_export` does."""
    settings = _new_settings(folder, chosen)
    try:
        _replace_settings(settings, folder / FILE_NAME)
    except OSError:
        raise WorkStopped(f"{folder} cannot be written to; check its rights and the free space.") from None


def _new_settings(folder: Path, chosen: Chosen) -> bytes:
    """The text of salon.toml with what was chosen: everything else in it, comments too, stays as it stands."""
    old = (folder / FILE_NAME).read_bytes()
    before = parse_settings(old.decode("utf-8-sig"))
    by_hand = f"{FILE_NAME} is written in a way we cannot add to; write {_by_hand(chosen)} by hand."
    try:
        text = _edited(old.decode("utf-8-sig"), chosen)
    except (TOMLKitError, ValueError, TypeError, AttributeError, KeyError):
        raise WorkStopped(by_hand) from None
    if with_chosen(parse_settings(text), Chosen()) != with_chosen(before, chosen):
        raise WorkStopped(by_hand)
    return text.encode()


def _by_hand(chosen: Chosen) -> str:
    sections = " and ".join(f"[{'.'.join(section)}]" for section in chosen.sections)
    return f"what you chose under {sections}"


def _edited(text: str, chosen: Chosen) -> str:
    document = tomlkit.parse(text)
    for section, entries in chosen.sections.items():
        _edit(document, section, entries)
    return tomlkit.dumps(document)


def _edit(inside: MutableMapping[str, Any], section: tuple[str, ...], entries: Entries) -> None:
    """Write the lines into the section, which is made where it is not there and taken out where nothing is left."""
    first, *rest = section
    own = inside.setdefault(first, tomlkit.table(is_super_table=bool(rest)))
    if rest:
        _edit(own, tuple(rest), entries)
    else:
        for name, said in entries.items():
            _write(own, name, said)
    if not own and not _has_comment(own):
        del inside[first]


def _has_comment(section: MutableMapping[str, Any]) -> bool:
    trivia = getattr(section, "trivia", None)
    return "#" in tomlkit.dumps(section) or bool(trivia and trivia.comment)


def _write(own: MutableMapping[str, Any], name: str, said: str | None) -> None:
    there = [key for key in own if _spelt(key) == _spelt(name)]
    for key in there if said is None else there[1:]:
        del own[key]
    if said is not None:
        own[there[0] if there else name.strip()] = said


def _part(content: Path, exports: Path) -> Path:
    """The content beside its place, on the disk, under a name that loading passes over."""
    part = exports / f".{os.getpid()}-{os.urandom(4).hex()}.part"
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
        _sync_folder(folder / EXPORTS)
        return kept_as, False


def _sync_folder(folder: Path) -> None:
    with suppress(OSError):  # a folder can only be synced where the system allows it
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _replace_settings(text: bytes, path: Path) -> None:
    building = path.with_name(f".{path.name}.building")
    try:
        with building.open("wb") as target:
            target.write(text)
            target.flush()
            _sync(target.fileno())
        shutil.copymode(path, building)
        building.replace(path.resolve())
    finally:
        building.unlink(missing_ok=True)
    _sync_folder(path.parent)
