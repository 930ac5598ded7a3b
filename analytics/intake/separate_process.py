"""Look at files in a process of its own: `python -m analytics.intake.separate_process FOLDER`.

A small archive can unpack to more rows than there is memory for, which ends the process that reads it; the pages must
not be that process. What is asked and answered lies in a temporary folder that only this user can read.
"""

import pickle
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from analytics.intake.preview import TriedFile, try_file
from analytics.intake.unreadable import unreadable
from analytics.settings import Settings
from analytics.storage.keeping import safe_name

MOST_MEMORY = 6 * 1024**3
MOST_SECONDS = 300
ASKED, ANSWERED = "asked.pickle", "answered.pickle"

Answer = TypeVar("Answer")


def try_apart(path: Path, name: str, folder: Path, settings: Settings) -> list[TriedFile]:
    """What try_file answers; a sentence where it ran out of memory or time, or ended in a way nobody foresaw."""
    tried = _apart(try_file, path.resolve(), name, folder.resolve(), settings)
    return [TriedFile(safe_name(name), stopped=_given_up(name))] if tried is None else tried


def unreadable_apart(files: list[tuple[Path, str]], settings: Settings) -> dict[int, str]:
    """What unreadable answers; each file alone where one of them ended the process that looked at all."""
    found = _apart(unreadable, files, settings)
    if found is not None:
        return found
    if len(files) == 1:
        return {0: _given_up(files[0][1])}
    alone = {place: unreadable_apart([file], settings) for place, file in enumerate(files)}
    return {place: why[0] for place, why in alone.items() if why}


def _apart(work: Callable[..., Answer], *asked: object) -> Answer | None:
    """The answer of the work, worked out in another process; None where that did not come to its end."""
    with tempfile.TemporaryDirectory(prefix="salon-figures-") as made:
        (Path(made) / ASKED).write_bytes(pickle.dumps((work, asked)))
        command = [sys.executable, "-P", "-m", "analytics.intake.separate_process", made]
        try:
            # What it says when it fails may quote cells, so it is kept from everybody.
            child = subprocess.run(command, capture_output=True, timeout=MOST_SECONDS, check=False)
        except subprocess.TimeoutExpired:
            return None
        if child.returncode != 0:
            return None
        answered: Answer = pickle.loads((Path(made) / ANSWERED).read_bytes())
        return answered


def _given_up(name: str) -> str:
    says = "is too large or too broken to be looked at; export it again, in smaller spans of time if it is large."
    return f"{safe_name(name)} {says}"


def _limit_memory() -> None:
    """Only the lower of the two limits: the reader of workbooks, a process of its own, sets both for itself."""
    try:
        import resource
    except ImportError:  # not on Windows
        return
    _, hard = resource.getrlimit(resource.RLIMIT_AS)
    most = MOST_MEMORY if hard == resource.RLIM_INFINITY else min(MOST_MEMORY, hard)
    resource.setrlimit(resource.RLIMIT_AS, (most, hard))


def _answer(made: Path) -> None:
    work, asked = pickle.loads((made / ASKED).read_bytes())
    (made / ANSWERED).write_bytes(pickle.dumps(work(*asked)))


if __name__ == "__main__":
    _limit_memory()
    _answer(Path(sys.argv[1]))
