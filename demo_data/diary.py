"""The diary: which chair and which stylist is free, to five minutes."""

from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from functools import cache
from random import Random

from demo_data.days import CHAIRS, at_minute, open_span
from demo_data.menu import SERVICES
from demo_data.people import Client
from demo_data.stylists import STYLISTS, Stylist, at_work

STEP_MIN = 5


@dataclass
class Line:
    service_id: str
    price_cents: int
    discount_cents: int = 0
    tip_cents: int = 0
    regrowth_mm: str = ""

    @property
    def charged_cents(self) -> int:
        return self.price_cents - self.discount_cents


@dataclass
class Visit:
    number: int
    client: Client
    client_id: str
    stylist: Stylist
    chair: int
    starts_at: datetime
    minutes: int
    booked_on: date
    lines: list[Line]
    status: str = "booked"
    fate: str = "come"
    extras: list[str] = field(default_factory=list)

    @property
    def booking_id(self) -> str:
        return f"B{self.number:05d}"

    @property
    def day(self) -> date:
        return self.starts_at.date()

    @property
    def ends_at(self) -> datetime:
        return self.starts_at + timedelta(minutes=self.minutes)

    @property
    def charged_cents(self) -> int:
        return sum(line.charged_cents for line in self.lines)

    @property
    def tip_cents(self) -> int:
        return sum(line.tip_cents for line in self.lines)


def span_bits(start_min: int, minutes: int) -> int:
    """A stretch of the day as a bit per five minutes, so that 'is it free' is one comparison."""
    return ((1 << -(-minutes // STEP_MIN)) - 1) << (start_min // STEP_MIN)


def visit_minutes(service_ids: tuple[str, ...]) -> int:
    return sum(SERVICES[each].hands_on_min + SERVICES[each].processing_min for each in service_ids)


@cache
def hands_bits(service_ids: tuple[str, ...]) -> int:
    """When the stylist is busy within a visit: not while colour develops, which is when a cut fits next door."""
    bits, at = 0, 0
    for service_id in service_ids:
        service = SERVICES[service_id]
        before = service.hands_on_min
        after = 0
        if service.processing_min >= 10:
            after = 10 if service.hands_on_min >= 30 else 5
            before -= after
        bits |= span_bits(at, before) if before else 0
        at += before + service.processing_min
        bits |= span_bits(at, after) if after else 0
        at += after
    return bits


@dataclass
class DayBook:
    chairs: list[int]
    stylists: dict[str, int]
    developing: dict[str, int]
    visits: list[Visit] = field(default_factory=list)


class Diary:
    def __init__(self, rng: Random) -> None:
        self._rng = rng
        self._days: dict[date, DayBook] = {}

    def book(self, day: date) -> DayBook:
        if day not in self._days:
            breaks = {each.name: span_bits(self._rng.randrange(12 * 60, 14 * 60, 15), 30) for each in STYLISTS}
            self._days[day] = DayBook([0] * len(CHAIRS), breaks, {each.name: 0 for each in STYLISTS})
        return self._days[day]

    def _chair(self, page: DayBook, stylist: Stylist, bits: int) -> int | None:
        order = [stylist.home_chair] + [chair for chair in range(len(CHAIRS)) if chair != stylist.home_chair]
        return next((chair for chair in order if not page.chairs[chair] & bits), None)

    def find(self, client: Client, stylist: Stylist, day: date, services: tuple[str, ...]) -> tuple[int, int] | None:
        """The free start (minute of the day) that suits this client best, and its chair."""
        hours = open_span(day)
        if hours is None or not at_work(stylist, day):
            return None
        page, minutes, hands = self.book(day), visit_minutes(services), hands_bits(services)
        wanted = 17 * 60 if client.evening and day.weekday() == 3 else client.minute
        best: tuple[float, int, int] | None = None
        for start in range(hours[0], hours[1] - minutes + 1, 15):
            if page.stylists[stylist.name] & (hands << (start // STEP_MIN)):
                continue
            chair = self._chair(page, stylist, span_bits(start, minutes))
            if chair is None:
                continue
            # A short visit is gladly put where the stylist would only be waiting for a colour.
            waiting = bool(page.developing[stylist.name] & span_bits(start, minutes))
            score = abs(start - wanted) + self._rng.random() * 45 - (120 if waiting else 0)
            if best is None or score < best[0]:
                best = (score, start, chair)
        return None if best is None else best[1:]

    def enter(self, visit: Visit) -> None:
        self._mark(visit, True)
        self.book(visit.day).visits.append(visit)

    def remove(self, visit: Visit) -> None:
        """Free the chair; a cancelled visit stays on the page, a moved one leaves it."""
        self._mark(visit, False)
        if visit.status != "cancelled":
            self.book(visit.day).visits.remove(visit)

    def _mark(self, visit: Visit, taken: bool) -> None:
        page = self.book(visit.day)
        start = visit.starts_at.hour * 60 + visit.starts_at.minute
        chair_bits = span_bits(start, visit.minutes)
        services = tuple(line.service_id for line in visit.lines)
        hands = hands_bits(services) << (start // STEP_MIN)
        name = visit.stylist.name
        if taken:
            page.chairs[visit.chair] |= chair_bits
            page.stylists[name] |= hands
            page.developing[name] |= chair_bits & ~hands
        else:
            page.chairs[visit.chair] &= ~chair_bits
            page.stylists[name] &= ~hands
            page.developing[name] &= ~(chair_bits & ~hands)

    def set_minutes(self, visit: Visit, minutes: int) -> bool:
        """Let a visit end earlier or later than planned, where nobody else is in the chair by then."""
        page = self.book(visit.day)
        start = visit.starts_at.hour * 60 + visit.starts_at.minute
        own = span_bits(start, visit.minutes)
        new = span_bits(start, minutes)
        if (page.chairs[visit.chair] & ~own) & new:
            return False
        page.chairs[visit.chair] = (page.chairs[visit.chair] & ~own) | new
        visit.minutes = minutes
        return True


def start_of(day: date, minute: int) -> datetime:
    return at_minute(day, minute)
