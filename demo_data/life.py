"""Three years of the diary, lived day by day, so that every export can show what was known on its own day."""

from collections import defaultdict
from collections.abc import Callable
from datetime import date, timedelta

from demo_data.days import (
    FIRST_DAY,
    LAST_DAY,
    WARM_UP_DAY,
    days_after,
    days_from,
    next_open_day,
    open_span,
    random_for,
    seasoned,
)
from demo_data.diary import Diary, Line, Visit, start_of, visit_minutes
from demo_data.menu import RESETS_ROOTS, service_price
from demo_data.people import Client
from demo_data.stylists import STYLISTS, Stylist
from demo_data.wishes import lead_days, next_wish, priced, services_for

# The one refund of the three years, and the one visit on a day the salon was closed (a planted fault).
REFUND_DAY = date(2025, 6, 13)
CLOSED_DAY_VISIT = date(2025, 11, 17)
# How far ahead the diary may be filled: nobody books next spring.
BOOK_AHEAD_DAYS = 84
OFFSETS = (0, 1, -1, 2, -2, 3, -3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14)


class Life:
    def __init__(self, clients: list[Client]) -> None:
        self.rng = random_for("life")
        self.diary = Diary(random_for("diary"))
        self.clients = clients
        self.visits: list[Visit] = []
        self.refund: Visit | None = None
        self.on_closed_day: Visit | None = None
        self.counter = 3100  # the diary was in use before the first export
        self._agenda: dict[date, list[tuple[str, Client | Visit, date]]] = defaultdict(list)
        for client in clients:
            self.plan_wish(client, client.first_wish, WARM_UP_DAY)

    def run(self, at_end_of_day: Callable[[date], None]) -> None:
        for day in days_from(WARM_UP_DAY, LAST_DAY):
            self._parties(day)
            # The list may grow while it is worked off: a wish for tomorrow can be voiced today.
            for what, who, wish in self._agenda[day]:
                self._happen(day, what, who, wish)
            for visit in sorted(self.diary.book(day).visits, key=lambda each: each.ends_at):
                if visit.status == "booked":
                    self._outcome(visit)
            self._exceptions(day)
            at_end_of_day(day)

    def _happen(self, day: date, what: str, who: Client | Visit, wish: date) -> None:
        if isinstance(who, Client):
            self.book(who, day, wish, services_for(self.rng, who))
        elif who.status == "booked" and who.day >= day:
            self._cancel(who, day) if what == "cancel" else self._move(who)

    def plan_wish(self, client: Client, wish: date, today: date) -> None:
        ask_on = max(today + timedelta(days=1), wish - timedelta(days=lead_days(self.rng, client)))
        if client.active:
            self._agenda[ask_on].append(("wish", client, max(wish, ask_on)))

    def _candidates(self, client: Client, today: date, wish: date) -> list[date]:
        days = [wish + timedelta(days=offset) for offset in OFFSETS]
        days = [day for day in days if today <= day <= today + timedelta(days=BOOK_AHEAD_DAYS)]
        suited = [day for day in days if day.weekday() in client.weekdays]
        return suited[:3] + [day for day in days if day not in suited[:3]]

    def _stylists(self, client: Client) -> list[Stylist]:
        others = [stylist for stylist in STYLISTS if stylist is not client.stylist]
        self.rng.shuffle(others)
        return [client.stylist] + (others if client.flexible or self.rng.random() < 0.25 else [])

    def book(self, client: Client, today: date, wish: date, services: tuple[str, ...]) -> None:
        """Take the nearest place to the wish; where all is full she asks again for a week later."""
        if client.active and self._take_place(client, today, wish, services) is None:
            self.plan_wish(client, wish + timedelta(days=7), today)

    def _take_place(self, client: Client, today: date, wish: date, services: tuple[str, ...]) -> Visit | None:
        for day in self._candidates(client, today, wish):
            for stylist in self._stylists(client):
                place = self.diary.find(client, stylist, day, services)
                if place is not None:
                    return self._enter(client, today, services, stylist=stylist, day=day, place=place)
        return None

    def _enter(
        self,
        client: Client,
        today: date,
        services: tuple[str, ...],
        *,
        stylist: Stylist,
        day: date,
        place: tuple[int, int],
    ) -> Visit:
        self.counter += 1
        visit = Visit(
            self.counter,
            client,
            client.id_on(today),
            stylist,
            place[1],
            start_of(day, place[0]),
            visit_minutes(services),
            today,
            priced(self.rng, services, day),
        )
        self.diary.enter(visit)
        self.visits.append(visit)
        self._draw_fate(visit, today)
        return visit

    def _draw_fate(self, visit: Visit, today: date) -> None:
        rng, ahead = self.rng, (visit.day - today).days
        if rng.random() < visit.client.no_show_chance:
            visit.fate = "no_show"
        elif rng.random() < visit.client.cancel_chance:
            before = rng.choice((0, 0, 1)) if rng.random() < 0.4 else rng.randint(0, max(ahead, 1))
            self._agenda[max(visit.day - timedelta(days=before), today + timedelta(days=1))].append(
                ("cancel", visit, today)
            )
        elif ahead > 8 and rng.random() < 0.035:
            self._agenda[today + timedelta(days=rng.randint(1, ahead - 1))].append(("move", visit, today))

    def _cancel(self, visit: Visit, day: date) -> None:
        visit.status = "cancelled"
        self.diary.remove(visit)
        self._after_missing(visit, day)

    def _after_missing(self, visit: Visit, today: date) -> None:
        if visit.extras:
            return
        if self.rng.random() < 0.03:
            visit.client.active = False
        self.plan_wish(visit.client, visit.day + timedelta(days=self.rng.randint(2, 12)), today)

    def _move(self, visit: Visit) -> None:
        """The same booking on another day: later exports show it elsewhere than earlier ones did."""
        services = tuple(line.service_id for line in visit.lines)
        for shift in (7, 6, 8, 3, 14, 4, 9):
            new_day = visit.day + timedelta(days=shift)
            place = self.diary.find(visit.client, visit.stylist, new_day, services)
            if place is not None:
                self.diary.remove(visit)
                visit.starts_at, visit.chair = start_of(new_day, place[0]), place[1]
                for line in visit.lines:
                    line.price_cents = service_price(line.service_id, new_day)
                self.diary.enter(visit)
                return

    def _outcome(self, visit: Visit) -> None:
        if visit.fate == "no_show":
            visit.status = "no_show"
            self._after_missing(visit, visit.day)
            return
        visit.status = "completed"
        visit.client.visit_days.append(visit.day)
        self._as_it_went(visit)
        self._measure(visit)
        if self.rng.random() < 0.22:
            visit.lines[0].tip_cents = self.rng.choice((100, 150, 200, 200, 250, 300, 500, 500, 1000))
        if not visit.extras:
            self._leave(visit)

    def _as_it_went(self, visit: Visit) -> None:
        """A finish left out, ten minutes early or late; closing time is passed a little when it must be."""
        rng = self.rng
        if len(visit.lines) > 1 and visit.lines[-1].service_id in ("S12", "S11", "S14") and rng.random() < 0.04:
            dropped = visit.lines.pop()
            self.diary.set_minutes(visit, visit.minutes - visit_minutes((dropped.service_id,)))
        hours = open_span(visit.day)
        ends = visit.ends_at.hour * 60 + visit.ends_at.minute
        if hours is not None and ends == hours[1]:
            change = rng.choice((10, 15, 20)) if rng.random() < 0.12 else 0
        else:
            change = rng.choice((-10, -5, -5, 0, 0, 0, 0, 5, 10))
            change = min(change, hours[1] - ends) if hours is not None else change
        if visit.minutes + change >= 10:
            self.diary.set_minutes(visit, visit.minutes + change)

    def _measure(self, visit: Visit) -> None:
        client = visit.client
        line = next((each for each in visit.lines if each.service_id in RESETS_ROOTS), None)
        if line is None:
            return
        since = client.last_roots_on
        if client.measured and since is not None and self.rng.random() < 0.6:
            grown = client.growth_mm_per_day * (visit.day - since).days + self.rng.gauss(0, 1.5)
            line.regrowth_mm = f"{max(round(grown * 2) / 2, 0):g}"
        client.last_roots_on = visit.day

    def _leave(self, visit: Visit) -> None:
        """What a client does on her way out: book again, mean to call, or never come back and say nothing."""
        rng, client = self.rng, visit.client
        first_time = client.is_new and len(client.visit_days) == 1
        if rng.random() < (0.22 if first_time else client.stop_chance):
            client.active = False
            return
        if client.rebook_weeks and rng.random() < 0.9:
            wish = next_open_day(visit.day + timedelta(weeks=client.rebook_weeks))
            later = seasoned(wish, rng)
            # In a thin season even those who always book ahead may put it off, and call when they are back.
            if later > wish and rng.random() < 0.7:
                self.plan_wish(client, later, visit.day)
            else:
                self.book(client, visit.day, wish, services_for(rng, client))
            return
        self.plan_wish(client, next_wish(rng, client, visit.day), visit.day)

    def _parties(self, day: date) -> None:
        """December and the weeks before summer bring visits beside the usual rhythm."""
        festive = (day.month == 12 and 2 <= day.day <= 20) or day.month in (5, 6)
        chance = 0.9 if day.month == 12 else 0.45
        if not festive or self.rng.random() > chance:
            return
        guests = [each for each in self.clients if each.active and each.visit_days and each.rhythm in ("roots", "cut")]
        if guests:
            visit = self._take_place(
                self.rng.choice(guests),
                day,
                days_after(day, self.rng.randint(3, 10)),
                (self.rng.choice(("S13", "S11")),),
            )
            if visit is not None:
                visit.extras.append("party")

    def _exceptions(self, day: date) -> None:
        if day == REFUND_DAY:
            self.refund = self._refund(day)
        if day == CLOSED_DAY_VISIT:
            self.on_closed_day = self._closed_day_visit(day)

    def _add(self, like: Visit, day: date, minute: int, minutes: int, line: Line) -> Visit:
        self.counter += 1
        visit = Visit(
            self.counter,
            like.client,
            like.client_id,
            like.stylist,
            like.chair,
            start_of(day, minute),
            minutes,
            day,
            [line],
            status="completed",
            extras=["exception"],
        )
        self.visits.append(visit)
        return visit

    def _refund(self, day: date) -> Visit:
        spoiled = next(
            visit
            for visit in reversed(self.visits)
            if visit.status == "completed" and FIRST_DAY < visit.day < day and visit.lines[0].service_id == "S05"
        )
        line = Line("S05", -spoiled.lines[0].charged_cents)
        return self._add(spoiled, day, 11 * 60 + 20, 0, line)

    def _closed_day_visit(self, day: date) -> Visit:
        like = next(
            visit for visit in reversed(self.visits) if visit.status == "completed" and visit.client.rhythm == "cut"
        )
        return self._add(like, day, 10 * 60, 40, Line("S07", service_price("S07", day)))
