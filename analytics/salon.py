"""open_salon(folder): the only wiring of settings, book and figures."""

import importlib
import inspect
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from pathlib import Path

import polars as pl

from analytics.book import Book, read_book
from analytics.intake.find import find_exports
from analytics.periods import Period
from analytics.records.cover import covered
from analytics.settings import Settings, read_settings
from analytics.stops import WorkStopped

NOTHING = Period(date(1970, 1, 1), date(1970, 1, 1))


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
        return covered(tables["bookings"], tables["payments"], tables["sales"], tables["product_log"]) or NOTHING

    @property
    def stale(self) -> bool:
        """True where a file in exports/ is new, gone or of another size than when the book was made."""
        try:
            now = {(export.name, export.size_bytes) for export in find_exports(self.folder)}
        except WorkStopped:
            return True
        return now != set(self.book.files.select("export", "size_bytes").iter_rows())

    def only_chair(self, chair: str) -> "Salon":
        """The salon as if it had this chair alone: its lines, and what was mixed, sold and paid in their visits."""
        bookings = self.book.tables["bookings"].filter(pl.col("chair") == chair)
        visits = bookings.select("site", "booking_id").unique()
        narrowed = {
            name: self.book.tables[name].join(visits, on=["site", "booking_id"], how="semi")
            for name in ("product_log", "payments", "sales")
        }
        salon = self.settings.salon.model_copy(update={"chairs": (chair,)})
        return replace(
            self,
            settings=self.settings.model_copy(update={"salon": salon}),
            book=replace(self.book, tables={**self.book.tables, **narrowed, "bookings": bookings}),
        )

    def figure(self, name: str, period: Period | None = None) -> pl.DataFrame:
        """The frame of the figure of this name for the days of `period` within the months the book covers."""
        answer: pl.DataFrame = self._call(name, name, period)
        return answer

    def rows(self, name: str, period: Period | None = None) -> pl.DataFrame:
        """The rows the figure adds up."""
        answer: pl.DataFrame = self._call(name, f"{name}_rows", period)
        return answer

    def _call(self, module: str, function: str, period: Period | None) -> pl.DataFrame:
        work = getattr(importlib.import_module(f"analytics.figures.{module}"), function)
        known = {
            **self.book.tables,
            "settings": self.settings,
            "period": self.cover if period is None else self.cover.cut(period),
            "cover": self.cover,
            "as_of": self.as_of,
        }
        answer: pl.DataFrame = work(**{name: known[name] for name in inspect.signature(work).parameters})
        return answer


def open_salon(folder: Path, today: date) -> Salon:
    """The salon of this folder with its loaded book. Raises WorkStopped where one of them cannot be read."""
    settings = read_settings(folder)
    return Salon(folder, settings, read_book(folder), today)


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
