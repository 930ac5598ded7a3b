"""Files and folders that their owner alone can read, whatever the umask; written whole or not at all."""

import os
import secrets
from pathlib import Path

from analytics.stops import WorkStopped

PART = ".part"  # of a file that is being written beside its place: .<process>-<digits>.part


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


def part_beside(path: Path) -> Path:
    """Where a file is written before it is moved in: a name that loading passes over, and that tells whose it is."""
    return path.with_name(f".{os.getpid()}-{secrets.token_hex(8)}{PART}")


def replace_private(path: Path, content: bytes) -> None:
    """The content in the place of what was there, at once or not at all. Raises OSError; the old file then stays."""
    beside = part_beside(path)
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
