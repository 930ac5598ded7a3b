"""Exact money: the only place that rounds, splits tax and shares remainders.

Amounts are decimals with four digits after the point. Inside, tax is worked out in whole ten-thousandths with
integers, so that no level of a sum loses a cent.
"""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import lcm

import polars as pl
from babel.core import get_global
from babel.numbers import is_currency as known_currency

from analytics.definitions.columns import MONEY

# ISO 4217 minor units other than two.
MINOR_UNITS = {
    0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
}
SCALE = 4  # digits after the point of every amount in the book
EXACT = pl.Decimal(38, 15)  # for products and quotients on the way to a sum


def is_currency(code: str) -> bool:
    """A code of ISO 4217, such as EUR."""
    return bool(known_currency(code))


def digits_of(currency: str) -> int:
    """Digits after the point of the currency's minor unit (ISO 4217): EUR 2, JPY 0, KWD 3."""
    return next((digits for digits, codes in MINOR_UNITS.items() if currency in codes.split()), 2)


def cash_rounding(currency: str) -> Decimal:
    """How far what is paid in cash may lie from what is due, by the coins there are (CLDR, by Babel): SEK 0.50.

    At least five minor units, since salons of the euro area round to five cents, and more in some. HUF: the Magyar
    Nemzeti Bank has cash rounded to 5 forints (from memory), which CLDR does not say.
    """
    digits, rounding = get_global("currency_fractions").get(currency, (2, 0, digits_of(currency), 0))[2:]
    coin = Decimal(5) if currency == "HUF" else Decimal(rounding or 1).scaleb(-digits)
    return max(Decimal(5).scaleb(-digits_of(currency)), coin / 2)


def round_half_up(amount: Decimal, digits: int) -> Decimal:
    """Half a minor unit rounds away from zero, so that a refund mirrors its sale."""
    return amount.quantize(Decimal(1).scaleb(-digits), rounding=ROUND_HALF_UP)


def rounded(amount: pl.Expr, digits: int) -> pl.Expr:
    """The column rounded half up to the currency's minor unit, as MONEY that can be summed.

    Nine digits first: a quotient is cut at its fifteenth digit, and half a cent must not be lost with it.
    """
    half_up: pl.Expr = amount.round(9, mode="half_away_from_zero").round(digits, mode="half_away_from_zero")
    return half_up.cast(pl.Decimal(38, SCALE))


def _ten_thousandths(amount: pl.Expr) -> pl.Expr:
    scaled: pl.Expr = amount * 10**SCALE
    return scaled.cast(pl.Int128)  # tax of large sums in small units does not fit 64 bits


def _rounded_division(top: pl.Expr, bottom: pl.Expr) -> pl.Expr:
    """Whole-number division of integers, half away from zero."""
    return ((top.abs() * 2 + bottom) // (bottom * 2)) * top.sign()


def largest_remainder(top: pl.Expr, bottom: pl.Expr, over: list[str]) -> pl.Expr:
    """Whole units for each row of top ÷ bottom that add up, in each group, to the rounded sum of the group.

    top, bottom: whole numbers; bottom is one number in each group. Each row gets its quotient without the fraction;
    the units still missing go to the largest fractions, between equal ones to the row that stands first.
    """
    whole = top // bottom
    missing = _rounded_division(top.sum(), bottom.first()).over(over) - whole.sum().over(over)
    place = (bottom - top % bottom).rank("ordinal").over(over)
    return whole + (place <= missing).cast(pl.Int128)


def rounded_together(amount: pl.Expr, digits: int, over: list[str]) -> pl.Expr:
    """The column rounded to the minor unit so that each group adds up to its rounded sum, by largest remainder.

    Between equal remainders the row that stands first is rounded up. MONEY; amounts count to their ninth digit.
    """
    exact = amount.cast(EXACT)
    billionths = (exact.round(9, mode="half_away_from_zero") * 10**9).cast(pl.Int128)
    total = (rounded(exact.sum(), digits) * 10**digits).cast(pl.Int128).over(over)
    unit = 10 ** (9 - digits)
    whole = billionths // unit
    place = (unit - billionths % unit).rank("ordinal").over(over)
    return _of_units(whole + (place <= total - whole.sum().over(over)).cast(pl.Int128), digits)


def shared_by_time(amount: pl.Expr, part: pl.Expr, whole: pl.Expr, digits: int, over: list[str]) -> pl.Expr:
    """An amount of whole minor units shared over the rows of its group in proportion to their part of the whole.

    part, whole: whole numbers, such as microseconds, of which the parts of a group add up to the whole. MONEY.
    """
    bottom = whole.cast(pl.Int128) * 10 ** (SCALE - digits)
    return _of_units(largest_remainder(_ten_thousandths(amount) * part.cast(pl.Int128), bottom, over), digits)


def _of_units(units: pl.Expr, digits: int) -> pl.Expr:
    scaled: pl.Expr = (units * 10 ** (SCALE - digits)).cast(pl.Decimal(38, SCALE)) / 10**SCALE
    return scaled.cast(pl.Decimal(38, SCALE))


def round_parts(parts: Sequence[Fraction], digits: int) -> list[Decimal]:
    """Exact amounts in whole minor units that add up to their rounded sum, by largest remainder.

    Between equal remainders the part that stands first is rounded up.
    """
    bottom = lcm(*(part.denominator for part in parts))  # whole numbers: fractions are ten times slower
    tops = [part.numerator * (bottom // part.denominator) * 10**digits for part in parts]
    total = sum(tops)
    wanted = (abs(total) * 2 + bottom) // (bottom * 2) * (1 if total >= 0 else -1)
    whole = [top // bottom for top in tops]
    by_remainder = sorted(range(len(tops)), key=lambda place: whole[place] * bottom - tops[place])
    up = set(by_remainder[: wanted - sum(whole)])
    return [Decimal(unit + (place in up)).scaleb(-digits) for place, unit in enumerate(whole)]


def with_tax(lines: pl.DataFrame, *, prices: str, digits: int, group: list[str]) -> pl.DataFrame:
    """Add `gross`, `net` and `tax` to lines that have `charged` and `tax_rate` (percent).

    prices: "included" (tax = charged × r ÷ (100 + r)) or "added" (tax = charged × r ÷ 100).
    group: the columns whose lines share one rounding of the tax together with the rate (a visit, or a line). The
    rounded tax of a group is shared over its lines by largest remainder.
    """
    included = prices == "included"
    rate, charged = _ten_thousandths(pl.col("tax_rate")), _ten_thousandths(pl.col("charged"))
    minor_unit = 10 ** (SCALE - digits)  # in ten-thousandths
    whole = pl.lit(100 * 10**SCALE)
    bottom = (whole + rate if included else whole + 0 * rate) * minor_unit
    units = largest_remainder(charged * rate, bottom, [*group, "tax_rate"])
    tax = (units * minor_unit).cast(pl.Decimal(38, SCALE)) / 10**SCALE
    gross = pl.col("charged") if included else pl.col("charged") + pl.col("tax")
    net = pl.col("charged") - pl.col("tax") if included else pl.col("charged")
    return lines.with_columns(tax=tax.cast(MONEY)).with_columns(gross=gross.cast(MONEY), net=net.cast(MONEY))
