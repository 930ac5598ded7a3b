"""Vouchers one by one: sold, used, expired, and what of each is still owed.

A voucher is a row of the register where one is exported; what was sold on a day of which the register has none is one
voucher of that day, and what was owed before the records begin (a setting) is one more. Payments with vouchers use the
voucher they name, else the oldest that is valid. What was paid for a voucher is owed; a part of its face that is used
takes that part of what was paid with it, and what of the face was not paid for is a discount on what it bought.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import polars as pl

from analytics.definitions.results import AMOUNT
from analytics.methods.breakage import still_owed, value_used
from analytics.methods.voucher_lots import Lot, Use, taken_from
from analytics.money import digits_of, round_half_up
from analytics.periods import add_months
from analytics.records.money.settling import of_visits, sold_since
from analytics.settings import Settings

OPENING = "opening balance"
BEFORE = date.min  # before everything
NOTHING = Decimal(0)
MOVES = ("opening", "sold", "used", "beyond", "unused")
MOVE = {
    **{"day": pl.Date(), "site": pl.String(), "booking_id": pl.String(), "sold_at": pl.String(), "number": pl.String()},
    **{
        "sold_on": pl.Date(),
        "expires_on": pl.Date(),
        "move": pl.String(),
        "face": AMOUNT,
        "amount": AMOUNT,
        "tax": AMOUNT,
    },
    **{"discount": AMOUNT, "file": pl.String(), "row": pl.Int64()},
}


@dataclass(frozen=True)
class Terms:
    """How what is owed goes down: digits of the currency, the share never used that is earned as a voucher is used,
    and the rate of a tax that was due when it was sold."""

    digits: int
    unused_share: Decimal
    tax_rate: Decimal

    def tax_in(self, amount: Decimal) -> Decimal:
        return round_half_up(amount * self.tax_rate / (100 + self.tax_rate), self.digits)

    def rounded(self, amount: Decimal) -> Decimal:
        return round_half_up(amount, self.digits)


def terms(settings: Settings) -> Terms:
    """The terms that the settings say."""
    said = settings.accounting
    default = settings.tax.default_rate if said.voucher_tax_rate is None else said.voucher_tax_rate
    share = said.breakage_percent / 100 if said.breakage == "in_proportion" else NOTHING
    rate = default if said.vouchers == "single_purpose" else NOTHING
    return Terms(digits_of(settings.salon.currency), share, rate)


def voucher_moves(
    days: pl.DataFrame, payments: pl.DataFrame, vouchers: pl.DataFrame, settings: Settings
) -> pl.DataFrame:
    """One row per voucher and move, columns of MOVE: face and amount are what it adds to what may be used and is owed.

    days: visit_days. tax: of the amount, what was accounted for when the voucher was sold (single-purpose vouchers).
    discount: of a use, what of the face was not paid for. `beyond` is what was used beyond all that was owed: it adds
    nothing to either, and its face says how much it is. `unused` is what is earned of what is never used. `opening`,
    what was owed before the records begin, has the day BEFORE. In a group, site is where it moved, sold_at where it was
    sold: it may be used in any of the salons.
    """
    uses = of_visits(payments).filter(pl.col("method") == "voucher").sort("paid_at", "file", "row")
    lots = _lots(vouchers, days, payments, settings, uses["site"].unique().sort().to_list())
    begin = dict(payments.group_by("site").agg(pl.col("paid_at").min().dt.date()).iter_rows())
    newest = days["day"].max()
    last = newest if isinstance(newest, date) else BEFORE
    ordered = lots.sort(pl.col("sold_on").fill_null(BEFORE), "site", "number", maintain_order=True)
    found = list(_moves(ordered.to_dicts(), uses.to_dicts(), begin, last, terms(settings)))
    return pl.DataFrame(found, schema=MOVE).sort(
        "day", "site", "number", "booking_id", "file", "row", maintain_order=True
    )


def _beyond_the_register(vouchers: pl.DataFrame, days: pl.DataFrame, payments: pl.DataFrame) -> pl.DataFrame:
    """By day and site: vouchers_sold that no row of the register is about."""
    of_day = ["day", "site"]
    listed = sold_since(vouchers, payments).group_by(of_day).agg(_listed=pl.col("paid").sum())
    more = pl.col("vouchers_sold") - pl.col("_listed").fill_null(0)
    sold = days.group_by(of_day).agg(pl.col("vouchers_sold").sum()).join(listed, on=of_day, how="left")
    return sold.with_columns(vouchers_sold=more).filter(pl.col("vouchers_sold") > 0)


def _lots(
    vouchers: pl.DataFrame, days: pl.DataFrame, payments: pl.DataFrame, settings: Settings, sites: list[str]
) -> pl.DataFrame:
    """site, number, sold_on, until, face, paid and used (None where no register says it) of every voucher."""
    columns = ["site", "number", "sold_on", "until", "face", "paid", "used", "file", "row"]
    listed = vouchers.with_columns(until="expires_on", paid=pl.coalesce("paid", "face")).select(columns)
    made = _beyond_the_register(vouchers, days, payments).select(
        "site",
        number=pl.lit("sold ") + pl.col("day").cast(pl.String),
        sold_on="day",
        until=pl.lit(None, pl.Date),
        face="vouchers_sold",
        paid="vouchers_sold",
        used=pl.lit(None, AMOUNT),
        file=pl.lit(""),
        row=pl.lit(None, pl.Int64),
    )
    rows = [*_opening(settings, sites or days["site"].unique().sort().to_list())]
    opening = pl.DataFrame(rows, schema=made.schema, orient="row")
    lots = pl.concat([part.cast({"face": AMOUNT, "paid": AMOUNT, "used": AMOUNT}) for part in (opening, listed, made)])
    months = settings.accounting.voucher_months
    if months is None:
        return lots
    ends = pl.col("sold_on").map_elements(lambda day: add_months(day, months), return_dtype=pl.Date)
    return lots.with_columns(until=pl.coalesce("until", ends))


def _opening(settings: Settings, sites: list[str]) -> Iterator[tuple[Any, ...]]:
    said = settings.accounting.vouchers_opening
    by_site: Mapping[str, Decimal] = said if isinstance(said, dict) else {(sites or [""])[0]: said}
    for site, amount in by_site.items():
        if amount and (not sites or site in sites or not isinstance(said, dict)):
            yield (site, OPENING, None, None, amount, amount, None, "", None)


def _moves(
    vouchers: list[dict[str, Any]], uses: list[dict[str, Any]], begin: dict[str, date], last: date, under: Terms
) -> Iterator[dict[str, Any]]:
    """begin: by site, the day on which its payments begin. last: the last day on record."""
    lots = [Lot(*(one[name] for name in ("number", "sold_on", "until", "face", "used", "site"))) for one in vouchers]
    parts = taken_from(lots, [Use(use["day"], use["amount"], use["voucher"], use["site"]) for use in uses])
    of_lots: dict[int, list[tuple[dict[str, Any], Decimal]]] = {}
    for part in parts:
        if part.lot is None:
            yield _beyond(uses[part.use], part.amount)
        else:
            of_lots.setdefault(part.lot, []).append((uses[part.use], part.amount))
    for at, voucher in enumerate(vouchers):
        first = begin.get(voucher["site"])
        before = voucher["sold_on"] is None or first is None or voucher["sold_on"] < first
        used_before = lots[at].listed_left if before else NOTHING
        yield from _Running(voucher, under, before).moves(used_before, of_lots.get(at, []), last)


class _Running:
    """One voucher as it is sold, used and expires: what was used of it so far, and what is owed of it."""

    def __init__(self, voucher: dict[str, Any], under: Terms, before: bool) -> None:
        self.voucher, self.under, self.before = voucher, under, before
        self.used = self.value = self.owed = NOTHING

    def moves(
        self, used_before: Decimal, uses: list[tuple[dict[str, Any], Decimal]], last: date
    ) -> Iterator[dict[str, Any]]:
        """used_before: what was used of it before the records begin. It has expired once the records reach that day."""
        voucher = self.voucher
        self.used = used_before
        self.value = self._value()
        self.owed = self._still_owed()
        day = BEFORE if self.before else voucher["sold_on"]
        left = voucher["face"] - used_before
        place = {name: voucher[name] for name in ("file", "row")}
        move = "opening" if self.before else "sold"
        yield self._row(day, move, left, self.owed, self.under.tax_in(self.owed)) | place
        for use, amount in uses:
            yield from self._use(use, amount)
        if voucher["until"] is None or (not self.owed and self.used == voucher["face"]):
            return
        day = max(voucher["until"] + timedelta(days=1), *[use["day"] for use, _ in uses], voucher["until"])
        if day <= last:
            yield self._row(day, "unused", self.used - voucher["face"], -self.owed, -self.under.tax_in(self.owed))

    def _use(self, use: dict[str, Any], amount: Decimal) -> Iterator[dict[str, Any]]:
        value, owed, tax_in = self.value, self.owed, self.under.tax_in
        self.used += amount
        self.value = self._value()
        self.owed = self._still_owed()
        used = value - self.value
        tax = tax_in(owed + used) - tax_in(owed)
        place = {name: use[name] for name in ("site", "booking_id", "file", "row")}
        yield self._row(use["day"], "used", -amount, used, tax) | place | {"discount": amount + used}
        unused = self.owed - owed - used
        if unused:
            row = self._row(use["day"], "unused", NOTHING, unused, tax_in(self.owed) - tax_in(owed + used))
            yield row | {"site": use["site"]}

    def _value(self) -> Decimal:
        return self.under.rounded(value_used(self.voucher["paid"], self.voucher["face"], self.used))

    def _still_owed(self) -> Decimal:
        return self.under.rounded(still_owed(self.voucher["paid"], self.value, self.under.unused_share))

    def _row(self, day: date, move: str, face: Decimal, amount: Decimal, tax: Decimal) -> dict[str, Any]:
        voucher = self.voucher
        about = {
            "site": voucher["site"],
            "sold_at": voucher["site"],
            "number": voucher["number"],
            "sold_on": voucher["sold_on"],
        }
        moved = {"day": day, "move": move, "face": face, "amount": amount, "tax": tax, "discount": NOTHING}
        return about | moved | {"expires_on": voucher["until"], "booking_id": None, "file": "", "row": None}


def _beyond(use: dict[str, Any], amount: Decimal) -> dict[str, Any]:
    """A use, or what of it is left, that no voucher pays for."""
    place = {name: use[name] for name in ("day", "site", "booking_id", "file", "row")}
    none = {"sold_at": None, "number": None, "sold_on": None, "expires_on": None, "amount": NOTHING, "tax": NOTHING}
    return place | none | {"move": "beyond", "face": amount, "discount": NOTHING}


def register(moves: pl.DataFrame, start: date, end: date) -> pl.DataFrame:
    """Of voucher_moves: one row per site and voucher, as they stand at the end, of those that moved since the start or
    of which something is left."""
    move, face, amount, tax = pl.col("move"), pl.col("face"), pl.col("amount"), pl.col("tax")
    came = move.is_in(["opening", "sold"])
    return (
        moves.filter((pl.col("day") < end) & pl.col("number").is_not_null())
        .group_by(pl.col("sold_at").alias("site"), "number")
        .agg(
            pl.col("sold_on", "expires_on").first(),
            face=face.filter(came).sum(),
            paid=amount.filter(came).sum(),
            used=-face.filter(move == "used").sum(),
            used_value=-amount.filter(move == "used").sum(),
            unused=-amount.filter(move == "unused").sum(),
            left=face.sum(),
            owed=amount.sum(),
            tax_in_owed=tax.sum(),
            liability=amount.sum() - tax.sum(),
            _moved=(pl.col("day") >= start).any(),
        )
        .filter(pl.col("_moved") | (pl.col("owed") != 0) | (pl.col("left") != 0))
        .sort("site", "sold_on", "number")
    )
