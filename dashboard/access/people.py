"""Who reads the pages, and what a role may see. Roles are the names that a page's own file lists."""

from dataclasses import dataclass

OWNER, STYLIST, ACCOUNTANT = "owner", "stylist", "accountant"
ROLES = {
    OWNER: "The owner sees everything, loads exports, and adds people and phones.",
    STYLIST: "A stylist sees roots due, the weeks ahead and the mixing card; no money, no margins.",
    ACCOUNTANT: "The accountant sees the page for the accountant; no client.",
}


@dataclass(frozen=True)
class Reader:
    """One person at the pages. stylist: the name in the exports whose clients are theirs; "" where there is none."""

    key: str
    name: str
    role: str
    stylist: str = ""

    @property
    def is_owner(self) -> bool:
        return self.role == OWNER


THE_OWNER = Reader("owner", "Owner", OWNER)
"""Whoever starts the pages on this machine: they can read the salon's folder anyway."""
