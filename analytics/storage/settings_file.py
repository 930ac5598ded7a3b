"""salon.toml written by the program: everything else in it, comments too, stays as it stands.

The new text is read back before it is moved in whole: a stop in between leaves the old settings and no half file.
"""

import os
import shutil
import tomllib
from collections.abc import Mapping, MutableMapping
from contextlib import suppress
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from analytics.settings import FILE_NAME, parse_settings
from analytics.stops import WorkStopped
from analytics.storage.private_files import part_beside

Lines = Mapping[str, Any]
"""Of one section of salon.toml: key -> value; None takes a line out."""
Sections = Mapping[tuple[str, ...], Lines]
"""Section, such as ("columns", "bookings") -> its lines."""


def spelt(name: str) -> str:
    """A heading, file name or key as two spellings of it are compared."""
    return name.strip().casefold()


def changed_text(folder: Path, sections: Sections) -> str:
    """salon.toml with these lines in it; where there is none yet, these lines alone.

    Raises WorkStopped where the settings would not be valid, or the file is written in a way that cannot be added to.
    """
    path = folder / FILE_NAME
    by_hand = f"{FILE_NAME} is written in a way we cannot add to; write {_by_hand(sections)} by hand."
    try:
        old = path.read_text(encoding="utf-8-sig") if path.is_file() else ""
        document = tomlkit.parse(old)
        for section, lines in sections.items():
            _edit(document, section, lines)
        text = tomlkit.dumps(document)
        said = tomllib.loads(text, parse_float=Decimal)
    except (TOMLKitError, tomllib.TOMLDecodeError, ValueError, TypeError, AttributeError, KeyError):
        raise WorkStopped(by_hand) from None
    except OSError as error:
        raise WorkStopped(f"{path} cannot be opened ({error.strerror}); check its rights.") from None
    parse_settings(text)
    if not all(_says(said, section, lines) for section, lines in sections.items()):
        raise WorkStopped(by_hand)
    return text


def write_settings(folder: Path, sections: Sections) -> None:
    """Write the lines into salon.toml, which is made where there is none. Raises as `changed_text` does."""
    replace_settings(changed_text(folder, sections), folder)


def replace_settings(text: str, folder: Path) -> None:
    """Move the whole text in under salon.toml. Raises WorkStopped where the folder cannot be written to."""
    path = folder / FILE_NAME
    building = part_beside(path)
    try:
        try:
            with building.open("wb") as target:
                target.write(text.encode())
                target.flush()
                os.fsync(target.fileno())
            if path.is_file():
                shutil.copymode(path, building)
            building.replace(path.resolve())
        finally:
            building.unlink(missing_ok=True)
        sync_folder(path.parent)
    except OSError:
        raise WorkStopped(f"{folder} cannot be written to; check its rights and the free space.") from None


def sync_folder(folder: Path) -> None:
    """Make sure that the names in the folder are on the disk, where the system allows it."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _by_hand(sections: Sections) -> str:
    return "what you chose under " + " and ".join(f"[{'.'.join(section)}]" for section in sections)


def _edit(inside: MutableMapping[str, Any], section: tuple[str, ...], lines: Lines) -> None:
    """Write the lines into the section, which is made where it is not there and taken out where nothing is left."""
    first, *rest = section
    own = inside.setdefault(first, tomlkit.table(is_super_table=bool(rest)))
    if rest:
        _edit(own, tuple(rest), lines)
    else:
        for name, said in lines.items():
            _write(own, name, said)
    if not own and not _has_comment(own):
        del inside[first]


def _has_comment(section: MutableMapping[str, Any]) -> bool:
    trivia = getattr(section, "trivia", None)
    return "#" in tomlkit.dumps(section) or bool(trivia and trivia.comment)


def _write(own: MutableMapping[str, Any], name: str, said: Any) -> None:
    there = [key for key in own if spelt(key) == spelt(name)]
    for key in there if said is None else there[1:]:
        del own[key]
    if said is not None:
        own[there[0] if there else name.strip()] = _as_toml(said)


def _as_toml(said: Any) -> Any:
    """Exact numbers as they are written by hand: 18.50 stays 18.50, and 2000.00 is 2000."""
    if isinstance(said, Decimal):
        whole = said == said.to_integral_value()
        return int(said) if whole else tomlkit.float_(f"{said.normalize():f}")
    if isinstance(said, float) and said.is_integer():
        return int(said)
    if isinstance(said, list | tuple):
        return [one.isoformat() if isinstance(one, date) else one for one in said]
    return said


def _says(document: Any, section: tuple[str, ...], lines: Lines) -> bool:
    """Whether the text, read again, says what was to be written."""
    for name in section:
        document = document.get(name, {})
    own = {spelt(name): said for name, said in document.items()}
    return all(own.get(spelt(name)) == _read_back(said) for name, said in lines.items())


def _read_back(said: Any) -> Any:
    if isinstance(said, float):
        return Decimal(str(said))
    return [*_as_toml(said)] if isinstance(said, list | tuple) else said
