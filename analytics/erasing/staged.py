"""New contents of several files put in their places together: all of them or none, also where the work is killed.

The new files are written into a private folder first. The list of where they go is its last file, and is put there
whole: without it the old files stand and the folder is thrown away, with it the next start goes on where this one was
stopped. What lies in the folder is without the client already.
"""

import json
import os
import shutil
from pathlib import Path

from analytics.stops import WorkStopped
from analytics.storage.private_files import ERASING, private_folder, replace_private

LIST = "list.json"


def stage(salon: Path, new: dict[Path, bytes], then: dict[str, int | str]) -> None:
    """Write the new files, and at last the list that makes them count. then: what is kept to be said afterwards.

    Raises WorkStopped where they cannot be written; nothing has changed then.
    """
    folder = salon / ERASING
    throw_away(salon)
    try:
        private_folder(folder)
        for number, content in enumerate(new.values()):
            replace_private(folder / str(number), content)
        places = [os.fsencode(path.relative_to(salon)).hex() for path in new]
        replace_private(folder / LIST, json.dumps({"places": places, "then": then}).encode())
    except OSError as error:
        throw_away(salon)
        raise WorkStopped(f"{salon} cannot be written to ({error.strerror}); nothing was changed.") from None


def throw_away(salon: Path) -> None:
    shutil.rmtree(salon / ERASING, ignore_errors=True)


def unfinished(salon: Path) -> bool:
    """Whether an erasing was stopped after it began to count; one that was stopped before is thrown away."""
    if not (salon / ERASING).exists():
        return False
    if (salon / ERASING / LIST).exists():
        return True
    throw_away(salon)
    return False


def put_in_place(salon: Path) -> dict[str, int | str]:
    """Every new file that is not in its place yet. Raises WorkStopped where one cannot be; the next start goes on."""
    listed = json.loads((salon / ERASING / LIST).read_bytes())
    for number, place in enumerate(listed["places"]):
        staged, path = salon / ERASING / str(number), salon / os.fsdecode(bytes.fromhex(place))
        try:
            if staged.exists():
                _moved(staged, path)
        except OSError as error:
            raise WorkStopped(
                f"{path.name} cannot be written ({error.strerror}); run salon-figures erase --again when it can."
            ) from None
    then: dict[str, int | str] = listed["then"]
    return then


def _moved(staged: Path, path: Path) -> None:
    """In the place of what a link leads to; with the rights that the file had, less those of others."""
    path = path.resolve()
    try:
        staged.replace(path)
    except OSError:  # another disk
        replace_private(path, staged.read_bytes())
        staged.unlink()
