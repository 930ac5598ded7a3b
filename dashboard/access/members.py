"""Who may sign in and with which phones, as the owner changes it."""

import secrets
from pathlib import Path

from analytics.stops import WorkStopped
from dashboard.access.people import OWNER, ROLES, STYLIST, THE_OWNER
from dashboard.access.tickets import PAIR, new_code
from dashboard.access.vault import Person, Phone, Vault, changed, read_vault


def everybody(salon: Path) -> list[tuple[Person, list[Phone]]]:
    """Each person with their phones, the owner of the salon first."""
    vault = read_vault(salon)
    people = [_first(vault), *(one for one in vault.people if one.key != THE_OWNER.key)]
    return [(one, [phone for phone in vault.phones if phone.person == one.key]) for one in people]


def _first(vault: Vault) -> Person:
    return vault.person(THE_OWNER.key) or Person(key=THE_OWNER.key, name=THE_OWNER.name, role=OWNER)


def add_person(salon: Path, name: str, role: str, stylist: str = "") -> str:
    """Somebody who may sign in once a phone is paired for them; their key. stylist: whose clients are theirs."""
    name = " ".join(name.split())
    if not name or len(name) > 80:
        raise WorkStopped("Write the name, in up to 80 signs.")
    if role not in ROLES:
        raise WorkStopped(f"{role!r} is not one of {', '.join(ROLES)}.")
    if role == STYLIST and not stylist:
        raise WorkStopped("Choose whose clients they see: a name as the exports write it.")
    key = secrets.token_hex(8)
    with changed(salon) as vault:
        if name in (THE_OWNER.name, *(one.name for one in vault.people)):
            raise WorkStopped(f"{name} is on the list already; end them first, or add something to the name.")
        vault.put(Person(key=key, name=name, role=role, stylist=stylist if role == STYLIST else ""))
    return key


def end_phone(salon: Path, key: str) -> None:
    """The phone opens nothing any more, from its next touch on."""
    with changed(salon) as vault:
        vault.phones = [phone for phone in vault.phones if phone.key != key]


def end_person(salon: Path, key: str) -> None:
    """The person, their phones and their codes are gone. Of the owner only the phones and the passphrase."""
    with changed(salon) as vault:
        vault.people = [one for one in vault.people if one.key != key]
        vault.phones = [phone for phone in vault.phones if phone.person != key]
        vault.tickets = [ticket for ticket in vault.tickets if ticket.person != key]


def forget_passphrase(salon: Path, key: str) -> None:
    """The person chooses another one when a phone is paired for them next; the phones so far are ended."""
    with changed(salon) as vault:
        person = vault.person(key)
        if person is not None:
            vault.put(person.model_copy(update={"passphrase": ""}))
        vault.phones = [phone for phone in vault.phones if phone.person != key]


def pairing_link(salon: Path, person: str, origin: str) -> str:
    """The address that pairs one phone for this person, once, within ten minutes."""
    return f"{origin}/pair?code={new_code(salon, PAIR, person)}"
