"""A client taken out of everything the salon's folder holds: first every place, then all of them at once."""

import csv
import io
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from analytics.erasing.client import again, clients, named_rows
from analytics.erasing.rewriting import Eraser, Rewritten
from analytics.erasing.traces import Traces
from analytics.intake.reading.find import FOLDER as EXPORTS
from analytics.settings import read_settings
from analytics.stops import WorkStopped
from analytics.storage import asked as marks
from analytics.storage import together
from analytics.storage.book import BOOK
from analytics.storage.erased import FILE, new_erased, new_instead, read_erased
from analytics.storage.together import ERASING, HANDING_OVER
from analytics.storage.working import WORKING

RECORD = "erased.csv"
HEADINGS = ("day", "files", "cells", "marks")
NOT_HERS = (BOOK, f"{BOOK}.wal", FILE, RECORD, "access", WORKING, ERASING, HANDING_OVER)


@dataclass(frozen=True)
class Place:
    """Where she stands. what: in words; how_often: cells or lines; left: it cannot be written anew by us."""

    where: str
    what: str
    how_often: int
    left: bool = False


@dataclass
class Found:
    """Everything to do: places to show, new contents by path, and what cannot be done."""

    places: list[Place] = field(default_factory=list)
    new: dict[Path, bytes] = field(default_factory=dict)
    shared: int = 0

    @property
    def rewrites(self) -> list[Place]:
        return [place for place in self.places if not place.left]

    @property
    def files(self) -> int:
        """How many files are written anew."""
        return len({place.where for place in self.rewrites})


def find(salon: Path, asked: str | None, site: str = "") -> Found:
    """Every place where this client stands; None: those who were erased and came back with an old export.

    Raises WorkStopped where nobody or several are meant, or the exports cannot be read.
    """
    return find_all(salon, None if asked is None else [(site, asked)])


def find_all(salon: Path, whom: Sequence[tuple[str, str]] | None) -> Found:
    """The same of several, each by salon of a group and number or name."""
    settings, known = read_settings(salon), read_erased(salon)
    rows = named_rows(salon, settings)
    hers = clients(whom, rows) if whom is not None else again(known, rows) if known else []
    found = Found()
    for her in hers:
        her.instead = her.instead or new_instead()
        traces = Traces(
            frozenset(her.numbers), frozenset(her.names), frozenset(her.phones), frozenset(her.emails), her.instead
        )
        eraser = Eraser(her, traces, {one.sheet: one for one in rows}, settings)
        _look(salon, eraser, found)
        found.shared += len(her.shared)
    erased = known or new_erased()
    for her in hers if whom is not None else []:
        erased = erased.with_client({*her.numbers, *her.names}, her.site, her.instead)
    if hers:
        found.new[salon / FILE] = erased.content
    return found


def _look(salon: Path, eraser: Eraser, found: Found) -> None:
    for path in _files(salon):
        name = path.relative_to(salon).as_posix()
        content = found.new.get(path) or _read(path)
        if name == marks.FILE:
            _note(found, path, name, "marks on the call sheet", _without_marks(content, eraser))
        elif name.startswith(f"{EXPORTS}/"):
            _note(found, path, name, "export", eraser.rewritten(name.removeprefix(f"{EXPORTS}/"), content))
        else:
            _note(found, path, name, "list", eraser.rewritten(name, content))


def _note(found: Found, path: Path, name: str, what: str, said: Rewritten) -> None:
    if said.content is not None:
        found.places.append(Place(name, what, said.cells))
        found.new[path] = said.content
    if said.left:
        found.places.append(Place(name, f"{what}: take it out by hand", 1, left=True))


def _files(salon: Path) -> Iterator[Path]:
    """Every file of the salon that could name a client."""
    for path in sorted(salon.rglob("*")):
        inside = path.relative_to(salon)
        if path.is_file() and inside.parts[0] not in NOT_HERS and not inside.parts[-1].endswith((".lock", ".toml")):
            yield path


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise WorkStopped(f"{path} cannot be read ({error.strerror}); check its rights, or take it out.") from None


def _without_marks(content: bytes, eraser: Eraser) -> Rewritten:
    """asked.csv without her lines."""
    kept, count = [], 0
    for line in content.splitlines(keepends=True):
        mark = marks.read_line(line)
        if mark is not None and eraser.her.is_hers((mark.site, mark.client_id, "", "", "")):
            count += 1
        else:
            kept.append(line)
    return Rewritten(b"".join(kept) if count else None, count)


def carry_out(salon: Path, found: Found, day: date, load: Callable[[], object]) -> None:
    """Write everything anew, together, and load. Raises WorkStopped; what began to count is gone on with later."""
    of_marks = sum(place.how_often for place in found.rewrites if place.where == marks.FILE)
    of_cells = sum(place.how_often for place in found.rewrites) - of_marks
    record: dict[str, str | int] = {
        "day": day.isoformat(),
        "files": found.files,
        "cells": of_cells,
        "marks": of_marks,
    }
    found.new[salon / RECORD] = _record(salon, record)
    together.put_together(salon, ERASING, found.new)
    _finish(salon, load)


def go_on(salon: Path, load: Callable[[], object]) -> bool:
    """Finish an erasing that was stopped; whether there was one."""
    if not together.go_on(salon, ERASING):
        return False
    _finish(salon, load)
    return True


def _finish(salon: Path, load: Callable[[], object]) -> None:
    """A new book; where none can be made, the old one goes: it can be built again, and names her.

    Who is stopped here goes on at the next start.
    """
    try:
        load()
    except Exception:
        (salon / BOOK).unlink(missing_ok=True)
        together.throw_away(salon, ERASING)
        raise
    together.throw_away(salon, ERASING)


def _record(salon: Path, record: dict[str, str | int]) -> bytes:
    """The record with a line more: when and how much, and nobody's name."""
    path = salon / RECORD
    before = path.read_bytes() if path.exists() else (",".join(HEADINGS) + "\r\n").encode()
    text = io.StringIO()
    csv.writer(text).writerow([record[name] for name in HEADINGS])
    return before + text.getvalue().encode()
