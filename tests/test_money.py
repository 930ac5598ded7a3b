"""Rounding, tax and the sharing of remainders."""

from decimal import Decimal
from fractions import Fraction

import polars as pl
import pytest
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.definitions.columns import MONEY, PERCENT
from analytics.money import (
    EXACT,
    cash_rounding,
    digits_of,
    is_currency,
    round_half_up,
    round_parts,
    rounded,
    rounded_together,
    with_tax,
)


def taxed(charged: list[str], rate: str = "21", *, prices: str = "included", digits: int = 2) -> pl.DataFrame:
    """Lines of one visit at one rate."""
    lines = pl.DataFrame(
        {"visit": "V1", "charged": [Decimal(text) for text in charged], "tax_rate": [Decimal(rate)] * len(charged)},
        schema={"visit": pl.String(), "charged": MONEY, "tax_rate": PERCENT},
    )
    return with_tax(lines, prices=prices, digits=digits, group=["visit"])


@pytest.mark.parametrize(
    ("currency", "most"),
    [("EUR", "0.05"), ("SEK", "0.5"), ("DKK", "0.25"), ("CHF", "0.05"), ("HUF", "2.5"), ("JPY", "5"), ("KWD", "0.005")],
)
def test_cash_is_rounded_by_half_a_coin_or_five_minor_units(currency: str, most: str) -> None:
    """Coins: Unicode CLDR, currency data (cash rounding DKK 50, CHF 5; cash digits SEK 0); HUF from memory."""
    assert cash_rounding(currency) == Decimal(most)


def taxes(*charged: str, rate: str = "21", prices: str = "included", digits: int = 2) -> list[str]:
    return [f"{tax:.{digits}f}" for tax in taxed(list(charged), rate, prices=prices, digits=digits)["tax"]]


@pytest.mark.parametrize(
    ("amount", "cents"),
    [("2.345", "2.35"), ("2.3449", "2.34"), ("-2.345", "-2.35"), ("0.005", "0.01"), ("-0.005", "-0.01"), ("0", "0.00")],
)
def test_half_a_cent_goes_up_and_a_refund_mirrors_its_sale(amount: str, cents: str) -> None:
    assert round_half_up(Decimal(amount), 2) == Decimal(cents)
    column = pl.DataFrame({"amount": [Decimal(amount)]}, schema={"amount": pl.Decimal(38, 12)})
    assert column.select(rounded(pl.col("amount"), 2)).item() == Decimal(cents)


def test_half_a_cent_made_of_thirds_is_half_a_cent() -> None:
    thirds = pl.DataFrame({"amount": [Decimal("0.015") / 3] * 3}, schema={"amount": pl.Decimal(38, 12)})
    assert thirds.select(rounded(pl.col("amount").sum() / 3, 2)).item() == Decimal("0.01")


def test_tax_included_and_added() -> None:
    assert taxes("121") == ["21.00"]
    assert taxes("100", prices="added") == ["21.00"]


def test_the_missing_cent_goes_to_the_largest_remainder() -> None:
    """At 10 % added: 0.53 → 0.053, 0.58 → 0.058, 0.54 → 0.054; together 0.165, that is 0.17 and two cents short."""
    assert taxes("0.53", "0.58", "0.54", rate="10", prices="added") == ["0.05", "0.06", "0.06"]


def test_between_equal_remainders_the_first_line_goes_first() -> None:
    assert taxes("0.12", "0.12", "0.12", rate="20", prices="added") == ["0.03", "0.02", "0.02"]


def test_a_discounted_and_a_refunded_line_share_too() -> None:
    """9.90 − 3.30 = 6.60 at 21 % included: 1.1455, that is 1.15."""
    shared = taxes("9.90", "-3.30")
    assert sum(map(Decimal, shared)) == Decimal("1.15")


def test_lines_keep_their_order_and_columns() -> None:
    answer = taxed(["3", "1", "2"])
    assert answer["charged"].to_list() == [3, 1, 2]
    assert sorted(answer.columns) == ["charged", "gross", "net", "tax", "tax_rate", "visit"]


def test_nothing_charged_and_nothing_taxed() -> None:
    assert taxes("0") == ["0.00"]
    assert taxes("50", rate="0") == ["0.00"]
    assert taxed([]).is_empty()


@pytest.mark.parametrize("amount", ["999999999.99", "5000000000"])
def test_large_amounts_are_exact(amount: str) -> None:
    assert taxes(amount, rate="25", prices="added") == [f"{round_half_up(Decimal(amount) / 4, 2)}"]


def test_currencies_have_three_capital_letters() -> None:
    assert is_currency("EUR")
    assert not any(map(is_currency, ["eur", "EURO", "€", "", "E1R", "ÉUR"]))


NO_CENTS = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"
MILS = "BHD IQD JOD KWD LYD OMR TND"
CENTS = "EUR GBP USD CHF SEK DKK NOK PLN CZK HUF IDR TWD"


@pytest.mark.parametrize(("codes", "digits"), [(NO_CENTS, 0), (CENTS, 2), (MILS, 3), ("CLF UYW", 4)])
def test_digits_are_the_currencys_own(codes: str, digits: int) -> None:
    """ISO 4217, minor units (from memory)."""
    assert {digits_of(currency) for currency in codes.split()} == {digits}


units = st.lists(st.integers(-100_000, 1_000_000), min_size=1, max_size=15)


@effort(max_examples=80, deadline=None)
@given(units, st.sampled_from(["0", "5", "9", "12.5", "17.5", "21"]), st.sampled_from([0, 2, 3]), st.booleans())
def test_parts_add_up_to_the_rounded_whole(amounts: list[int], rate: str, digits: int, included: bool) -> None:
    lines = taxed(
        [str(Decimal(amount).scaleb(-digits)) for amount in amounts],
        rate,
        prices="included" if included else "added",
        digits=digits,
    )
    base = 100 + Decimal(rate) if included else Decimal(100)
    whole = round_half_up(lines["charged"].sum() * Decimal(rate) / base, digits)
    assert lines["tax"].sum() == whole
    assert (lines["net"] + lines["tax"]).to_list() == lines["gross"].to_list()
    for charged, tax in lines.select("charged", "tax").iter_rows():
        assert abs(tax - charged * Decimal(rate) / base) < Decimal(1).scaleb(-digits)
        assert tax == round(tax, digits)


@pytest.mark.parametrize(
    ("parts", "digits", "shares"),
    [
        ([Fraction(1, 3)] * 3, 2, ["0.34", "0.33", "0.33"]),
        ([Fraction(-1, 3)] * 3, 2, ["-0.33", "-0.33", "-0.34"]),
        ([Fraction(1, 2), Fraction(1, 4), Fraction(1, 4)], 0, ["1", "0", "0"]),
        ([], 2, []),
    ],
)
def test_rounded_parts_of_a_whole(parts: list[Fraction], digits: int, shares: list[str]) -> None:
    assert round_parts(parts, digits) == [Decimal(share) for share in shares]


@given(st.lists(st.fractions(-1000, 1000, max_denominator=97), max_size=12), st.integers(0, 3))
def test_rounded_parts_are_the_rounded_whole_and_none_is_a_unit_off(parts: list[Fraction], digits: int) -> None:
    shares = round_parts(parts, digits)
    total = sum(parts, Fraction(0))
    assert abs(Fraction(sum(shares)) - total) <= Fraction(1, 2 * 10**digits)
    assert all(abs(Fraction(share) - part) < Fraction(1, 10**digits) for share, part in zip(shares, parts, strict=True))


def together(amounts: list[str], digits: int) -> list[Decimal]:
    column = pl.DataFrame(
        {"amount": [Decimal(text) for text in amounts], "of": "one"}, schema={"amount": EXACT, "of": pl.String()}
    )
    return column.select(rounded_together(pl.col("amount"), digits, ["of"])).to_series().to_list()


def test_columns_rounded_together_add_up_to_their_rounded_sum() -> None:
    """Three thirds and a half of a mil, the thirds cut at their fifteenth digit, are 1.5 and round to 2."""
    assert together(["1.004", "1.004", "1.004"], 2) == [Decimal("1.01"), 1, 1]
    assert sum(together(["0.000333333333333", "0.000333333333333", "0.000333333333333", "0.0005"], 3)) == Decimal(
        "0.002"
    )
    assert together(["-0.6", "-0.6"], 0) == [0, -1]
