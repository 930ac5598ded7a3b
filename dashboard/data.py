"""What every page reads: the cached salon, its figures for the chosen month, site and chair.

Caches live in memory and are keyed by the salon's folder, the state of its book and settings, the day, the site
and the chair. No connection to the book is kept.
"""

from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property
from pathlib import Path

import streamlit as st

from analytics import sentences
from analytics.catalogue import figure
from analytics.intake.reading.find import find_exports
from analytics.periods import Period, add_months
from analytics.salon import Salon, open_salon
from analytics.settings import FILE_NAME, Settings, read_settings
from analytics.stops import WorkStopped
from analytics.storage.book import BOOK, Book
from analytics.storage.places import Places, places
from dashboard.access import shown
from dashboard.access.people import ACCOUNTANT, STYLIST, THE_OWNER, Reader
from dashboard.frames import Frame
from dashboard.page import Page

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
) -> Frame:
    salon = _salon(folder, at, today, site, chair)
    period = Period(*days) if days else None
    return salon.rows(name, period) if rows else salon.figure(name, period)


@st.cache_resource(max_entries=4, show_spinner=False)  # as one: a group may have more salons than are kept open
def _by_site(folder: str, at: Stamp, today: date, name: str) -> Frame:
    return _salon(folder, at, today, None, None).figure_by_site(name)


def _days(month: str | None) -> Days | None:
    return None if month is None else (Period.month(month).start, Period.month(month).end)


def by_month(name: str) -> bool:
    """Whether the figure's rows each belong to one month, so that a month is a part of all months."""
    return "month" in figure(name).result.columns and figure(name).takes("period")


@dataclass(frozen=True)
class Reading:
    """What one page reads: a folder on a day, for one month, site and chair (None: all of them), for one reader.

    hides_clients: no column that tells of a client is handed out. asked: the figures that were read so far.
    """

    folder: Path
    today: date
    month: str | None = None
    chair: str | None = None
    site: str | None = None
    hides_clients: bool = False
    reader: Reader = THE_OWNER
    asked: set[str] = field(default_factory=set, compare=False)

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
        return self.salon_for(ACCOUNTANT)

    def salon_for(self, *roles: str) -> Salon:
        """The same for readers with one of these roles; what is theirs of it is cut out in for_stylists."""
        shown.need(self.reader, *roles)
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

    def figure(self, name: str, month: str | None = None) -> Frame:
        """A figure of the chosen site and chair, for one month or for all.

        A figure by month is worked out once for all of them, and each month is cut from that.
        """
        if month and by_month(name):
            return self.figure(name).filter(month=month)
        return self._read(name, _days(month), rows=False)

    def rows(self, name: str, month: str | None = None) -> Frame:
        """The rows that the figure adds up."""
        return self._read(name, _days(month), rows=True)

    def year(self, name: str, rows: bool = False) -> Frame:
        """A figure (or its rows) over the twelve months up to and with the chosen one."""
        end = Period.month(self.month or "").end
        return self._read(name, (add_months(end, -12), end), rows)

    def _read(self, name: str, days: Days | None, rows: bool) -> Frame:
        shown.may_read(self.reader, name)
        self.asked.add(name)
        frame = _figure(str(self.folder), self.at, self.today, self.site, self.chair, name, days, rows)
        if self.hides_clients or self.reader.role == ACCOUNTANT:
            return shown.without_clients(frame)
        if self.reader.role != STYLIST:
            return frame
        frame = shown.without_money(frame)
        return frame if name in shown.OF_ALL_CLIENTS else self.of_theirs(frame)

    @cached_property
    def only_stylist(self) -> str | None:
        """The stylist whose clients alone are handed out; None where all are."""
        own = self.reader.role == STYLIST and self.settings.access.stylists_see == "own"
        return self.reader.stylist if own else None

    def of_theirs(self, frame: Frame) -> Frame:
        """The rows of the reader's own clients, those whose roots they did last; all, where nobody's are kept back."""
        if self.only_stylist is None:
            return frame
        roots = _figure(str(self.folder), self.at, self.today, self.site, None, "roots", None, False)
        return shown.of_clients(frame, roots.filter(stylist=self.only_stylist))

    def during(self, name: str, period: Period) -> Frame:
        """A figure over any days."""
        return self._read(name, (period.start, period.end), rows=False)

    @property
    def any_chair(self) -> "Reading":
        """The same of all chairs: roots and shelves belong to none."""
        return replace(self, chair=None)

    def by_site(self, name: str) -> Frame:
        """A figure of each salon of a group one after the other, the salon's name in front."""
        shown.need(self.reader)
        self.asked.add(name)
        return _by_site(str(self.folder), self.at, self.today, name)

    @property
    def kept_out(self) -> str:
        """What keeps rows of the chosen month out of its sums, for who may see its money; empty where nothing does."""
        if not self.loaded or self.month is None or self.reader.role == STYLIST:
            return ""
        causes, received = self._whole.not_in_sums(Period.month(self.month), ())
        return sentences.not_in_sums_sentence(causes, received, self._whole.settings)

    def client_places(self) -> Places:
        """Where in the folder data of clients lies, as it lies there now."""
        shown.need(self.reader)
        return places(self.folder)

    def resting_on(self, *names: str) -> list[str]:
        """What of these figures rests on what no export held, in sentences."""
        return sentences.resting_on(self._whole.book.made, names) if self.loaded else []

    @property
    def book(self) -> Book:
        """The loaded book: files, findings and rows set aside."""
        shown.need(self.reader)
        return self._whole.book


def reading(page: Page) -> Reading:
    """What the page shown now reads: the folder and day of the command line, the filters that the app keeps.

    What the accountant may see holds nothing of a client, whoever looks.
    """
    chosen: Reading = st.session_state["reading"]
    return replace(chosen, hides_clients="accountant" in page.readers)
