"""Amounts in cents: a heading that says so, or amounts a hundred times what the menu or the diary says."""

import re

from analytics.intake.cells.casts import folded_word
from analytics.intake.evidence.decide import Decided
from analytics.intake.evidence.profile import fold
from analytics.intake.evidence.reading import Reading
from analytics.intake.meaning.table_rules import constants_for
from analytics.money import digits_of
from analytics.settings import AMOUNTS, Settings

IN_CENTS = 100
PLAUSIBLE = 1000  # no service of a menu is at the median as dear as this in a currency with cents
CENTS_WORDS = {"cent", "cents", "centen", "centesimi", "centimes", "centimos", "ct", "cts"}
MONEY: dict[str, tuple[str, ...]] = {
    "bookings": ("price", "discount", "tip"),
    "services": ("price",),
    "payments": ("amount", "fee"),
    "sales": ("price", "discount"),
}
"""By table: columns of amounts, the telling one first."""
VISIT = (0.4, 6.0)
"""How many times a line's usual price a usual payment is at least and at most: a visit has few lines."""


def in_cents(reading: Reading, decided: dict[str, Decided], settings: Settings) -> tuple[str, ...] | None:
    """Columns whose amounts stand in cents; None where they may, as whole numbers far too large for a service are."""
    columns = [column for column in MONEY.get(reading.table.name, ()) if column in reading.places]
    if not columns or digits_of(settings.salon.currency) != 2 or columns[0] != MONEY[reading.table.name][0]:
        return ()
    said = constants_for(reading.view.name, settings).get(AMOUNTS)
    if said:
        return tuple(columns) if said == "cents" else ()
    place = reading.places[columns[0]]
    column = reading.view.columns[place]
    if set(re.split(r"[\W_]+", folded_word(reading.view.headings[place]))) & CENTS_WORDS:
        return tuple(columns)
    if not column.whole or column.median < PLAUSIBLE or column.filled < 5:
        return ()
    told = _to_diary(column.median, decided, settings) if reading.table.name == "payments" else None
    told = _to_menu(reading, decided) if told is None else told
    return None if told is None else tuple(columns) if told else ()


def _to_diary(usual: float, decided: dict[str, Decided], settings: Settings) -> bool | None:
    """Whether a usual payment is some lines' usual price, or a hundred times that; None where no diary tells."""
    for one in decided.values():
        diary = one.reading
        if diary.table.name == "bookings" and "price" in diary.places and in_cents(diary, decided, settings) == ():
            times = usual / (diary.view.columns[diary.places["price"]].median or 1)
            for factor, answer in ((IN_CENTS, True), (1, False)):
                if VISIT[0] * factor <= times <= VISIT[1] * factor:
                    return answer
    return None


def _to_menu(reading: Reading, decided: dict[str, Decided]) -> bool | None:
    """True where nine in ten amounts are a hundred times the menu's price of the service, False where they are that
    price, None where the menu does not tell."""
    for key in ("service_id", "service"):
        if key not in reading.places or "price" not in reading.places:
            continue
        listed: dict[str, set[float]] = {}
        for one in decided.values():
            menu = one.reading
            if menu is reading or menu.table.name != "services" or not {key, "price"} <= set(menu.places):
                continue
            numbers = menu.view.columns[menu.places["price"]].numbers
            for label, text in menu.view.pairs(menu.places[key], menu.places["price"]):
                if text in numbers:
                    listed.setdefault(fold(label), set()).add(numbers[text])
        numbers = reading.view.columns[reading.places["price"]].numbers
        pairs = reading.view.pairs(reading.places[key], reading.places["price"])
        both = [
            (numbers[text], listed[fold(label)]) for label, text in pairs if fold(label) in listed and text in numbers
        ]
        if len(both) >= 5:
            for factor, answer in ((IN_CENTS, True), (1, False)):
                near = sum(
                    any(0.7 * factor * price <= paid <= 1.3 * factor * price for price in prices)
                    for paid, prices in both
                )
                if near >= 0.9 * len(both):
                    return answer
    return None
