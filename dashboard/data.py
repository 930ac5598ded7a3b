"""What the pages read: the cached salon, its figures for the chosen month, site and chair, and nothing else.

Caches live in memory and are keyed by the salon's folder, the state of its book and settings, the day, the site
and the chair. No connection to the book is kept.
"""

from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any

import polars as pl
import streamlit as st

from analytics import sentences
from analytics.catalogue import figure
from analytics.definitions.findings import CATALOGUE
from analytics.definitions.rows import Row
from analytics.definitions.vocabulary import KINDS, STATES
from analytics.intake.reading.find import find_exports
from analytics.periods import Period, add_months, month_name
from analytics.records.chairs.price_trial import tried_price
from analytics.salon import Salon, open_salon
from analytics.sentences import stock as of_stock
from analytics.settings import FILE_NAME, Settings, read_settings
from analytics.stops import WorkStopped
from analytics.storage.book import BOOK, Book
from dashboard.access import shown
from dashboard.access.people import ACCOUNTANT, STYLIST, THE_OWNER, Reader
from dashboard.page import Page

MOST_BARS = 12

Stamp = tuple[int, ...]
Days = tuple[date, date]


def stamp(folder: Path) -> Stamp:
    """Changes whenever the book or the settings are replaced."""
    states = [path.stat() for name in (BOOK, FILE_NAME) if (path := folder / name).is_file()]
    return tuple(number for state in states for number in (state.st_mtime_ns, state.st_size))


@st.cache_resource(max_entries=8, show_spinner=False)
def _salon(folder: str, at: Stamp, today: date, site: str | None, chair: str | None) -> Salon:
    if chair is not None:
        return _salon(folder, at, today, site, None).only_chair(chair)
    if site is not None:
        return _salon(folder, at, today, None, None).only_site(site)
    return open_salon(Path(folder), today)


@st.cache_resource(max_entries=64, show_spinner=False)  # frames are never changed, so no copy is made for each reader
def _figure(  # noqa: PLR0917
    folder: str, at: Stamp, today: date, site: str | None, chair: str | None, name: str, days: Days | None, rows: bool
) -> pl.DataFrame:
    salon = _salon(folder, at, today, site, chair)
    period = Period(*days) if days else None
    return salon.rows(name, period) if rows else salon.figure(name, period)


@st.cache_resource(max_entries=4, show_spinner=False)  # as one: a group may have more salons than are kept open
def _by_site(folder: str, at: Stamp, today: date, name: str) -> pl.DataFrame:
    return _salon(folder, at, today, None, None).figure_by_site(name)


def _days(month: str | None) -> Days | None:
    return None if month is None else (Period.month(month).start, Period.month(month).end)


def by_month(name: str) -> bool:
    """Whether the figure's rows each belong to one month, so that a month is a part of all months."""
    return "month" in figure(name).result.columns and figure(name).takes("period")


@dataclass(frozen=True)
class Reading:
    """What one page reads: a folder on a day, for one month, site and chair (None: all of them), for one reader.

    hides_clients: no column that tells of a client is handed out.
    """

    folder: Path
    today: date
    month: str | None = None
    chair: str | None = None
    site: str | None = None
    hides_clients: bool = False
    reader: Reader = THE_OWNER

    @cached_property
    def at(self) -> Stamp:
        return stamp(self.folder)

    def _open(self, site: str | None, chair: str | None) -> Salon:
        return _salon(str(self.folder), self.at, self.today, site, chair)

    @cached_property
    def _whole(self) -> Salon:
        return self._open(None, None)

    @property
    def salon(self) -> Salon:
        """The salon as the chosen site and chair see it, whole: for who may see its money."""
        shown.need(self.reader, ACCOUNTANT)
        return self._open(self.site, self.chair)

    @property
    def settings(self) -> Settings:
        """The settings of the whole salon."""
        return self._whole.settings if self.loaded else read_settings(self.folder)

    @cached_property
    def loaded(self) -> bool:
        """Whether there is a book that can be read."""
        try:
            return self._whole is not None
        except WorkStopped:
            return False

    @cached_property
    def months(self) -> list[str]:
        """Every month the book covers, oldest first."""
        return self._whole.cover.months()

    @property
    def sites(self) -> list[str]:
        """The salons of a group; none where there is one salon."""
        return self._whole.sites

    @property
    def stale(self) -> bool:
        """True where the exports are not those the book was made from, or there is no book of them."""
        return self._whole.stale if self.loaded else bool(self.exports)

    @property
    def exports(self) -> list[Path]:
        """The files in exports/, as they lie there now; none where loading would not find them either."""
        try:
            return list(dict.fromkeys(export.path for export in find_exports(self.folder)))
        except WorkStopped:
            return []

    @property
    def chairs(self) -> list[str]:
        """Every chair of the settings and of the bookings, of the chosen site."""
        return self._open(self.site, None).chairs

    @property
    def last_whole_month(self) -> str | None:
        """The last month that is over; where none is, the last one covered."""
        whole = [month for month in self.months if not self.is_part(month)]
        return next(reversed(whole or self.months), None)

    def is_part(self, month: str) -> bool:
        """True where the month is not over yet."""
        return self._whole.cover.is_part(month, self.today)

    def figure(self, name: str, month: str | None = None) -> pl.DataFrame:
        """A figure of the chosen site and chair, for one month or for all.

        A figure by month is worked out once for all of them, and each month is cut from that.
        """
        if month and by_month(name):
            return self.figure(name).filter(pl.col("month") == month)
        return self._read(name, _days(month), rows=False)

    def rows(self, name: str, month: str | None = None) -> pl.DataFrame:
        """The rows that the figure adds up."""
        return self._read(name, _days(month), rows=True)

    def year(self, name: str, rows: bool = False) -> pl.DataFrame:
        """A figure (or its rows) over the twelve months up to and with the chosen one."""
        end = Period.month(self.month or "").end
        return self._read(name, (add_months(end, -12), end), rows)

    def _read(self, name: str, days: Days | None, rows: bool) -> pl.DataFrame:
        shown.may_read(self.reader, name)
        frame = _figure(str(self.folder), self.at, self.today, self.site, self.chair, name, days, rows)
        if self.hides_clients or self.reader.role == ACCOUNTANT:
            return shown.without_clients(frame)
        if self.reader.role != STYLIST:
            return frame
        frame = shown.without_money(frame)
        return frame if self.only_stylist is None or name in shown.OF_ALL_CLIENTS else self._of_theirs(frame)

    @cached_property
    def only_stylist(self) -> str | None:
        """The stylist whose clients alone are handed out; None where all are."""
        own = self.reader.role == STYLIST and self.settings.access.stylists_see == "own"
        return self.reader.stylist if own else None

    def _of_theirs(self, frame: pl.DataFrame) -> pl.DataFrame:
        """The rows of the reader's own clients: those whose roots they did last."""
        roots = _figure(str(self.folder), self.at, self.today, self.site, None, "roots", None, False)
        return shown.of_clients(frame, roots.filter(pl.col("stylist") == self.only_stylist))

    def contacts(self) -> pl.DataFrame:
        """The table of clients, with phone and mail, as far as the reader may see them."""
        shown.need(self.reader, STYLIST)
        clients = self._open(self.site, None).book.tables["clients"]
        return clients if self.only_stylist is None else self._of_theirs(clients)

    def calendar(self, stylist: str | None) -> bytes:
        """The days that make sense as a calendar without names, of all clients or a stylist's."""
        from analytics.handover.roots import root_calendar

        shown.need(self.reader, STYLIST)
        return root_calendar(self._open(self.site, self.chair), names=False, stylist=self.only_stylist or stylist)

    def by_site(self) -> dict[str, list[dict[str, Any]]]:
        """The first figures of the month for each salon of a group; a salon that had no such month is left out."""
        shown.need(self.reader)
        frame = _by_site(str(self.folder), self.at, self.today, "month")
        found = {site: sentences.first_figures(frame.filter(site=site), self.month or "") for site in self.sites}
        return {site: rows for site, rows in found.items() if rows}

    def month_on_paper(self) -> bytes:
        """The month's statement as a PDF, for the chosen site and chair."""
        from analytics.handover.month import statement

        return statement(self.salon, Period.month(self.month or ""))

    def split(self, split: str) -> pl.DataFrame:
        """The figure `economics` of the month by service, kind or chair, as it was before, most chair hours first."""
        rows = self.compared("economics", ["split", "item_id"], "net_per_chair_hour").filter(split=split)
        named = rows.with_columns(pl.col("item").replace(KINDS)) if split == "kind" else rows
        return named.sort("chair_hours", "item_id", descending=[True, False])

    def chairs_taken(self) -> list[dict[str, Any]]:
        """The figure `occupancy` of the month as it was before, with what the empty hours of each chair cost."""
        empty = self.figure("economics", self.month).filter(split="chair")
        costs = empty.select("empty_hours", "empty_cost", chair="item_id")
        return self.compared("occupancy", "chair", "occupied_share").join(costs, on="chair", how="left").to_dicts()

    def timed(self) -> list[dict[str, Any]]:
        """The figure `durations` over the year, the services furthest from the menu first."""
        far = pl.col("median_over_menu").abs()
        return self.year("durations").sort(far, "service_id", descending=[True, False], nulls_last=True).to_dicts()

    def priced(self) -> list[dict[str, Any]]:
        """The figure `prices`, what brings least for its time first."""
        return self.year("prices").sort("after_product_per_chair_hour", "service_id", nulls_last=True).to_dicts()

    def trial(self, service_id: str, tried: sentences.TriedPrice) -> Row:
        """A month of the service at another price, in other minutes, with some clients gone, beside now."""
        return tried_price(self.year("prices"), service_id, tried.price, tried.minutes, tried.away)

    def compared(self, name: str, key: str | list[str], column: str) -> pl.DataFrame:
        """The figure of the month, with one column as it was the month before and a year before."""
        first = Period.month(self.month or "").start
        frame = self.figure(name, self.month)
        for label, back in (("previous", -1), ("year_ago", -12)):
            then = self.figure(name, month_name(add_months(first, back))).select(
                pl.col(key), pl.col(column).alias(label)
            )
            frame = frame.join(then, on=key, how="left", nulls_equal=True)
        return frame

    def in_words(self, roots: pl.DataFrame) -> pl.DataFrame:
        """The same clients, with their states as people say them."""
        return roots.with_columns(pl.col("state").replace(STATES))

    def left_by(self, split: str) -> list[dict[str, Any]]:
        """The products, services or stylists of the month by what was likely left of theirs, dearest first."""
        waste = self.figure("waste").filter((pl.col("month") == self.month) & (pl.col("split") == split))
        known = waste.filter(pl.col("left_cost_likely") > 0)
        return known.sort("left_cost_likely", "item", descending=[True, False]).head(MOST_BARS).to_dicts()

    def left_months(self) -> pl.DataFrame:
        """What was likely left in all bowls, month by month, with what is usual."""
        trend = {"value": "left_cost_likely", "usual_low": "usual_cost_low", "usual_high": "usual_cost_high"}
        return self.figure("waste").filter(split="all").with_columns(**trend)

    def card(self) -> bytes:
        """The mixing card as a PDF, which names no client and no money."""
        from analytics.handover.mixing import card

        shown.need(self.reader, STYLIST)
        return card(self._open(self.site, self.chair))

    def shelf(self, name: str, rows: bool = False) -> pl.DataFrame:
        """A figure of the shelves as they are today (or its rows): they have no chair."""
        return replace(self, chair=None)._read(name, None, rows)

    def unseen(self) -> list[dict[str, Any]]:
        """What was missing from count to count, dearest first."""
        counted = of_stock.between_counts(self.shelf("stock")).filter(pl.col("unexplained_cost") > 0)
        return counted.sort("unexplained_cost", "product_id", descending=[True, False]).head(MOST_BARS).to_dicts()

    def orders(self) -> list[dict[str, Any]]:
        """What to order, what runs out first on top."""
        return of_stock.orders(self.shelf("reorder")).to_dicts()

    def shelf_now(self) -> pl.DataFrame:
        """Every product on the shelf or in use, what runs out first on top."""
        return self.shelf("reorder").sort("runs_out_on", "product_id", nulls_last=True)

    def sold(self) -> list[dict[str, Any]]:
        """Retail of the month, what brought most on top."""
        sold = self.figure("retail", self.month)
        return sold.sort("net", "product_id", descending=[True, False]).head(MOST_BARS).to_dicts()

    @property
    def book(self) -> Book:
        """The loaded book: files, findings and rows set aside."""
        shown.need(self.reader)
        return self._whole.book

    def causes(self) -> list[dict[str, Any]]:
        """The findings, those of one cause as one, with how many rows and files; what was set aside comes first."""
        aside = [code for code, fault in CATALOGUE.items() if fault.sets_aside]
        return (
            self.book.findings.group_by("code", "column", maintain_order=True)
            .agg(pl.col("message", "what_to_do").first(), pl.col("count").sum(), files=pl.col("file").n_unique())
            .sort(pl.col("code").is_in(aside), descending=True, maintain_order=True)
            .to_dicts()
        )

    def by_table(self) -> list[dict[str, Any]]:
        """Row accounting by table."""
        counts = pl.col("rows_read", "rows_used", "repeats", "superseded", "set_aside")
        return self.book.files.group_by("table").agg(counts.sum()).sort("rows_read", descending=True).to_dicts()

    def roots(self, stylist: str | None = None) -> pl.DataFrame:
        """Everybody's roots, whatever chair they sat in, or those a stylist last did."""
        everybody = replace(self, chair=None).figure("roots")
        return everybody if stylist is None else everybody.filter(pl.col("stylist") == stylist)

    def stylists(self) -> list[str]:
        """Who last did anybody's roots."""
        return sorted(self.roots()["stylist"].drop_nulls().unique())


def reading(page: Page) -> Reading:
    """What the page shown now reads: the folder and day of the command line, the filters that the app keeps.

    What the accountant may see holds nothing of a client, whoever looks.
    """
    chosen: Reading = st.session_state["reading"]
    return replace(chosen, hides_clients="accountant" in page.readers)
