"""The whole handover of a period in memory: its sheets, and the bytes of every file."""

from dataclasses import dataclass, replace
from functools import cached_property

import polars as pl

from analytics.handover.accountant.closed_periods import Closed, corrections
from analytics.handover.accountant.covering import assumed, changed, decisions, not_in_these_sums
from analytics.handover.accountant.journal import entries, item_words
from analytics.handover.accountant.ledger import ledger
from analytics.handover.accountant.period_names import period_name, period_words
from analytics.handover.accountant.period_rows import Gathered
from analytics.handover.accountant.pseudonyms import pseudonyms
from analytics.handover.accountant.sheets.balances import balances_sheet
from analytics.handover.accountant.sheets.controls import controls_sheet
from analytics.handover.accountant.sheets.cover import Covering, cover_sheet, covering_page
from analytics.handover.accountant.sheets.money import (
    discounts_sheet,
    refunds_sheet,
    revenue_sheet,
    tax_sheet,
    tips_sheet,
)
from analytics.handover.accountant.sheets.notes import how_sheet, set_aside_sheet
from analytics.handover.accountant.sheets.settlement import (
    deposits_sheet,
    differences_sheet,
    methods_sheet,
    reconciliation_sheet,
    register_sheet,
    takings_sheet,
    vouchers_sheet,
)
from analytics.handover.accountant.sheets.sheet import AccountSheet, one_site
from analytics.handover.accountant.sheets.stock import stock_sheets
from analytics.handover.accountant.sheets.wages import wages_sheet
from analytics.handover.accountant.statement import statement
from analytics.handover.accountant.trail import trail
from analytics.handover.accountant.unnamed_visits import unnamed
from analytics.handover.accountant.verdict import Verdict, charged_words, verdict, verdict_words
from analytics.handover.accountant.workbook import workbook
from analytics.output import as_csv
from analytics.periods import Period
from analytics.salon import Salon

OTHERS = {  # files that are no sheet of the workbook, and what they are
    "summary.xlsx": "All tables below as sheets of one workbook, with sums and links as formulas",
    "statement.pdf": "The sums on paper, to file",
    "lines.csv": "Every line of the journal, with the file and row of the export it rests on",
    "journal.beancount": "The journal as plain text, for a double-entry program",
    "manifest.json": "Fingerprints of every export used and every file written; salon-figures handover --verify",
}


@dataclass(frozen=True)
class Handover:
    """One period of a salon. closed: the periods handed over for good. key: for pseudonyms, None for no clients."""

    salon: Salon
    period: Period
    closed: tuple[Closed, ...] = ()
    key: bytes | None = None

    @property
    def name(self) -> str:
        return period_name(self.period)

    @property
    def words(self) -> str:
        return period_words(self.period, self.salon.settings)

    @cached_property
    def gathered(self) -> Gathered:
        return Gathered(self.salon)

    @cached_property
    def _lines(self) -> pl.DataFrame:
        return self.gathered.rows("journal", self.period)

    @cached_property
    def postings(self) -> pl.DataFrame:
        return self.gathered.figure("journal", self.period)

    @cached_property
    def trail(self) -> pl.DataFrame:
        """Every line of the journal with the row of the export that it rests on: columns of trail.COLUMNS."""
        return trail(self._lines, self.corrections, self.period.start, self.salon.settings)

    @cached_property
    def corrections(self) -> pl.DataFrame:
        return corrections(self.gathered, self.period, self.closed)

    @cached_property
    def verdict(self) -> Verdict:
        return verdict(self.gathered, self.period)

    @property
    def verdict_words(self) -> str:
        return verdict_words(self.verdict, self.gathered)

    @property
    def charged_words(self) -> str:
        """What was charged and the tax in it, in a sentence."""
        return charged_words(self._tables["tax"], self.salon.settings)

    @property
    def left_out(self) -> list[tuple[str, str]]:
        return not_in_these_sums(self.gathered, self.period)

    @cached_property
    def covering(self) -> Covering:
        """What the covering page says."""
        given, known, settings = self.gathered, self._tables, self.salon.settings
        return Covering(
            self.verdict_words,
            decisions(given, self.period, self.verdict, known),
            changed(self.corrections, self.closed, self.period, settings),
            assumed(given, known),
        )

    @cached_property
    def journal(self) -> pl.DataFrame:
        return entries(self.postings, self.corrections, self.period.start, self.salon.settings.accounts)

    @cached_property
    def sheets(self) -> tuple[AccountSheet, ...]:
        """In the order of the workbook, the cover first."""
        cover = cover_sheet(self.covering, self.salon.settings, self.period, self._tables)
        return (cover, *self._tables.values())

    @cached_property
    def _tables(self) -> dict[str, AccountSheet]:
        """Every sheet but the cover, by name, in the order of the workbook."""
        given, period = self.gathered, self.period
        clients = None if self.key is None else pseudonyms(given.money.lines, self.key)
        parts = [revenue_sheet, tax_sheet, takings_sheet, reconciliation_sheet, methods_sheet]
        found = [make(given, period) for make in parts]
        found.append(differences_sheet(given, period, _of_visits(given, clients)))
        parts = [vouchers_sheet, register_sheet, deposits_sheet, tips_sheet, discounts_sheet, refunds_sheet]
        found += [make(given, period) for make in parts]
        found += stock_sheets(given, period)
        wages = self.salon.settings.wages
        if wages.per_hour or wages.share_percent:
            found.append(wages_sheet(given, period))
        if clients is not None:
            found.append(_clients_sheet(given, period, clients))
        found.append(balances_sheet(given, period))
        found += [self._journal_sheet(), self._corrections_sheet(), set_aside_sheet(given, period), how_sheet()]
        found.append(controls_sheet(self.trail, self.journal, found, self.salon.settings.accounts, period))
        return {sheet.name: _in_digits(_unnamed(sheet, given), given.digits) for sheet in found}

    def _journal_sheet(self) -> AccountSheet:
        shown = one_site(self.journal.drop("account").rename({"account_name": "account"}))
        return AccountSheet(
            "journal",
            "Journal",
            shown,
            "Balanced entries; lines.csv has the lines of each reference.",
            ("debit", "credit"),
        )

    @property
    def trail_sheet(self) -> AccountSheet:
        """The trail as a table; too long for the workbook, it is a file of its own."""
        return _unnamed(AccountSheet("lines", "Lines", one_site(self.trail)), self.gathered)

    def _corrections_sheet(self) -> AccountSheet:
        shown = self.corrections.with_columns(
            item=pl.col("item").map_elements(item_words, return_dtype=pl.String)
        ).select("period", "day", "site", "item", "original", "new", "difference")
        note = "What later exports changed in periods that were closed; debits positive, credits negative."
        checks = (("difference", "{new}-{original}"),)
        return AccountSheet("corrections", "Corrections", one_site(shown), note, ("difference",), checks=checks)

    @cached_property
    def texts(self) -> dict[str, str]:
        """Name -> content of the CSV files and of the ledger."""
        settings, digits = self.salon.settings, self.gathered.digits
        tables = {f"{sheet.name}.csv": as_csv(plain_digits(sheet, digits)) for sheet in self.sheets}
        tables["lines.csv"] = as_csv(plain_digits(self.trail_sheet, digits))
        title = f"{settings.salon.name}, {self.words}"
        return {**tables, "journal.beancount": ledger(self.journal, settings, digits, title)}

    @cached_property
    def files(self) -> dict[str, bytes]:
        """Name -> content of every file but the manifest."""
        settings, digits = self.salon.settings, self.gathered.digits
        files = {name: text.encode() for name, text in self.texts.items()}
        files["summary.xlsx"] = workbook(self.sheets, settings, digits, self.words)
        files["covering_page.pdf"] = covering_page(self.covering, settings, self.words, self._tables, OTHERS)
        files["statement.pdf"] = statement(self.sheets, settings, self.words, self.verdict_words, self.left_out)
        return dict(sorted(files.items()))


def plain_digits(sheet: AccountSheet, digits: int) -> pl.DataFrame:
    """The frame with as many digits of money as the currency has; nothing is rounded away by it."""
    money = [column for column in sheet.frame.columns if sheet.is_money(column)]
    return sheet.frame.with_columns(pl.col(money).cast(pl.Decimal(38, digits)))


def _in_digits(sheet: AccountSheet, digits: int) -> AccountSheet:
    """The sheet itself; stops where an amount has more digits than are shown, since a cent would be lost."""
    for column in sheet.frame.columns:
        if sheet.is_money(column) and bool((sheet.frame[column].round(digits) != sheet.frame[column]).any()):
            raise AssertionError(f"{sheet.name}: {column} has more digits than are shown")
    return sheet


def _unnamed(sheet: AccountSheet, gathered: Gathered) -> AccountSheet:
    """The sheet without clients in the numbers of its visits."""
    bookings = gathered.tables["bookings"]
    columns = [name for name in ("booking_id", "source_document_id") if name in sheet.frame.columns]
    frames = [unnamed(sheet.frame, column, bookings) for column in columns]
    return replace(sheet, frame=frames[0]) if frames else sheet


def _of_visits(gathered: Gathered, clients: pl.DataFrame | None) -> pl.DataFrame | None:
    """site, booking_id and the pseudonym of the visit's client."""
    if clients is None:
        return None
    visits = gathered.money.lines.select("site", "booking_id", "client_id").unique(["site", "booking_id"], keep="first")
    return visits.join(clients, on=["site", "client_id"]).drop("client_id")


def _clients_sheet(gathered: Gathered, period: Period, clients: pl.DataFrame) -> AccountSheet:
    charged = gathered.figure("charged_by_client", period).join(clients, on=["site", "client_id"])
    frame = charged.select("site", "pseudonym", "visits", "gross", "net", "tax").sort("site", "pseudonym")
    note = "Under pseudonyms that only the salon's own key resolves; services only."
    return AccountSheet("clients", "Clients", one_site(frame), note, ("visits", "gross", "net", "tax"))
