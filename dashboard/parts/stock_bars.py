"""Stock and retail as lists of bars: what went unseen, what to order, what sells."""

from decimal import Decimal

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings
from dashboard.parts.bars import Bar


def unseen_bars(rows: list[Row], settings: Settings) -> list[Bar]:
    """From count to count: a bar per product of what is unexplained, its end what unlogged bowls do not account for."""
    return [
        Bar(
            wording.plain_cell(row["product"]),
            f"{wording.money(row['unexplained_cost'], settings)} · {_packs(row['unexplained_packs'], settings)}",
            float(row["unexplained_cost"]),
            _unlogged(row, settings),
            max(float(row["unaccounted_cost"]), 0.0),
        )
        for row in rows
    ]


def _unlogged(row: Row, settings: Settings) -> str:
    if row["unlogged_g"] is None:
        return f"{wording.grams(row['unexplained_g'], settings)} missing"
    unlogged = wording.grams(row["unlogged_g"], settings)
    return f"{wording.grams(row['unexplained_g'], settings)} missing; bowls nobody logged would be about {unlogged}"


def _packs(packs: float | None, settings: Settings) -> str:
    """A tenth of a pack decides nothing where there are many."""
    if packs is None:
        return wording.NOTHING
    text = wording.number(packs, settings, 0 if abs(packs) >= 10 else 1)
    return f"{text} {'pack' if packs == 1 else 'packs'}"


def order_bars(rows: list[Row], settings: Settings) -> list[Bar]:
    """What to order: a bar per product as long as it costs, and how long what is there lasts."""
    return [
        Bar(
            wording.plain_cell(row["product"]),
            f"{_whole(row['packs'], _sold_by(row), settings)} · {wording.money(row['order_cost'], settings)}",
            float(row["order_cost"]),
            _lasts(row, settings),
        )
        for row in rows
    ]


def _sold_by(row: Row) -> str:
    """What is sold over the counter is ordered by the piece."""
    return "piece" if row["kind"] == "retail" else "pack"


def _lasts(row: Row, settings: Settings) -> str:
    there, use = (wording.grams(row[name], settings) for name in ("likely_g", "weekly_g"))
    until = f", enough until about {wording.short_day(row['runs_out_on'], settings)}" if row["likely_g"] > 0 else ""
    return f"about {there} there, {use} a week{until}"


def retail_bars(rows: list[Row], settings: Settings) -> list[Bar]:
    """The figure `retail` of one month: a bar per product of its net, and what is left of it."""
    return [
        Bar(
            wording.plain_cell(row["product"]),
            f"{wording.money(row['net'], settings)} · {_whole(row['units'], 'piece', settings)}",
            max(float(row["net"]), 0.0),
            _left(row, settings),
        )
        for row in rows
    ]


def _whole(count: Decimal | int, one: str, settings: Settings) -> str:
    return wording.counted(int(count), one, f"{one}s", settings)


def _left(row: Row, settings: Settings) -> str:
    """Nothing where the cost is not known."""
    if row["margin_share"] is None:
        return ""
    margin, share = wording.money(row["margin"], settings), wording.share(row["margin_share"], settings)
    return f"{margin} ({share}) is left after cost"


def stylist_bars(rows: list[Row], settings: Settings) -> list[Bar]:
    """Stylists over twelve months: a bar per stylist, the share of visits with a sale, beside that of like visits."""
    return [
        Bar(
            wording.plain_cell(row["stylist"]),
            wording.share(row["share"], settings),
            row["share"],
            _against_like_visits(row, settings),
        )
        for row in rows
    ]


def _against_like_visits(row: Row, settings: Settings) -> str:
    sold, visits = (wording.number(row[name], settings) for name in ("visits_with_sale", "visits"))
    low, high, like = (wording.share(row[name], settings) for name in ("share_low", "share_high", "like_share"))
    return f"{sold} of {visits} visits, so {low}–{high} in the long run; the salon on like visits {like}"
