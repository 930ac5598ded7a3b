"""The first hour: the next step, what the exports that are there answer, and what each further one would add."""

from dataclasses import dataclass

from analytics.settings import Settings

FIRST = "A few things about your salon, then the files you have. The first figures are a few minutes away."
PROPOSED = (
    "Currency, way of writing and clock are proposed by your browser. Everything can be changed later, under Settings."
)
DROP = (
    "Drop what you have: the export of your diary first, best with a price list. Nothing leaves this machine, and the "
    "files stay as they are."
)
FORMS = (
    "Text files (CSV), workbooks (.xlsx, .ods) or archives (.zip) of them, many at once and in any order. A file of "
    "more than 25 MB is put into the salon's folder exports/ by hand and then loaded from this page."
)
READING = "The exports are being read."
ASKED = "One question before your figures:"
COSTS_SAY = "Rent, energy, wages, insurance, without tax. Leave it empty if you do not know yet: it is asked again."
HOURS_SAY = "What an empty hour is, and how full the chairs were, is told from your opening hours."


@dataclass(frozen=True)
class Answered:
    """What a page says as soon as these tables have rows. page: its file's name."""

    needs: tuple[str, ...]
    page: str
    says: str


ANSWERED = (
    Answered(("bookings",), "month", "what a month brought, whether that is unusual, and why"),
    Answered(("bookings",), "chairs", "how full the chairs are and what an hour in one brings, by service"),
    Answered(("bookings",), "minutes", "what services take beside the minutes of the menu"),
    Answered(("bookings",), "menu", "your services with kind, minutes and prices, to look over once"),
    Answered(("bookings",), "roots", "whose roots are due, and when"),
    Answered(("bookings",), "ahead", "the weeks ahead: where there is room"),
    Answered(("bookings",), "returns", "how many new clients come back"),
    Answered(("bookings", "payments"), "accountant", "whether what was due came in, with a folder for the accountant"),
    Answered(("bookings", "product_log"), "bowls", "what is left in bowls, and how much to mix"),
    Answered(("bookings", "stock_moves"), "stock", "what to order, and what went unexplained"),
)

FURTHER = {
    "bookings": "your diary (day, time, client, service, price): what the month brought, and whose roots are due",
    "services": "a price list: what an hour earns, by your own services, kinds and minutes",
    "payments": "the card terminal's statement or the till's payments: whether everything due came in",
    "clients": "the client list: whom you may call, and their numbers",
    "product_log": "the notes of what was mixed: how much is washed away, and how much to mix",
    "products": "the supplier's price list: what colour costs, and what each service leaves after it",
    "sales": "what was sold over the counter: what retail leaves",
    "stock_moves": "deliveries and counts: what to order, and what went unexplained",
}
"""By table that is not there yet, in the order in which they help most: what it is in the salon, what it would add."""


def next_step(there: set[str], settings: Settings | None, *, asked: bool, stopped: str) -> str:
    """The sentence that the page opens with. there: tables that have rows. stopped: what stops the load."""
    if settings is None:
        return FIRST
    if asked:
        return ASKED
    if stopped:
        return stopped
    if not there:
        return DROP
    lacking = next(iter(further(there)), None)
    more = f" With {FURTHER[lacking]}." if lacking else ""
    return f"Your figures are there.{more}"


def further(there: set[str]) -> list[str]:
    """The tables that are not there yet."""
    return [table for table in FURTHER if table not in there]


def answered(there: set[str]) -> list[Answered]:
    """What can be answered with these tables."""
    return [one for one in ANSWERED if set(one.needs) <= there]


def would_add(there: set[str]) -> list[str]:
    """What the next files would add, a sentence each."""
    return [f"With {FURTHER[table]}." for table in further(there)]


def came_in(kept: list[str], already: list[str], refused: list[str]) -> str:
    """What became of the files that were dropped."""
    said = [f"{_names(kept)} {'was' if len(kept) == 1 else 'were'} kept in exports/."] if kept else []
    said += [f"{_names(already)} {'was' if len(already) == 1 else 'were'} there already."] if already else []
    return " ".join([*said, *refused])


def _names(names: list[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
