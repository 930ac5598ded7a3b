"""What pages for stylists hand out beside figures, cut for the reader before a page has it."""

from analytics.handover import mixing, roots
from dashboard.access.people import STYLIST
from dashboard.data import Reading
from dashboard.frames import Frame


def stylists(read: Reading) -> list[str]:
    """Who last did anybody's roots."""
    return sorted(read.any_chair.figure("roots")["stylist"].drop_nulls().unique())


def contacts(read: Reading) -> Frame:
    """The table of clients, with phone and mail, as far as the reader may see them."""
    return read.of_theirs(read.any_chair.salon_for(STYLIST).book.tables["clients"])


def calendar(read: Reading, stylist: str | None) -> bytes:
    """The days that make sense as a calendar without names, of all clients or a stylist's."""
    return roots.root_calendar(read.salon_for(STYLIST), names=False, stylist=read.only_stylist or stylist)


def mixing_card(read: Reading) -> bytes:
    """The mixing card as a PDF, which names no client and no money."""
    return mixing.card(read.salon_for(STYLIST))
