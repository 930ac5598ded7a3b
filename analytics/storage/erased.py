"""Who was erased, so that an old export does not bring her back: erased.json, which names nobody.

Of each client it keeps marks, HMAC-SHA256 of her number and name with a key of the salon, and what stands in her
place. A plain hash of a client's number falls to trying all numbers; with a key it does not. Key and marks lie in one
file that its owner alone reads: it goes where the salon's folder goes, and whoever has that could try names against it.
"""

import hmac
import os
import secrets
import unicodedata
from collections.abc import Iterable
from functools import lru_cache
from hashlib import sha256
from pathlib import Path

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from analytics.stops import WorkStopped

FILE = "erased.json"
KEY_BYTES = 32
NO_NAME = "no name"


@lru_cache(maxsize=100_000)
def folded(text: str) -> str:
    """A number or name without case, accents and double blanks, as clients are told apart."""
    if text.isascii():
        return " ".join(text.casefold().split())
    plain = "".join(sign for sign in unicodedata.normalize("NFKD", text) if not unicodedata.combining(sign))
    return " ".join(plain.casefold().split())


class Entry(BaseModel):
    """A client who was erased. instead: what stands in her place; marks: in hexadecimal digits."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    instead: str
    marks: tuple[str, ...]


class Erased(BaseModel):
    """What the file holds."""

    model_config = ConfigDict(extra="forbid")

    key: str = Field(min_length=2 * KEY_BYTES)
    clients: list[Entry] = []

    def mark(self, value: str, site: str = "") -> str:
        """The mark of a number or name, whatever its case, accents and blanks. site: "" where it counts for all."""
        return hmac.new(bytes.fromhex(self.key), f"{site}\0{folded(value)}".encode(), sha256).hexdigest()

    def instead_of(self, values: Iterable[str], sites: Iterable[str] = ()) -> dict[tuple[str, str], str]:
        """Of those (site, number or name) that were erased what stands in their place."""
        known = {mark: entry.instead for entry in self.clients for mark in entry.marks}
        pairs = [(site, value) for value in values for site in ("", *sites) if value.strip()]
        return {pair: known[mark] for pair in pairs if (mark := self.mark(pair[1], pair[0])) in known}

    def with_client(self, values: Iterable[str], site: str, instead: str) -> "Erased":
        marks = tuple(sorted({self.mark(value, site) for value in values}))
        return self.model_copy(update={"clients": [*self.clients, Entry(instead=instead, marks=marks)]})

    @property
    def content(self) -> bytes:
        return self.model_dump_json(indent=1).encode()


def new_instead() -> str:
    """What stands in a client's place: the same word for all, and digits that nothing of hers goes into."""
    return f"{NO_NAME} {secrets.token_hex(4)}"


def read_erased(folder: Path) -> Erased | None:
    """Who was erased in the salon; None where nobody was. Raises WorkStopped where the file cannot be read."""
    path = folder / FILE
    try:
        return Erased.model_validate_json(path.read_bytes())
    except FileNotFoundError:
        return None
    except (OSError, ValidationError):
        raise WorkStopped(
            f"{path} cannot be read, so that clients who were erased could come back; put back the copy you kept."
        ) from None


def new_erased() -> Erased:
    return Erased(key=os.urandom(KEY_BYTES).hex())
