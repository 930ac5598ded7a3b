"""Rounding to the minor unit, tax per visit or per line, and its sharing by largest remainder."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import floor
from typing import Any

Row = dict[str, Any]

# ISO 4217 minor units other than two.
MINOR_UNITS = {
    "JPY": 0, "KRW": 0, "ISK": 0, "CLP": 0, "VND": 0, "XOF": 0, "XAF": 0, "XPF": 0, "PYG": 0, "UGX": 0, "RWF": 0,
    "KWD": 3, "BHD": 3, "OMR": 3, "JOD": 3, "TND": 3, "IQD": 3, "LYD": 3,
}  # fmt: skip


def minor_unit(currency: str) -> int:
    return MINOR_UNITS.get(currency, 2)


def in_units(amount: Fraction, minor: int) -> int:
    """An exact amount as a whole number of minor units, a half rounded away from nought."""
    units = amount * 10**minor
    rounded: int = floor(abs(units) + Fraction(1, 2))
    return rounded if units >= 0 else -rounded


def money(amount: Fraction | Decimal, minor: int) -> Decimal:
    return Decimal(in_units(Fraction(amount), minor)).scaleb(-minor)


def shorten(amount: Decimal, minor: int) -> Decimal:
    """A sum of exact decimals, written with the currency's decimals."""
    return amount.quantize(Decimal(1).scaleb(-minor), rounding=ROUND_HALF_UP)


def largest_remainder(total_units: int, exact_units: list[Fraction]) -> list[int]:
    """Whole parts near the exact ones that add up to the total; of equal remainders the earlier part goes first."""
    parts = [floor(exact) for exact in exact_units]
    remainders = [exact - part for exact, part in zip(exact_units, parts, strict=True)]
    by_remainder = sorted(range(len(parts)), key=lambda place: (-remainders[place], place))
    for place in by_remainder[: total_units - sum(parts)]:
        parts[place] += 1
    return parts


def exact_tax(charged: Decimal, rate: Decimal, prices: str) -> Fraction:
    if prices == "included":
        return Fraction(charged) * Fraction(rate) / (100 + Fraction(rate))
    return Fraction(charged) * Fraction(rate) / 100


def set_tax(line: Row, tax: Decimal, prices: str) -> None:
    line["tax"] = tax
    line["gross"] = line["charged"] if prices == "included" else line["charged"] + tax
    line["net"] = line["gross"] - tax


def tax_together(lines: list[Row], rate: Decimal, prices: str, minor: int) -> None:
    """One rounded tax for these lines, all of one rate, shared over them."""
    ordered = sorted(lines, key=lambda line: line["line"])
    exact_units = [exact_tax(line["charged"], rate, prices) * 10**minor for line in ordered]
    total_units = in_units(sum(exact_units, Fraction(0)), 0)
    for line, units in zip(ordered, largest_remainder(total_units, exact_units), strict=True):
        set_tax(line, Decimal(units).scaleb(-minor), prices)


def tax_lines(lines: list[Row], prices: str, round_per: str, minor: int) -> None:
    """Give every completed booking line its tax, gross and net."""
    together: dict[Any, list[Row]] = {}
    for line in lines:
        bill = line["line"] if round_per == "line" else "whole visit"
        together.setdefault((line["booking_id"], line["tax_rate"], bill), []).append(line)
    for key, members in together.items():
        tax_together(members, key[1], prices, minor)
