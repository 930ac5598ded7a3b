"""New contents of several files put in their places together: all of them or none, also where the work is killed.

The new files are written into a private folder of the salon first. The list of where they go is its last file, and is
put there whole: without it the old files stand and the folder is thrown away, with it the next start goes on where this
one was stopped. While an erasing is under way, what lies in the folder is without the client already.
"""

import json
import os
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from filelock import FileLock, Timeout

from analytics.stops import WorkStopped
from analytics.storage.book import BOOK
from analytics.storage.private_files import private_folder, replace_private

ERASING = ".erasing"  # files that a client is being taken out of
HANDING_OVER = ".handing-over"  # files of the accountant's folder
LIST = "list.json"
PATIENCE_S = 10


def put_together(salon: Path, work: str, new: Mapping[Path, bytes | None]) -> None:
    """Write these files, or take them away where there is no content. work: ERASING or HANDING_OVER.

    Raises WorkStopped where they cannot be written; nothing has changed then, or the next start goes on.
    """
    with alone(salon):
        _stage(salon, work, new)
        _put_in_place(salon, work)


def go_on(salon: Path, work: str) -> bool:
    """Put in place what was stopped after it had begun to count, throw away what was stopped before; whether it was."""
    if not (salon / work).exists():
        return False
    with alone(salon):
        if counts := (salon / work / LIST).exists():
            _put_in_place(salon, work)
        else:
            throw_away(salon, work)
    return counts


def throw_away(salon: Path, work: str) -> None:
    shutil.rmtree(salon / work, ignore_errors=True)


@contextmanager
def alone(salon: Path) -> Iterator[None]:
    """While no load is at work, nor another of these."""
    try:
        with FileLock(salon / f".{BOOK}.lock", timeout=PATIENCE_S):
            yield
    except Timeout:
        raise WorkStopped("A load of this salon is at work; wait until it is done.") from None
    except OSError:
        raise WorkStopped(f"{salon} cannot be written to; check its rights and the free space.") from None


def _stage(salon: Path, work: str, new: Mapping[Path, bytes | None]) -> None:
    folder = salon / work
    throw_away(salon, work)
    try:
        private_folder(folder)
        for number, content in enumerate(new.values()):
            if content is not None:
                replace_private(folder / str(number), content)
        places = [[os.fsencode(path.relative_to(salon)).hex(), content is None] for path, content in new.items()]
        replace_private(folder / LIST, json.dumps(places).encode())
    except OSError as error:
        throw_away(salon, work)
        raise WorkStopped(f"{salon} cannot be written to ({error.strerror}); nothing was changed.") from None


def _put_in_place(salon: Path, work: str) -> None:
    """Every new file that is not in its place yet."""
    for number, (place, gone) in enumerate(json.loads((salon / work / LIST).read_bytes())):
        staged, path = salon / work / str(number), salon / os.fsdecode(bytes.fromhex(place))
        try:
            if gone:
                path.unlink(missing_ok=True)
            elif staged.exists():
                _moved(staged, path)
        except OSError as error:
            raise WorkStopped(
                f"{path.name} cannot be written ({error.strerror}); run this again when it can."
            ) from None


def _moved(staged: Path, path: Path) -> None:
    """In the place of what a link leads to; its owner alone reads it."""
    path = path.resolve()
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    try:
        staged.replace(path)
    except OSError:  # another disk
        replace_private(path, staged.read_bytes())
        staged.unlink()
