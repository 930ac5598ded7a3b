"""The salon's own network: this machine's address on it, and in words what is opened there, to whom, until when."""

import ipaddress
import socket
from dataclasses import dataclass

from analytics.stops import WorkStopped
from dashboard.access.doors import Door

NOWHERE = ("192.0.2.1", 9)  # set aside for documentation (RFC 5737); nothing is sent to it
NAME_IT = "name this machine's address on the salon's network: --on-network ADDRESS"


@dataclass(frozen=True)
class Network:
    """The door that is open on the network, and the mark of its certificate."""

    door: Door
    fingerprint: str


OPEN: Network | None = None
"""Set by whoever starts the pages on the network, in the process that serves them."""


def address(named: str) -> str:
    """This machine's address on the salon's network: the one named, or else the one its way out would take.

    Asks nobody. Raises WorkStopped where there is none, or where the whole internet could reach it.
    """
    found = named or _way_out()
    try:
        known = ipaddress.ip_address(found)
    except ValueError:
        raise WorkStopped(f"{found!r} is not an address such as 192.168.1.20; {NAME_IT}.") from None
    if known.is_unspecified or known.is_multicast or not known.is_private:
        raise WorkStopped(
            f"{found} is not an address of a network of one's own, so nothing is opened there; {NAME_IT}."
        )
    return known.compressed


def _way_out() -> str:
    """The address that a packet would be sent from: the system looks it up in its own table."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(NOWHERE)
        except OSError:
            raise WorkStopped(f"This machine is on no network that we can tell; {NAME_IT}.") from None
        return str(asked.getsockname()[0])


def where(network: Network) -> str:
    """What is open on the network, to whom, and how it is closed."""
    return (
        f"These pages are open on the salon's network too, at {network.door.origin}, on paired phones and for "
        "who signs in on them; nobody else gets anything. Ctrl+C where they were started closes them; started without "
        "--on-network they are for this machine alone."
    )


def said(network: Network) -> str:
    """The same where they are started, with where to pair phones and the mark of the certificate."""
    return (
        f"{where(network)} Pair a phone, and end one, on the page People and phones.\n"
        "The certificate was made on this machine, so a phone warns at first. Go on only where it shows this SHA-256 "
        f"fingerprint:\n{network.fingerprint}"
    )
