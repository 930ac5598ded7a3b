"""Tax, rounding and sharing against published values."""

from decimal import Decimal
from fractions import Fraction

import polars as pl
import pytest

from analytics.definitions.columns import MONEY, PERCENT
from analytics.money import digits_of, largest_remainder, round_half_up, with_tax


def taxed(charged: list[str], rate: str, *, prices: str, digits: int = 2, by_line: bool = False) -> list[Decimal]:
    lines = pl.DataFrame(
        {
            "bill": range(len(charged)) if by_line else [0] * len(charged),
            "charged": [Decimal(text) for text in charged],
            "tax_rate": [Decimal(rate)] * len(charged),
        },
        schema={"bill": pl.Int64(), "charged": MONEY, "tax_rate": PERCENT},
    )
    return with_tax(lines, prices=prices, digits=digits, group=["bill"])["tax"].to_list()


@pytest.mark.parametrize(
    ("rate", "fraction"),
    [
        ("5", Fraction(1, 21)),
        ("12.5", Fraction(1, 9)),
        ("15", Fraction(3, 23)),
        ("17.5", Fraction(7, 47)),
        ("20", Fraction(1, 6)),
    ],
)
def test_vat_fractions(rate: str, fraction: Fraction) -> None:
    """HMRC, VAT guide (Notice 700), VAT fractions: the part of a price with tax that is tax."""
    price = Decimal(21 * 9 * 23 * 47)  # divisible by every one of them
    assert taxed([str(price)], rate, prices="included") == [price * fraction.numerator / fraction.denominator]


def test_one_hundred_and_twenty_pounds_hold_twenty() -> None:
    """HMRC, VAT guide (Notice 700): £120.00 with tax at 20 %."""
    assert taxed(["120.00"], "20", prices="included") == [Decimal("20.00")]


def test_half_a_penny_rounds_up() -> None:
    """HMRC, VAT Traders' Records Manual VATREC12030: a fraction of half a penny and more goes up, less goes down."""
    assert round_half_up(Decimal("0.125"), 2) == Decimal("0.13")
    assert round_half_up(Decimal("0.1249"), 2) == Decimal("0.12")
    assert taxed(["0.75"], "20", prices="included") == [Decimal("0.13")]  # 0.125


@pytest.mark.parametrize(("third", "tax"), [("4", "0.82"), ("5", "0.83"), ("9", "0.83")])
def test_a_third_decimal_above_four_rounds_up(third: str, tax: str) -> None:
    """US Streamlined Sales and Use Tax Agreement, section 324: 10.00 at 8.24, 8.25 and 8.29 % added."""
    assert taxed(["10.00"], f"8.2{third}", prices="added") == [Decimal(tax)]


def test_rounding_by_item_and_by_invoice_differ() -> None:
    """SSUTA section 324 leaves the choice: ten items of 0.99 at 20 % included hold 1.70 by line and 1.65 by invoice."""
    items = ["0.99"] * 10
    assert sum(taxed(items, "20", prices="included", by_line=True)) == Decimal("1.70")
    assert sum(taxed(items, "20", prices="included")) == Decimal("1.65")


def test_a_sale_with_sales_tax_added() -> None:
    """OpenStax, Principles of Accounting 1: Financial Accounting, 12.2: 18,000 at 6 %: tax 1,080, taken 19,080."""
    (tax,) = taxed(["18000"], "6", prices="added")
    assert (tax, 18000 + tax) == (1080, 19080)


CENSUS_1790 = (
    630560, 475327, 432879, 353523, 331589, 278514, 236841, 206236, 179570, 141822, 85533, 70835, 68705, 68446, 55540,
)  # fmt: skip
SEATS = [11, 8, 7, 6, 6, 5, 4, 3, 3, 2, 1, 1, 1, 1, 1]


def test_largest_remainder_shares_the_seats_of_1790() -> None:
    """Apportionment of 60 seats over 15 states by largest remainder, census of 1790."""
    states = pl.DataFrame({"people": CENSUS_1790, "country": "US"})
    seats = largest_remainder(60 * pl.col("people"), pl.col("people").sum(), ["country"])
    assert states.select(seats=seats)["seats"].to_list() == SEATS


def test_the_tax_of_a_visit_is_shared_the_same_way() -> None:
    """The same census as lines of one visit, each charged its exact quota (to four digits), tax 100 % added, and a
    whole seat as the smallest coin."""
    quotas = [f"{Decimal(60 * people) / sum(CENSUS_1790):.4f}" for people in CENSUS_1790]
    assert taxed(quotas, "100", prices="added", digits=0) == SEATS


@pytest.mark.parametrize(("currency", "digits"), [("EUR", 2), ("JPY", 0), ("KWD", 3)])
def test_minor_units(currency: str, digits: int) -> None:
    """ISO 4217, minor units."""
    assert digits_of(currency) == digits
