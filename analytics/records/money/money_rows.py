"""What was charged, sold, paid and taxed, brought together once for all figures of money."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

import polars as pl

from analytics.records.chairs.lines import completed_lines
from analytics.records.money.deposits import deposit_parts
from analytics.records.money.fees import with_fees
from analytics.records.money.owed import owed_by_day
from analytics.records.money.owed_taxed import untaxed_rows
from analytics.records.money.reconciled import reconciled
from analytics.records.money.retail_visits import visits_with_sales
from analytics.records.money.revenue import earned_rows
from analytics.records.money.settling import visit_days
from analytics.records.money.taxed import sold_rows, taxed_rows
from analytics.records.money.unsettled import unsettled, with_tolerance
from analytics.records.money.vouchers import voucher_moves
from analytics.records.product.retail import retail_rows
from analytics.settings import Settings


@dataclass(frozen=True)
class MoneyRows:
    """The rows of all days on record, each worked out when it is first asked for; a figure narrows them to its period.

    lines: completed lines. retail: retail rows. visits: completed visits with what was sold in them. paid: payments
    with their day and the fee that is assumed where none is stated. days, deposits, voucher_moves, settlements,
    differences, taxed, earned, owed: as the files of this folder answer them.
    """

    tables: Mapping[str, pl.DataFrame]
    settings: Settings

    @cached_property
    def lines(self) -> pl.DataFrame:
        lines = completed_lines(self.tables["bookings"], self.tables["services"], self.settings)
        return lines.with_columns(day=pl.col("starts_at").dt.date())

    @cached_property
    def retail(self) -> pl.DataFrame:
        return retail_rows(self.tables["sales"], self.tables["products"], self.settings)

    @cached_property
    def visits(self) -> pl.DataFrame:
        return visits_with_sales(self.tables["bookings"], self.tables["services"], self.retail)

    @cached_property
    def paid(self) -> pl.DataFrame:
        return with_fees(self.tables["payments"], self.settings)

    @cached_property
    def days(self) -> pl.DataFrame:
        return visit_days(self.lines, self.retail, self.tables["payments"], self.tables["vouchers"])

    @cached_property
    def deposits(self) -> pl.DataFrame:
        return deposit_parts(self.days, self.tables["bookings"], self.tables["services"], self.settings)

    @cached_property
    def voucher_moves(self) -> pl.DataFrame:
        return voucher_moves(self.days, self.tables["payments"], self.tables["vouchers"], self.settings)

    @cached_property
    def settlements(self) -> pl.DataFrame:
        return reconciled(self.days, self.deposits)

    @cached_property
    def differences(self) -> pl.DataFrame:
        rows = unsettled(self.settlements, self.tables["bookings"], self.tables["payments"])
        return with_tolerance(rows, self.settings.accounting.tolerance)

    @cached_property
    def taxed(self) -> pl.DataFrame:
        sold = sold_rows(self.lines, self.retail)
        return taxed_rows(self.lines, sold, self.deposits, self.voucher_moves, self.settings)

    @cached_property
    def earned(self) -> pl.DataFrame:
        untaxed = untaxed_rows(self.deposits, self.voucher_moves, self.settings)
        return earned_rows(self.taxed, untaxed, self.settings.accounting.exempt)

    @cached_property
    def owed(self) -> pl.DataFrame:
        return owed_by_day(self.voucher_moves, self.deposits)
