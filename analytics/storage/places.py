"""Where in a salon's folder data of clients lies: how many files of which kind, and who else can read them."""

import os
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from analytics.settings import FILE_NAME
from analytics.storage import asked
from analytics.storage.book import BOOK
from analytics.storage.erased import FILE as ERASED
from analytics.storage.together import ERASING, HANDING_OVER
from analytics.storage.working import BUILDING, WORKING

KINDS = ("exports", "records", "marks", "handover", "papers", "access", "erased", "copies")
"""papers: whatever else lies there, such as lists and corrections that were written into the folder."""
OF_KIND = {
    "exports": "exports",
    BOOK: "records",
    asked.FILE: "marks",
    "handover": "handover",
    "access": "access",
    ERASED: "erased",
    "erased.csv": "erased",
    **dict.fromkeys((WORKING, ERASING, HANDING_OVER, *BUILDING), "copies"),
}
OTHERS_READ, OTHERS_ENTER = 0o044, 0o011


@dataclass(frozen=True)
class Place:
    """Files of one of KINDS. open_files: how many of them other accounts of this machine can read."""

    kind: str
    files: int
    open_files: int


@dataclass(frozen=True)
class Places:
    """Of every kind; files, open_files: of all of them together."""

    of_kinds: tuple[Place, ...]

    @property
    def files(self) -> int:
        return sum(place.files for place in self.of_kinds)

    @property
    def open_files(self) -> int:
        return sum(place.open_files for place in self.of_kinds)


def places(salon: Path) -> Places:
    """Every kind of which there are files, in the order of KINDS; settings and locks hold nothing of a client."""
    files: Counter[str] = Counter()
    open_files: Counter[str] = Counter()
    closed = not _enter(salon)
    for folder, _, names in os.walk(salon):
        for path in (Path(folder, name) for name in names if name != FILE_NAME and not name.endswith(".lock")):
            kind = OF_KIND.get(path.relative_to(salon).parts[0], "papers")
            files[kind] += 1
            open_files[kind] += not closed and _is_open(path, salon)
    return Places(tuple(Place(kind, files[kind], open_files[kind]) for kind in KINDS if files[kind]))


def _enter(salon: Path) -> bool:
    """Whether others can come as far as into the salon's folder."""
    return os.name == "posix" and all(_mode(path) & OTHERS_ENTER for path in (salon, *salon.resolve().parents))


def _is_open(path: Path, salon: Path) -> bool:
    within = (folder for folder in path.parents if folder != salon and folder.is_relative_to(salon))
    return bool(_mode(path) & OTHERS_READ) and all(_mode(folder) & OTHERS_ENTER for folder in within)


def _mode(path: Path) -> int:
    try:
        return path.stat().st_mode
    except OSError:  # gone in the meantime, or a link to nothing
        return 0
