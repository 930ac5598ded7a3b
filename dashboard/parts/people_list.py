"""The list of who may sign in, with their phones, and the code that a phone scans. Names are escaped here."""

from html import escape

import segno

from analytics import wording
from dashboard.access.network import Network
from dashboard.access.people import ROLES, STYLIST
from dashboard.access.tickets import GOOD_FOR_S, PAIR
from dashboard.access.vault import Person, Phone

ALONE = (
    "These pages are open on this machine alone. To open them on phones too, stop them and start them with "
    "salon-figures dashboard --on-network."
)


def opening(people: int, phones: int) -> str:
    """The sentence that the page opens with."""
    who = "Only you open these pages" if people == 1 else f"{people} people may open these pages, you among them"
    paired = (
        "no phone is paired" if not phones else "one phone is paired" if phones == 1 else f"{phones} phones are paired"
    )
    return f"{who}; {paired}."


def person_line(person: Person, phones: list[Phone]) -> str:
    """Who, what they see, and their phones with the day of pairing."""
    whose = f" ({escape(person.stylist)} in the exports)" if person.role == STYLIST else ""
    paired = wording.listed([f"{phone.name}, since {phone.paired_on}" for phone in phones])
    below = f"Phones: {escape(paired)}." if phones else "No phone is paired."
    return (
        f'<ul class="figures"><li><span>{escape(person.name)}{whose}</span><em>{escape(person.role)}</em>'
        f"<small>{escape(ROLES[person.role])} {below}</small></li></ul>"
    )


def code(link: str) -> str:
    """The code as a picture; it holds the link, which is shown beside it for who has no camera at hand."""
    picture = segno.make(link, error="m").svg_data_uri(scale=5, border=4, light="#ffffff", dark="#000000")
    return f'<img src="{picture}" alt="The code to scan" width="280"><p class="note heading">{escape(link)}</p>'


def fingerprint(network: Network) -> str:
    """The mark of the certificate, in lines of any width."""
    return f'<p class="said heading">{escape(network.fingerprint)}</p>'


def how_to_pair(name: str) -> str:
    """What to do with the code."""
    minutes = GOOD_FOR_S[PAIR] // 60
    return (
        f"Scan it with {name}'s phone, in the salon's network, within {minutes} minutes; it pairs one phone. The phone "
        "warns at first, since the certificate was made here: go on only where it shows this SHA-256 fingerprint."
    )
