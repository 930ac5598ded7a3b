"""Find the exports of a salon: files in any subfolder of exports/, and the files in zip archives among them."""

import os
import struct
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from hashlib import sha256
from pathlib import Path, PurePosixPath

from analytics.stops import WorkStopped

FOLDER = "exports"
TEXTS = (".csv", ".txt", ".tsv", ".tab")
WORKBOOKS = (".xlsx", ".ods")
ARCHIVES = (".zip",)
MOST_BYTES = 2 * 1024**3 - 1  # of one file, and of all files in one archive
LONGEST_LINE = 4 * 1024**2  # bytes
LOOKED_AT = 1024  # bytes; where one of them is 0, lines do not end as in other files (UTF-16)
SWELLING_BYTES, SWELLING = 50 * 1024**2, 200  # no export of this size unpacks to so many times its packed size
UNPACKING = (
    zipfile.BadZipFile,
    zlib.error,
    EOFError,
    LookupError,
    NotImplementedError,
    RuntimeError,
    UnicodeError,
    ValueError,
    struct.error,
)


@dataclass(frozen=True)
class Export:
    """One file to read: the name people know it by, the file on disk, and its place in an archive if it is in one.

    sha256: of its bytes, once it is known.
    """

    name: str
    path: Path
    member: str | None = None
    sha256: str = ""

    @property
    def readable(self) -> bool:
        return self.suffix in TEXTS + WORKBOOKS

    @property
    def suffix(self) -> str:
        return PurePosixPath(self.name).suffix.lower()

    @property
    def size_bytes(self) -> int:
        """Raises WorkStopped where the file has gone since it was found."""
        try:
            if self.member is None:
                return self.path.stat().st_size
            return _opened(self.path).getinfo(self.member).file_size
        except FileNotFoundError:
            raise WorkStopped(self._gone()) from None

    def content(self) -> bytes:
        """Its bytes. Raises WorkStopped where they cannot be read, or are no salon's export."""
        try:
            if self.size_bytes > MOST_BYTES:
                raise WorkStopped(f"{self.name} is larger than 2 GB; export it in smaller spans of time.")
            content = self._member_content() if self.member is not None else self._file_content()
        except FileNotFoundError:
            raise WorkStopped(self._gone()) from None
        except OSError:
            raise WorkStopped(f"{self.name} cannot be opened; check its rights, or take it out.") from None
        if self.suffix in TEXTS and _has_endless_line(content):
            raise WorkStopped(self._endless())
        return content

    def beginning(self, most: int) -> bytes:
        """Its first bytes, up to the end of a line where there is more. Raises WorkStopped as content does."""
        try:
            if self.member is None:
                with self.path.open("rb") as file:
                    head = file.read(most)
            else:
                with zipfile.ZipFile(self.path) as archive, archive.open(self.member) as member:
                    head = member.read(most)
        except (OSError, *UNPACKING):
            return self.content()
        end = head.rfind(b"\n")
        return self.content() if len(head) < most or end < 0 or b"\0" in head[:LOOKED_AT] else head[: end + 1]

    def fingerprinted(self) -> "Export":
        """The same with the SHA-256 of its bytes in hexadecimal digits. Raises WorkStopped as content does."""
        return replace(self, sha256=sha256(self.content()).hexdigest())

    def _gone(self) -> str:
        return f"{self.name} went away while it was being read; put it back, or load again without it."

    def _endless(self) -> str:
        return f"{self.name} has an endless line and is no table; export it again, or take it out."

    def _file_content(self) -> bytes:
        with self.path.open("rb") as file:
            head = file.read(LONGEST_LINE)
            if self.suffix in TEXTS and len(head) == LONGEST_LINE and b"\n" not in head and b"\r" not in head:
                raise WorkStopped(self._endless())
            return head + file.read()

    def _member_content(self) -> bytes:
        """Not more than the archive says it is: what unpacks to more was made to fill the memory."""
        try:
            with _opened(self.path).open(self.member or "") as member:
                head = member.read(LONGEST_LINE)
                if self.suffix in TEXTS and len(head) == LONGEST_LINE and b"\n" not in head and b"\r" not in head:
                    raise WorkStopped(self._endless())
                return head + member.read(max(self.size_bytes - len(head), 0))
        except UNPACKING:
            raise WorkStopped(f"{self.name} cannot be unpacked; make the archive again without a password.") from None


def _opened(path: Path) -> zipfile.ZipFile:
    """The archive, opened once for all its files: its list of contents is read whole each time it is opened."""
    there = path.stat()
    return _opened_then(path, there.st_mtime_ns, there.st_size)


@lru_cache(maxsize=1)
def _opened_then(path: Path, _written_ns: int, _size_bytes: int) -> zipfile.ZipFile:
    return zipfile.ZipFile(path)


def close_archive() -> None:
    """Let go of the archive that was read last."""
    _opened_then.cache_clear()


def _has_endless_line(content: bytes) -> bool:
    """Whether any line is longer than LONGEST_LINE."""
    at = 0
    while len(content) - at > LONGEST_LINE:
        end = max(content.rfind(mark, at, at + LONGEST_LINE) for mark in (b"\n", b"\r"))
        if end < 0:
            return True
        at = end + 1
    return False


def find_exports(folder: Path) -> list[Export]:
    """All exports, in order of name. Raises WorkStopped where there are none, or one lies outside the folder."""
    exports = folder / FOLDER
    if not exports.is_dir():
        raise WorkStopped(f"{folder} has no folder {FOLDER}; make one and put the exported files in it.")
    found = [export for path in sorted(_paths(exports)) for export in _of_path(path, exports)]
    if not found:
        raise WorkStopped(f"{exports} is empty; put the exported files in it and load again.")
    return found


def _paths(exports: Path) -> Iterator[Path]:
    """All files and links below the folder. Raises WorkStopped where a folder cannot be looked into."""

    def refuse(error: OSError) -> None:
        place = _shown(Path(error.filename or exports), exports.parent)
        raise WorkStopped(f"{place} cannot be looked into ({error.strerror}); check its rights, or take it out.")

    for folder, folders, files in os.walk(exports, onerror=refuse):
        links = [name for name in folders if (Path(folder) / name).is_symlink()]
        yield from (Path(folder) / name for name in (*links, *files))


def _shown(path: Path, above: Path) -> str:
    """Its name below a folder; bytes that are no text are written out."""
    return os.fsencode(path.relative_to(above).as_posix()).decode("utf-8", "backslashreplace")


def _of_path(path: Path, exports: Path) -> Iterator[Export]:
    name = _shown(path, exports)
    if any(part.startswith((".", "~$")) for part in PurePosixPath(name).parts):
        return
    if path.is_symlink() and not _lies_within(path, exports):
        raise WorkStopped(f"{name} points to a place outside {FOLDER}/; copy the file itself there instead.")
    if path.is_dir():
        return
    if not path.is_file():
        raise WorkStopped(f"{name} is no file; take it out of {FOLDER}/.")
    if path.suffix.lower() in ARCHIVES:
        yield from _members(path, name)
    else:
        yield Export(name, path)


def _lies_within(path: Path, exports: Path) -> bool:
    try:
        return path.resolve().is_relative_to(exports.resolve())
    except (RuntimeError, OSError):  # it points to itself
        return False


def _members(path: Path, name: str) -> Iterator[Export]:
    try:
        with zipfile.ZipFile(path) as archive:
            items = [item for item in archive.infolist() if not item.is_dir()]
    except (*UNPACKING, OSError):
        raise WorkStopped(f"{name} cannot be read as a zip archive; make it again, or take it out.") from None
    _refuse_hostile(items, name)
    for item in sorted(items, key=lambda item: item.filename):
        inside = PurePosixPath(item.filename)
        if not any(part.startswith((".", "~$", "__MACOSX")) for part in inside.parts):
            yield Export(f"{name}/{inside}", path, item.filename)


def _refuse_hostile(items: list[zipfile.ZipInfo], name: str) -> None:
    """Archives made to fill the memory, or to write beside the folder they are unpacked in."""
    if sum(item.file_size for item in items) > MOST_BYTES or any(_swells(item) for item in items):
        raise WorkStopped(f"{name} unpacks to more than exports do; pack fewer exports together.")
    if any(".." in item.filename or item.filename.startswith("/") or "\\" in item.filename for item in items):
        raise WorkStopped(f"{name} holds a file with a path that leads out of the archive; make the archive again.")
    if len({item.filename for item in items}) < len(items):
        raise WorkStopped(f"{name} holds two files of one name; give each a name of its own.")


def _swells(item: zipfile.ZipInfo) -> bool:
    return item.file_size > SWELLING_BYTES and item.file_size > SWELLING * max(item.compress_size, 1)
