"""Find the exports of a salon: files in any subfolder of exports/, and the files in zip archives among them."""

import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from analytics.stops import WorkStopped

FOLDER = "exports"
TEXTS = (".csv", ".txt", ".tsv", ".tab")
WORKBOOKS = (".xlsx", ".ods")
ARCHIVES = (".zip",)
MOST_BYTES = 2 * 1024**3 - 1  # of one file, and of all files in one archive
HEAD_BYTES = 4 * 1024**2  # a text file has a line break within these


@dataclass(frozen=True)
class Export:
    """One file to read: the name people know it by, the file on disk, and its place in an archive if it is in one."""

    name: str
    path: Path
    member: str | None = None

    @property
    def suffix(self) -> str:
        return PurePosixPath(self.name).suffix.lower()

    @property
    def size_bytes(self) -> int:
        if self.member is None:
            return self.path.stat().st_size
        with zipfile.ZipFile(self.path) as archive:
            return archive.getinfo(self.member).file_size

    def content(self) -> bytes:
        """Its bytes. Raises WorkStopped where they are too many to be a salon's export."""
        try:
            self._refuse_too_large()
            if self.member is None:
                return self.path.read_bytes()
            with zipfile.ZipFile(self.path) as archive, archive.open(self.member) as member:
                content = member.read(MOST_BYTES + 1)
        except (zipfile.BadZipFile, RuntimeError, NotImplementedError):
            raise WorkStopped(f"{self.name} cannot be unpacked; make the archive again without a password.") from None
        except OSError:
            raise WorkStopped(f"{self.name} cannot be opened; check its rights, or take it out.") from None
        if len(content) > MOST_BYTES:
            raise WorkStopped(_too_large(self.name))
        return content

    def _refuse_too_large(self) -> None:
        if self.size_bytes > MOST_BYTES:
            raise WorkStopped(_too_large(self.name))
        if self.member is None and self.suffix in TEXTS and self.size_bytes > HEAD_BYTES:
            with self.path.open("rb") as file:
                head = file.read(HEAD_BYTES)
            if b"\n" not in head and b"\r" not in head:
                raise WorkStopped(f"{self.name} is one endless line and no table; export it again, or take it out.")


def _too_large(name: str) -> str:
    return f"{name} is larger than 2 GB; export it in smaller spans of time."


def find_exports(folder: Path) -> list[Export]:
    """All exports, in order of name. Raises WorkStopped where there are none, or one lies outside the folder."""
    exports = folder / FOLDER
    if not exports.is_dir():
        raise WorkStopped(f"{folder} has no folder {FOLDER}; make one and put the exported files in it.")
    found = [export for path in sorted(exports.rglob("*")) for export in _of_path(path, exports)]
    if not found:
        raise WorkStopped(f"{exports} is empty; put the exported files in it and load again.")
    return found


def _of_path(path: Path, exports: Path) -> Iterator[Export]:
    name = path.relative_to(exports).as_posix()
    if any(part.startswith((".", "~$")) for part in PurePosixPath(name).parts) or path.is_dir():
        return
    if not path.resolve().is_relative_to(exports.resolve()):
        raise WorkStopped(f"{name} points to a file outside {FOLDER}/; copy the file itself there instead.")
    if path.suffix.lower() in ARCHIVES:
        yield from _members(path, name)
    else:
        yield Export(name, path)


def _members(path: Path, name: str) -> Iterator[Export]:
    try:
        with zipfile.ZipFile(path) as archive:
            items = [item for item in archive.infolist() if not item.is_dir()]
    except (zipfile.BadZipFile, OSError):
        raise WorkStopped(f"{name} cannot be read as a zip archive; make it again, or take it out.") from None
    if sum(item.file_size for item in items) > MOST_BYTES:
        raise WorkStopped(f"{name} unpacks to more than 2 GB; pack fewer exports together.")
    for item in sorted(items, key=lambda item: item.filename):
        inside = PurePosixPath(item.filename)
        if not any(part.startswith((".", "~$", "__MACOSX")) for part in inside.parts):
            yield Export(f"{name}/{inside}", path, item.filename)
