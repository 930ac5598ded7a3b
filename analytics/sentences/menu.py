"""The menu, as it was drafted, as its kinds and minutes were proposed, or as it was confirmed."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from analytics import wording
from analytics.settings import Settings

KEPT = "Your menu was kept in exports/ as {file}; open it in a spreadsheet when prices change, or change it here."
HOW = (
    "Kinds are proposed by the words of the name, minutes by how long such visits took, prices by what was charged "
    "most often in a month. What you keep here is your menu from now on; lists it was read from are left out."
)
ONE_SERVICE = "They are one service"
NAMES = {"kind": "the kind of work", "hands_on_min": "how long a service takes", "tax_rate": "the tax rate"}
"""By column of the menu that was made: what it is; codes that are names are no question."""


def opening(services: int, settings: Settings, *, drafted: bool, proposed: list[str]) -> str:
    """Whether there is something to confirm. proposed: what of the services was made, in the table's words."""
    many = wording.counted(services, "service", "services", settings)
    if drafted:
        return f"No export is a menu, so one was drafted from your diary: {many}. Look it over once and keep it."
    proposed = [name for name in NAMES if name in proposed]
    if proposed:
        was = f"{_what(proposed)} {'was' if len(proposed) == 1 else 'were'} proposed"
        return f"Your list of {many} did not say everything: {was}. Look it over once and keep it."
    return f"Your menu has {many}. What you change here holds from the next look on."


def _what(proposed: list[str]) -> str:
    return wording.listed([NAMES[name] for name in proposed])


def prices(line: Mapping[str, Any], settings: Settings) -> str:
    """'€58.00, from 3 March 2026 €60.00'."""
    return ", ".join(_price(one["valid_from"], one["price"], settings) for one in line["prices"])


def _price(valid_from: date | None, price: Any, settings: Settings) -> str:
    amount = "no price" if price is None else wording.money(price, settings)
    return amount if valid_from is None else f"from {wording.day(valid_from, settings)} {amount}"


def pair(row: Mapping[str, Any], settings: Settings) -> str:
    """Two services that seem to be one, and what speaks for it."""
    ways = f"{row['service']} and {row['goes_on_as']}"
    if row["how"] != "renamed":
        amounts = f"{wording.money(row['price'], settings)} and {wording.money(row['goes_on_price'], settings)}"
        return f"{ways} look like one service written in two ways, at {amounts}."
    again = wording.counted(row["clients_after"], "client", "clients", settings)
    went = f" {row['clients_went_on']} of {again} who came again went on to it."
    return (
        f"{row['service']} was last done on {wording.day(row['last_on'], settings)}, {row['goes_on_as']} first on "
        f"{wording.day(row['first_on'], settings)}.{went if row['clients_after'] else ''}"
    )
