"""Signed cookies that end: who is signed in, and which paired phone this is."""

import secrets
import time
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from itsdangerous import BadData, URLSafeSerializer

from dashboard.access.doors import Door
from dashboard.access.vault import Phone, Vault

LOGIN, PHONE = "login", "phone"
PHONE_FOR_S = 365 * 24 * 3600  # or until the owner ends it


@dataclass(frozen=True)
class Login:
    """A sign-in. key: this one and no other; phone: the key of the paired phone, "" on the machine itself."""

    key: str
    person: str
    until: float
    phone: str = ""


def new_login(person: str, seconds: float, phone: str = "") -> Login:
    """A sign-in from now on."""
    return Login(secrets.token_hex(16), person, time.time() + seconds, phone)


def _signer(vault: Vault, purpose: str) -> URLSafeSerializer:
    return URLSafeSerializer(vault.key, salt=f"salon-figures {purpose}", signer_kwargs={"digest_method": sha256})


def _signed(vault: Vault, purpose: str, content: dict[str, Any]) -> str:
    return str(_signer(vault, purpose).dumps(content))


def _read(vault: Vault, purpose: str, value: str) -> dict[str, Any] | None:
    try:
        content: dict[str, Any] = _signer(vault, purpose).loads(value)
    except BadData:
        return None
    return content if content.get("until", 0) > time.time() else None


def login_value(vault: Vault, login: Login, door: Door) -> str:
    """What the cookie says, signed. It counts at this door only."""
    return _signed(vault, LOGIN, vars(login) | {"at": door.origin})


def read_login(vault: Vault, value: str, door: Door) -> Login | None:
    """Who is signed in by this cookie; None where it was made up, has ended, or its person or phone is gone."""
    said = _read(vault, LOGIN, value)
    if said is None or said.pop("at") != door.origin:
        return None
    login = Login(**said)
    gone = vault.person(login.person) is None or any(ended.login == login.key for ended in vault.ended)
    phone = vault.phone(login.phone)
    strange = phone is None or phone.person != login.person if door.on_network else bool(login.phone)
    return None if gone or strange else login


def phone_value(vault: Vault, phone: Phone) -> str:
    """What a paired phone shows, signed."""
    return _signed(vault, PHONE, {"phone": phone.key, "until": time.time() + PHONE_FOR_S})


def read_phone(vault: Vault, value: str) -> Phone | None:
    """The paired phone of this cookie, where it was not ended."""
    said = _read(vault, PHONE, value)
    return vault.phone(said["phone"]) if said else None


def set_cookie(door: Door, purpose: str, value: str, seconds: float | None) -> str:
    """The header's value. Without seconds the browser forgets it when it is closed; 0 takes it away."""
    age = "" if seconds is None else f"; Max-Age={int(seconds)}"
    return f"{door.cookie(purpose)}={value}; Path=/; HttpOnly; SameSite=Strict{'; Secure' if door.secure else ''}{age}"
