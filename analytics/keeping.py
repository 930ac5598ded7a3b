"""Keep a file among a salon's exports under a safe name, and what its headings were matched to in salon.toml.

Both are written beside their place and moved in whole: a stop in between leaves the old settings and no half file.
"""

import filecmp
import os
import re
import shutil
import unicodedata
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from itertools import count
from pathlib import Path

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


@dataclass(frozen=True)
class Kept:
    """The name in exports/, whether the same file was there already, and what was added to [columns.<table>]."""

    name: str
    already: bool
    columns: dict[str, str]


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


def with_columns(settings: Settings, table: str, columns: dict[str, str]) -> Settings:
    """Settings in which these headings of the table mean these columns; "" takes out what was said of a heading."""
    before = settings.columns.get(table, {})
    as_there = {_spelt(heading): heading for heading in reversed(before)}
    spelt = {_spelt(heading) for heading in columns}
    own = {heading: column for heading, column in before.items() if _spelt(heading) not in spelt}
    own |= {as_there.get(_spelt(heading), heading): column for heading, column in columns.items() if column}
    others = {name: headings for name, headings in settings.columns.items() if name != table}
    return settings.model_copy(update={"columns": others | ({table: own} if own else {})})


def _spelt(heading: str) -> str:
    """A heading as two spellings of it are compared."""
    return heading.strip().casefold()


def keep(content: Path, name: str, folder: Path, columns: dict[str, str], table: str = "") -> Kept:
    """Save the content into exports/ and the headings of the table into salon.toml.

    columns: heading -> column, "" where nothing shall be said of the heading any more. Raises WorkStopped where the
    settings would not be valid, or the folder cannot be written to; the settings are then as they were.
    """
    settings = _new_settings(folder, table, columns) if columns else None
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
    return Kept(kept_as, already, {heading: column for heading, column in columns.items() if column})


def _new_settings(folder: Path, table: str, columns: dict[str, str]) -> bytes:
    """The text of salon.toml with these headings: everything else in it, comments too, stays as it stands."""
    old = (folder / FILE_NAME).read_bytes()
    before = parse_settings(old.decode("utf-8-sig"))
    try:
        text = _edited(old.decode("utf-8-sig"), table, columns)
    except (TOMLKitError, ValueError, TypeError, AttributeError, KeyError):
        raise WorkStopped(_by_hand(table)) from None
    if parse_settings(text) != with_columns(before, table, columns):
        raise WorkStopped(_by_hand(table))
    return text.encode()


def _by_hand(table: str) -> str:
    return f"{FILE_NAME} is written in a way we cannot add to; write the headings under [columns.{table}] by hand."


def _edited(text: str, table: str, columns: dict[str, str]) -> str:
    document = tomlkit.parse(text)
    tables = document.setdefault("columns", tomlkit.table(is_super_table=True))
    own = tables.setdefault(table, tomlkit.table())
    for heading, column in columns.items():
        there = [key for key in own if _spelt(key) == _spelt(heading)]
        for key in there if not column else there[1:]:
            del own[key]
        if column:
            own[there[0] if there else heading] = column
    if not own:
        del tables[table]
    if not tables:
        del document["columns"]
    return tomlkit.dumps(document)


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
