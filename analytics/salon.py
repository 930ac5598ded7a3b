"""open_salon(folder): the only wiring of settings, book and figures."""

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from fractions import Fraction
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any

import polars as pl

from analytics.catalogue import figure
from analytics.checks.completed_ahead import completed_ahead
from analytics.definitions.findings import summarise
from analytics.definitions.results import filled
from analytics.intake.reading.find import Export, find_exports
from analytics.periods import Period
from analytics.records.chairs.stays import chair_name, named_chairs
from analytics.records.cover import covered
from analytics.records.made_columns import without_made_charges, without_made_minutes
from analytics.records.not_in_sums import SUMMED, not_in_sums, received
from analytics.records.sites import OF_A_VISIT, placed, site_names, tables_of
from analytics.records.together import brought_together
from analytics.settings import Settings, read_settings
from analytics.stops import WorkStopped
from analytics.storage.book import Book, read_book

TIMED, PRICED = "durations", "prices"  # figures that leave out what was made of what they compare it with


@dataclass(frozen=True)
class Salon:
    """A loaded salon on one day. Figures are answered from memory; nothing is kept open."""

    folder: Path
    settings: Settings
    book: Book
    as_of: date

    @cached_property
    def cover(self) -> Period:
        """The whole months that the book covers; empty for an empty book."""
        tables = self.book.tables
        happened = covered(tables["bookings"], tables["payments"], tables["sales"], tables["product_log"])
        return happened or Period.nothing()

    @property
    def stale(self) -> bool:
        """True where a file in exports/ is new, gone or another, or read otherwise, than when the book was made."""
        if self.book.of_reading not in (None, self.settings.of_reading):
            return True
        then = dict(self.book.files.select("export", "sha256").iter_rows())
        try:
            return then != {export.name: _fingerprint(export) for export in find_exports(self.folder)}
        except (WorkStopped, OSError):
            return True

    @cached_property
    def sites(self) -> list[str]:
        """The salons of a group, "" for rows that name none; empty where the book names no salon."""
        return site_names(self.book.tables)

    def only_site(self, site: str) -> "Salon":
        """The salon as if this one of the group were alone. Raises WorkStopped where the book has none of that name.

        Its months are those in which something happened there; its chairs are those seen there; opening hours are
        the settings', the same for every salon of the group, and it carries the costs of its chairs.
        """
        if site not in self.sites:
            raise WorkStopped(_no_such_site(site, self.sites))
        return self._narrowed(tables_of(self.book.tables, site), ())

    def only_chair(self, chair: str) -> "Salon":
        """The salon as if it had this chair alone: its lines, and what was mixed, sold and paid in their visits.

        It carries its part of the costs.
        """
        bookings = self.book.tables["bookings"].filter(chair_name() == chair)
        visits = bookings.select("site", "booking_id").unique()
        narrowed = {
            name: self.book.tables[name].join(visits, on=["site", "booking_id"], how="semi") for name in OF_A_VISIT
        }
        return self._narrowed({**self.book.tables, **narrowed, "bookings": bookings}, (chair,))

    @cached_property
    def chairs(self) -> list[str]:
        """The chairs of the settings and those seen; in a group, each with its salon before it."""
        return named_chairs(self.book.tables["bookings"], self.settings.salon.chairs)

    def _narrowed(self, tables: dict[str, pl.DataFrame], chairs: tuple[str, ...]) -> "Salon":
        """The salon with these tables and chairs, and with costs in proportion to its chairs."""
        salon = self.settings.salon.model_copy(update={"chairs": chairs})
        part = replace(
            self,
            settings=self.settings.model_copy(update={"salon": salon}),
            book=replace(self.book, tables=tables),
        )
        share = Fraction(len(part.chairs), len(self.chairs) or 1)
        per_month = self.settings.costs.per_month * share.numerator / share.denominator
        costs = self.settings.costs.model_copy(update={"per_month": per_month})
        return replace(part, settings=part.settings.model_copy(update={"costs": costs}))

    def figure(self, name: str, period: Period | None = None) -> pl.DataFrame:
        """The frame of the figure of this name for the days of `period` within the months the book covers."""
        return self._told(name, filled(figure(name).function, self._known(period, name)))

    def figure_by_site(self, name: str, period: Period | None = None) -> pl.DataFrame:
        """The figure of each salon of the group one after the other, its name in a column `site` in front."""
        if not self.sites:
            raise WorkStopped(_no_such_site(None, self.sites))
        parts = [(site, self.only_site(site).figure(name, period)) for site in self.sites]
        return pl.concat([part.select(pl.lit(site).alias("site"), pl.exclude("site")) for site, part in parts])

    def rows(self, name: str, period: Period | None = None) -> pl.DataFrame:
        """The rows the figure adds up."""
        return filled(figure(name).rows, self._known(period, name))

    def figure_of_days(self, name: str, days: Period) -> pl.DataFrame:
        """The figure of exactly these days, beyond what the book covers too: all that is handed over is of them."""
        return self._told(name, filled(figure(name).function, self._known(None, name) | {"period": days}))

    def rows_of_days(self, name: str, days: Period) -> pl.DataFrame:
        """The rows that the figure of exactly these days adds up."""
        return filled(figure(name).rows, self._known(None, name) | {"period": days})

    @cached_property
    def together(self) -> dict[str, Any]:
        """Rows that several figures ask for, by the name they ask for them."""
        return brought_together(self.book.tables, self.settings)

    def not_in_sums(self, period: Period | None, tables: tuple[str, ...]) -> tuple[pl.DataFrame, Decimal]:
        """What keeps rows of the period out of its sums (records.not_in_sums), and the money received in it."""
        cut, book = self.cover if period is None else self.cover.cut(period), self.book
        causes = not_in_sums(book.set_aside, book.findings, cut, self.as_of, tables or SUMMED)
        return causes, received(book.tables["payments"], cut).item() or Decimal(0)

    @cached_property
    def _told_minutes(self) -> pl.DataFrame:
        tables = self.book.tables
        return without_made_minutes(tables["bookings"], tables["services"], self.book.made)

    def _told(self, name: str, answer: pl.DataFrame) -> pl.DataFrame:
        """The answer without what it only gives back (definitions.resting.CIRCULAR)."""
        return without_made_charges(answer, self.book.tables["bookings"], self.book.made) if name == PRICED else answer

    def _known(self, period: Period | None, name: str) -> dict[str, Any]:
        """What the figure of this name may ask for, by name; of durations, no lines whose minutes were made."""
        return {
            **self.book.tables,
            **self.together,
            **({"bookings": self._told_minutes} if name == TIMED else {}),
            "settings": self.settings,
            "period": self.cover if period is None else self.cover.cut(period),
            "cover": self.cover,
            "as_of": self.as_of,
        }


def _fingerprint(export: Export) -> str:
    """Worked out again only where the file was written to since it was last looked at; "" of what is not read."""
    there = export.path.stat()
    return _fingerprint_then(export, there.st_mtime_ns, there.st_size) if export.readable else ""


@lru_cache(maxsize=1024)
def _fingerprint_then(export: Export, _written_ns: int, _size_bytes: int) -> str:
    return export.fingerprinted().sha256


def _no_such_site(site: str | None, sites: list[str]) -> str:
    if not sites:
        return "The book names no salons of a group: no row has a site, so the figures are those of one salon."
    return f"The book has no site {site!r}; its sites are {', '.join(repr(name) for name in sites)}."


def open_salon(folder: Path, today: date) -> Salon:
    """The salon of this folder with its loaded book. Raises WorkStopped where one of them cannot be read."""
    settings, book = read_settings(folder), read_book(folder)
    tables = placed(with_made_status(book, today))
    ahead = summarise(completed_ahead(tables["bookings"], today))
    return Salon(folder, settings, replace(book, tables=tables, findings=pl.concat([book.findings, ahead])), today)


def with_made_status(book: Book, today: date) -> dict[str, pl.DataFrame]:
    """The tables; visits of exports that say nothing of their state are booked from today on, and happened before."""
    files = book.made.filter((pl.col("table") == "bookings") & (pl.col("column") == "status"))["file"]
    if files.is_empty():
        return book.tables
    ahead = pl.col("file").is_in(files.implode()) & (pl.col("starts_at").dt.date() >= today)
    status = pl.when(ahead).then(pl.lit("booked")).otherwise("status")
    return book.tables | {"bookings": book.tables["bookings"].with_columns(status.alias("status"))}


def need_month(salon: Salon, period: Period) -> Period:
    """The period, cut to the months the book covers. Raises WorkStopped where none of it is covered."""
    cut = salon.cover.cut(period)
    if not cut.empty:
        return cut
    if salon.cover.empty:
        raise WorkStopped("The book has no visits, payments or bowls yet; put exports in exports/ and load them.")
    months = salon.cover.months()
    raise WorkStopped(
        f"The book holds nothing from {period.start} up to {period.end}; it covers {months[0]} to {months[-1]}."
    )
