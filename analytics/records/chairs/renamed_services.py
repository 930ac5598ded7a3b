"""Services that seem to be one under two names, each pair with what speaks for it; and a menu on which they are one.

Nothing is joined by itself: whoever wrote the menu says of each pair whether it is one service. WORDS_BETWEEN are
general words of six languages.
"""

import unicodedata
from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from difflib import SequenceMatcher
from itertools import permutations
from typing import Any, NamedTuple

import polars as pl

from analytics.records.chairs.validity import latest_names

RENAMED, TWO_WAYS = "renamed", "written in two ways"
FEWEST_LINES = 5
STRAY = 0.05  # share of lines that may still stand under the old name once there is a new one
LONGEST_GAP_DAYS, SOON_DAYS = 60, 14
PRICE_NEAR, MINUTES_NEAR, SAME_PRICE = 0.25, 0.25, 0.1
NEARBY_LINES = 20  # from which the last price of the one and the first of the other are told
FEWEST_CLIENTS, WENT_ON = 3, 0.4
ALIKE, FEWEST_LETTERS = 0.8, 5
WORDS_BETWEEN = {"and", "en", "und", "et", "e", "y", "with", "met", "mit", "avec", "con", "plus", "incl"}


class Used(NamedTuple):
    """What the diary says of one service. clients: by client the last day of it."""

    service_id: str
    service: str
    kind: str
    minutes: float
    days: list[date]
    prices: list[Decimal]
    clients: dict[tuple[str, str], date]


def renamed_pairs(bookings: pl.DataFrame, services: pl.DataFrame) -> list[dict[str, Any]]:
    """One dict per pair, with the columns of the figure renamed_services; a service goes on as one other at most."""
    lines = bookings.filter(pl.col("status").is_in(["completed", "booked"])).sort("starts_at", "booking_id", "line")
    last_visit = dict[tuple[str, str], date]()
    for site, client, day in lines.select("site", "client_id", pl.col("starts_at").dt.date()).iter_rows():
        last_visit[site, client] = day
    found = [pair for one, other in permutations(_used(lines, services), 2) if (pair := _pair(one, other, last_visit))]
    found.sort(key=lambda pair: (-pair["_speaks"], pair["service_id"], pair["goes_on_as_id"]))
    kept: dict[str, dict[str, Any]] = {}
    for pair in found:
        old, new = pair["service_id"], pair["goes_on_as_id"]
        if (
            old not in kept
            and new not in {one["goes_on_as_id"] for one in kept.values()}
            and not _leads(new, old, kept)
        ):
            kept[old] = pair
    return list(kept.values())


def _leads(start: str, end: str, kept: Mapping[str, Mapping[str, Any]]) -> bool:
    """Whether one service goes on as the other already, by way of others too."""
    while start != end and start in kept:
        start = str(kept[start]["goes_on_as_id"])
    return start == end


def joined_menu(services: pl.DataFrame, pairs: Iterable[tuple[str, str]], first: Mapping[str, date]) -> pl.DataFrame:
    """The menu on which each pair (old and new service_id) is one service under the old number: by its new name from
    the day on which that first stands in the diary (`first`, by service_id), and by the old one before."""
    old_of = {new: old for old, new in pairs}
    ids, begins = pl.col("service_id"), _days(first)
    ends = _days({old: first[new] for new, old in old_of.items() if new in first})
    past = (pl.col("valid_from") >= ends).fill_null(False)
    began = pl.when(ids.is_in(list(old_of))).then(pl.coalesce("valid_from", begins)).otherwise("valid_from")
    moved = services.filter(~past).with_columns(began.alias("valid_from"))
    return moved.with_columns(ids.replace({new: _oldest(new, old_of) for new in old_of}))


def _days(days: Mapping[str, date]) -> pl.Expr:
    return pl.col("service_id").replace_strict(dict(days), default=None, return_dtype=pl.Date())


def _oldest(service_id: str, old_of: Mapping[str, str]) -> str:
    while service_id in old_of:
        service_id = old_of[service_id]
    return service_id


def _used(lines: pl.DataFrame, services: pl.DataFrame) -> list[Used]:
    newest = services.sort("valid_from", "site", "service", nulls_last=False).group_by("service_id").last()
    listed = {row["service_id"]: row for row in newest.join(latest_names(services), "service_id").iter_rows(named=True)}
    used = []
    for (service_id,), rows in lines.group_by("service_id", maintain_order=True):
        menu = listed.get(str(service_id))
        if menu is None or rows.height < FEWEST_LINES:
            continue
        days = rows["starts_at"].dt.date().to_list()
        clients = dict(zip(rows.select("site", "client_id").iter_rows(), days, strict=True))
        minutes = float((menu["hands_on_min"] or 0) + (menu["processing_min"] or 0))
        prices = rows["price"].to_list()
        used.append(Used(str(service_id), menu["service_right"], menu["kind"], minutes, days, prices, clients))
    return sorted(used)


def _pair(one: Used, other: Used, last_visit: Mapping[tuple[str, str], date]) -> dict[str, Any] | None:
    """The pair where the first seems to go on as the second."""
    if one.kind != other.kind or not _near(one.minutes, other.minutes, MINUTES_NEAR):
        return None
    begins = other.days[0]
    stray = sum(day >= begins for day in one.days)
    before, after = _usual(one.prices[-NEARBY_LINES:]), _usual(other.prices[:NEARBY_LINES])
    came = [client for client in one.clients if last_visit[client] >= begins]
    went_on = sum(client in other.clients for client in came)
    alike = names_alike(one.service, other.service)
    between = (begins - one.days[-1 - stray]).days if stray <= STRAY * len(one.days) else LONGEST_GAP_DAYS + 1
    stops = between <= LONGEST_GAP_DAYS
    same_clients = len(came) >= FEWEST_CLIENTS and went_on >= WENT_ON * len(came)
    at_once = between <= SOON_DAYS and _near(before, after, SAME_PRICE / 2) and went_on
    if stops and _near(before, after, PRICE_NEAR) and (same_clients or alike or at_once):
        how, speaks = RENAMED, 2 + alike + went_on / max(len(came), 1)
    elif alike and _near(_usual(one.prices), _usual(other.prices), SAME_PRICE) and _fewer(one, other):
        how, speaks, before, after = TWO_WAYS, 1.0, _usual(one.prices), _usual(other.prices)
    else:
        return None
    return {
        "service_id": one.service_id, "service": one.service, "goes_on_as_id": other.service_id,
        "goes_on_as": other.service, "how": how, "kind": one.kind, "last_on": one.days[-1], "first_on": begins,
        "lines": len(one.days), "goes_on_lines": len(other.days), "price": before, "goes_on_price": after,
        "minutes": one.minutes, "goes_on_minutes": other.minutes, "clients_after": len(came),
        "clients_went_on": went_on, "_speaks": speaks,
    }  # fmt: skip


def _fewer(one: Used, other: Used) -> bool:
    return (len(one.days), one.service_id) < (len(other.days), other.service_id)


def _usual(prices: list[Decimal]) -> Decimal:
    """The price that stands most often, the higher of two that stand as often."""
    return max(Counter(prices).items(), key=lambda pair: (pair[1], pair[0]))[0]


def _near(one: float | Decimal, other: float | Decimal, share: float) -> bool:
    return abs(float(one) - float(other)) <= share * max(abs(float(one)), abs(float(other)))


def names_alike(one: str, other: str) -> bool:
    """Whether two names are the same words, in any order, or but for a slip in long ones: 'Cut & Blow-dry', 'blow dry
    and cut'. Numbers must agree."""
    mine, theirs = Counter(_words(one)), Counter(_words(other))
    left, right = sorted((mine - theirs).elements()), sorted((theirs - mine).elements())
    if not mine or not theirs or len(left) != len(right):
        return "".join(sorted(mine.elements())) == "".join(sorted(theirs.elements())) != ""
    return all(map(_slip, left, right))


def _slip(one: str, other: str) -> bool:
    long = min(len(one), len(other)) >= FEWEST_LETTERS and one.isalpha() and other.isalpha()
    return long and SequenceMatcher(None, one, other, autojunk=False).ratio() >= ALIKE


def _words(name: str) -> list[str]:
    apart = unicodedata.normalize("NFKD", name.casefold())
    letters = "".join(sign if sign.isalnum() else " " for sign in apart if not unicodedata.combining(sign))
    return [word for word in letters.split() if word not in WORDS_BETWEEN]
