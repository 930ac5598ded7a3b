"""Clients under names that only the salon can resolve: HMAC-SHA256 with a key that lies outside the salon's folder.

A plain hash of a client's number falls to trying all numbers; with a key it does not. The same key gives the same
names, so that a client can be followed from one handover to the next.
"""

import hmac
import os
import secrets
import stat
from hashlib import sha256
from pathlib import Path

import polars as pl

from analytics.stops import WorkStopped

KEY_BYTES = 32
SHOWN = 16  # hexadecimal digits, 64 bits


def key_file() -> Path:
    """Where the key lies unless another place is named: beside the person's other settings."""
    base = os.environ.get("XDG_CONFIG_HOME") or "~/.config"
    return Path(base).expanduser().joinpath("salon-figures", "pseudonyms.key")


def read_key(path: Path, salon_folder: Path) -> bytes:
    """The key; made where there is none. Raises WorkStopped where others may read it, or it lies with the book."""
    if path.resolve().is_relative_to(salon_folder.resolve()):
        raise WorkStopped(f"{path} lies in the salon's folder, where a copy of the book takes it along; name another.")
    try:
        if not path.exists():
            _make(path)
        if os.name == "posix" and stat.S_IMODE(path.stat().st_mode) & 0o077:
            raise WorkStopped(f"{path} can be read by others; take their rights away (chmod 600) and run again.")
        key = path.read_bytes()
    except OSError as error:
        raise WorkStopped(f"{path} cannot be read or made ({error.strerror}); name another place with --key.") from None
    if len(key) < KEY_BYTES:
        raise WorkStopped(f"{path} is too short for a key; name another place with --key, and one is made there.")
    return key


def _make(path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "wb") as file:
        file.write(secrets.token_bytes(KEY_BYTES))


def pseudonym(key: bytes, site: str, client_id: str) -> str:
    """16 hexadecimal digits that stand for a client of a site."""
    return hmac.new(key, f"{site}\0{client_id}".encode(), sha256).hexdigest()[:SHOWN]


def pseudonyms(lines: pl.DataFrame, key: bytes) -> pl.DataFrame:
    """site, client_id, pseudonym: one row per client of the lines."""
    found = lines.select("site", "client_id").unique().sort("site", "client_id")
    names = [pseudonym(key, site, client_id) for site, client_id in found.iter_rows()]
    return found.with_columns(pseudonym=pl.Series(names, dtype=pl.String))
