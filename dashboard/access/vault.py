"""The salon's secrets: one file that its owner alone can read, in a folder that its owner alone can enter.

It holds the key that cookies are signed with, who may sign in (their passphrases only as argon2 hashes), which phones
are paired, the one-time codes that are still open (only as SHA-256) and the sign-ins that were ended before their time.
"""

import os
import secrets
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path

from filelock import FileLock, Timeout
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from analytics.stops import WorkStopped
from analytics.storage.private_files import private_folder, replace_private
from dashboard.access.people import ROLES, THE_OWNER, Reader

FOLDER, FILE = "access", "access.json"
PATIENCE_S = 10
KEY_BYTES = 32


class Entry(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Person(Entry):
    """Somebody who may sign in. passphrase: an argon2 hash, "" until they choose one."""

    key: str
    name: str = Field(min_length=1, max_length=80)
    role: str
    stylist: str = ""
    passphrase: str = ""

    @property
    def reader(self) -> Reader:
        return Reader(self.key, self.name, self.role, self.stylist)


class Phone(Entry):
    """A paired phone. paired_on: a day, year first."""

    key: str
    person: str
    name: str
    paired_on: str


class Ticket(Entry):
    """A code that opens something once. code: its SHA-256; until: seconds since 1970."""

    code: str
    person: str
    opens: str
    until: float


class Ended(Entry):
    """A sign-in that was ended before its time."""

    login: str
    until: float


class Vault(BaseModel):
    """What the file holds."""

    model_config = ConfigDict(extra="forbid")

    key: str = Field(min_length=2 * KEY_BYTES)
    people: list[Person] = []
    phones: list[Phone] = []
    tickets: list[Ticket] = []
    ended: list[Ended] = []

    def person(self, key: str) -> Person | None:
        """Whoever has this key; the owner is always there."""
        found = next((person for person in self.people if person.key == key), None)
        if found is None and key == THE_OWNER.key:
            return Person(key=key, name=THE_OWNER.name, role=THE_OWNER.role)
        return found if found is None or found.role in ROLES else None

    def phone(self, key: str) -> Phone | None:
        return next((phone for phone in self.phones if phone.key == key), None)

    def put(self, person: Person) -> None:
        """Add a person, or put them in the place of who had their key."""
        self.people = [*(one for one in self.people if one.key != person.key), person]


def access_folder(salon: Path) -> Path:
    """<salon>/access, made where it is not there, with no rights for others. Raises WorkStopped where it cannot be."""
    return private_folder(salon / FOLDER)


def read_vault(salon: Path) -> Vault:
    """What is in the file now; made where there is none. Raises WorkStopped where it cannot be read."""
    path = salon / FOLDER / FILE
    try:
        there = path.stat()
    except OSError:
        with changed(salon) as made:
            return made
    if os.name == "posix" and stat.S_IMODE(there.st_mode) & 0o077:
        with changed(salon) as made:  # others could read the key, so it is another one from now on
            return made
    return _read(path, there.st_mtime_ns, there.st_ino)


@lru_cache(maxsize=8)
def _read(path: Path, _written_ns: int, _file: int) -> Vault:
    try:
        return Vault.model_validate_json(path.read_bytes())
    except (OSError, ValidationError):
        raise WorkStopped(
            f"{path} cannot be read; take it away and start again: people and phones are then added anew."
        ) from None


@contextmanager
def changed(salon: Path) -> Iterator[Vault]:
    """The file's content to change, kept when the block ends without an error. Writers take turns."""
    folder = access_folder(salon)
    try:
        with FileLock(folder / f".{FILE}.lock", timeout=PATIENCE_S, mode=0o600):
            vault = _open_to_change(folder / FILE)
            yield vault
            replace_private(folder / FILE, vault.model_dump_json(indent=1).encode())
    except (OSError, Timeout):
        raise WorkStopped(f"{folder} cannot be written to; check its rights and the free space.") from None


def _open_to_change(path: Path) -> Vault:
    if not path.exists():
        return Vault(key=secrets.token_hex(KEY_BYTES))
    there = path.stat()
    vault = _read(path, there.st_mtime_ns, there.st_ino).model_copy(deep=True)
    if os.name == "posix" and stat.S_IMODE(there.st_mode) & 0o077:
        vault.key = secrets.token_hex(KEY_BYTES)
    return vault
