"""Files and folders that their owner alone can read, whatever the umask; written whole or not at all."""

import os
import secrets
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from analytics.stops import WorkStopped

WORKING = ".working"  # temporary copies of exports, a folder per process
ERASING = ".erasing"  # new contents of files that a client is being taken out of


def private_folder(folder: Path) -> Path:
    """The folder, made where it is not there, with no rights for others. Raises WorkStopped where it cannot be."""
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if os.name == "posix":
            folder.chmod(0o700)
    except OSError as error:
        raise WorkStopped(
            f"{folder} cannot be made or closed to others ({error.strerror}); check its rights."
        ) from None
    return folder


def replace_private(path: Path, content: bytes) -> None:
    """The content in the place of what was there, at once or not at all. Raises OSError; the old file then stays."""
    beside = path.with_name(f".{path.name[:200]}.{secrets.token_hex(8)}")
    handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o600)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(path)
    except OSError:
        beside.unlink(missing_ok=True)
        raise


def write_private(content: bytes, path: Path) -> Path:
    """Write a file; a folder or a device keeps what it is. Raises WorkStopped where nothing can be written."""
    if path.exists() and not path.is_file():
        raise WorkStopped(f"{path} is not a file, so nothing can be written there; name a file in it, or another one.")
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        replace_private(path, content)
    except OSError as error:
        raise WorkStopped(f"{path} cannot be written ({error.strerror}); name another place.") from None
    return path


@contextmanager
def working_privately(salon: Path) -> Iterator[None]:
    """Within it this process and its children keep temporary copies in a private folder of the salon, then removed.

    What processes that were killed have left there is removed as well. Raises WorkStopped where it cannot be made.
    """
    working = private_folder(salon / WORKING)
    _sweep(working)
    own = private_folder(working / str(os.getpid()))
    before = tempfile.tempdir, os.environ.get("TMPDIR")
    tempfile.tempdir = os.environ["TMPDIR"] = str(own)
    try:
        yield
    finally:
        tempfile.tempdir = before[0]
        os.environ.pop("TMPDIR")
        os.environ.update({"TMPDIR": before[1]} if before[1] else {})
        shutil.rmtree(own, ignore_errors=True)
        with suppress(OSError):  # others are at work there
            working.rmdir()


def _sweep(working: Path) -> None:
    for left in working.iterdir():
        if not (left.name.isdigit() and _is_alive(int(left.name))):
            shutil.rmtree(left, ignore_errors=True)


def _is_alive(process: int) -> bool:
    if os.name == "nt":
        return True  # there a signal would end it
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True
