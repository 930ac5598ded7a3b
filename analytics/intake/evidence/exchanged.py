"""Headings that words know, over values that fit each other's columns better: who wrote the export may have exchanged
them, so that it is asked instead of used."""

from collections.abc import Iterator
from itertools import combinations

from analytics.intake.evidence.points import FAINT, STRONG, Sheets
from analytics.intake.evidence.reading import Reading
from analytics.intake.evidence.values_say import said_by_values

CLEARLY = 4.0  # points by which the exchange must fit better
ALIKE: dict[str, tuple[tuple[str, ...], ...]] = {
    "bookings": (
        ("starts_at", "ends_at"),
        ("start_time", "end_time"),
        ("price", "discount", "tip"),
        ("client", "stylist", "service", "chair"),
        ("client_id", "booking_id", "service_id"),
    ),
    "services": (("service", "service_id"), ("price", "tax_rate")),
    "product_log": (("mixed_g", "left_g"),),
}
"""By table: groups of columns of like type."""


def exchanged(reading: Reading, sheets: Sheets) -> Iterator[tuple[str, str]]:
    """Pairs of columns of the reading whose values hardly speak for either, and for both where they are exchanged; what
    salon.toml says is not doubted."""
    by_toml = {meaning.column for meaning in reading.match.why if meaning.by.startswith("[columns")}
    for group in ALIKE.get(reading.table.name, ()):
        there = [column for column in group if column in reading.places and column not in by_toml]
        for one, other in combinations(there, 2):
            kept = [_fits(reading, column, column, sheets) for column in (one, other)]
            if max(kept) > FAINT:
                continue
            swapped = [_fits(reading, one, other, sheets), _fits(reading, other, one, sheets)]
            if min(swapped) >= FAINT and sum(swapped) >= sum(kept) + CLEARLY:
                yield one, other


def _fits(reading: Reading, column: str, below: str, sheets: Sheets) -> float:
    """Points of the values that stand where the second column was read, as values of the first."""
    said = said_by_values(reading.view, reading.table, reading.places[below], column, sheets)
    return -STRONG if said is None else said[0]
