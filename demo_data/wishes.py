"""What a client asks for when she books, and when she asks for it again."""

from datetime import date
from random import Random

from demo_data.days import days_after, seasoned
from demo_data.diary import Line
from demo_data.menu import service_price, to_half_euro
from demo_data.people import Client


def _roots(rng: Random, client: Client) -> list[str]:
    if rng.random() < 0.06:
        return ["S02", "S12"]
    chosen = ["S01"]
    if rng.random() < 0.06:
        chosen.append("S04")
    if rng.random() < 0.13:
        chosen.append("S14")
    chosen.append("S07" if rng.random() < client.with_cut else "S12")
    if chosen[-1] == "S07" and rng.random() < 0.55:
        chosen.append("S12")
    return chosen


def _all_over(rng: Random, client: Client) -> list[str]:
    if rng.random() < 0.12:
        return ["S07"]
    chosen = ["S03"]
    if rng.random() < 0.15:
        chosen.append("S14")
    if rng.random() < client.with_cut + 0.1:
        chosen.append("S07")
    if rng.random() < 0.75:
        chosen.append("S12")
    return chosen


def _foils(rng: Random, client: Client) -> list[str]:
    if rng.random() < 0.22:
        return ["S06", "S12"] if rng.random() < 0.35 else ["S07", "S11"]
    chosen = ["S05" if rng.random() < (0.85 if client.full_head else 0.08) else "S04"]
    if rng.random() < 0.78:
        chosen.append("S06")
    if rng.random() < 0.20:
        chosen.append("S15")
    if rng.random() < client.with_cut + 0.1:
        chosen.append("S07")
    chosen.append("S12")
    return chosen


def _cut(rng: Random, _client: Client) -> list[str]:
    if rng.random() < 0.08:
        return ["S10"]
    chosen = ["S07"]
    if rng.random() < 0.35:
        chosen.append("S11")
    if rng.random() < 0.10:
        chosen.insert(0, "S14")
    if rng.random() < 0.04:
        chosen.append("S16")
    return chosen


def services_for(rng: Random, client: Client) -> tuple[str, ...]:
    if client.rhythm == "short_cut":
        return ("S08", "S18") if rng.random() < 0.2 else ("S08",)
    if client.rhythm == "child":
        return ("S09",)
    if client.rhythm == "care":
        return (rng.choices(("S11", "S16"), (75, 25))[0],)
    chosen = {"roots": _roots, "all_over": _all_over, "foils": _foils, "cut": _cut}[client.rhythm](rng, client)
    if rng.random() < 0.05:
        chosen.append("S17")
    return tuple(chosen)


def priced(rng: Random, services: tuple[str, ...], day: date) -> list[Line]:
    lines = [Line(each, service_price(each, day)) for each in services]
    if rng.random() < 0.045:
        line = max(lines, key=lambda each: each.price_cents)
        line.discount_cents = to_half_euro(line.price_cents * rng.choice((0.1, 0.1, 0.15, 0.2)))
    return lines


def next_wish(rng: Random, client: Client, day: date) -> date:
    """The next day she would like, from her own gap with its own spread; now and then one visit is skipped."""
    gap = client.gap_days * rng.lognormvariate(0.0, client.gap_spread)
    if rng.random() < 0.05:
        gap *= rng.uniform(1.7, 2.4)
    return seasoned(days_after(day, max(gap, 12)), rng)


def lead_days(rng: Random, client: Client) -> int:
    """How long ahead she calls: walk-ins for a short cut, weeks for foils."""
    longest = {"short_cut": 5, "child": 8, "cut": 12, "care": 8}.get(client.rhythm, 20)
    return int(rng.triangular(0, longest, longest * 0.3))
