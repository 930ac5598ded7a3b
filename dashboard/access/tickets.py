"""Codes that open something once: the link on this machine, the code that pairs a phone."""

import hmac
import secrets
import time
from hashlib import sha256
from pathlib import Path

from dashboard.access.vault import Ticket, Vault, changed, read_vault

ENTER, PAIR = "enter", "pair"
GOOD_FOR_S = {ENTER: 30 * 60, PAIR: 10 * 60}
CODE_BYTES = 32


def _digest(code: str) -> str:
    return sha256(code.encode()).hexdigest()


def new_code(salon: Path, opens: str, person: str) -> str:
    """A code that opens this once, for this person. A new code on the screen for a phone ends the one before it."""
    code, now = secrets.token_urlsafe(CODE_BYTES), time.time()
    with changed(salon) as vault:
        shown_before = (PAIR, person) if opens == PAIR else None
        kept = [one for one in vault.tickets if one.until > now and (one.opens, one.person) != shown_before]
        vault.tickets = [*kept, Ticket(code=_digest(code), person=person, opens=opens, until=now + GOOD_FOR_S[opens])]
    return code


def look_up(vault: Vault, opens: str, code: str) -> Ticket | None:
    """The ticket of a code that still opens this."""
    digest, now = _digest(code), time.time()
    return next(
        (
            one
            for one in vault.tickets
            if one.opens == opens and one.until > now and hmac.compare_digest(one.code, digest)
        ),
        None,
    )


def use_up(salon: Path, opens: str, code: str) -> str | None:
    """The key of the person the code is for, once; None for a code that was used, is too old or never was."""
    if look_up(read_vault(salon), opens, code) is None:
        return None
    with changed(salon) as vault:
        ticket = look_up(vault, opens, code)  # again, under the lock: of two that come at once one gets in
        if ticket is None:
            return None
        vault.tickets = [one for one in vault.tickets if one.code != ticket.code]
    return ticket.person
