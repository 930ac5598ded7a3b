"""Sums as a list of bars: name and amount in words over a bar from zero. Every text from data is escaped here."""

from dataclasses import dataclass
from datetime import date
from html import escape

from analytics import wording
from analytics.definitions.rows import Row
from analytics.definitions.vocabulary import METHODS
from analytics.sentences import ahead as weeks
from analytics.settings import Settings

DUE = {
    "charged_gross": "Services",
    "retail_gross": "Retail",
    "tips": "Tips",
    "vouchers_sold": "Vouchers sold",
    "deposits_received": "Deposits received",
    "deposits_used": "Deposits used",
}
FATES = {"rows_used": "used", "repeats": "repeats", "superseded": "superseded", "set_aside": "set aside"}
LONG = 12  # bars; a longer list stands in two columns where there is room


@dataclass(frozen=True)
class Bar:
    """One bar: its name, its amount as text, its length, a line of its own under them, and an end that wants doing."""

    name: str
    amount: str
    length: float
    more: str = ""
    wants: float = 0


def part(left: float, width: float, name: str) -> str:
    """A part of a strip, from `left` on and `width` wide, in percent."""
    return f'<i class="{name}" style="left:{left:.2f}%;width:{max(width, 0):.2f}%"></i>'


def at(value: float, top: float) -> float:
    """Where a value lies on a strip that ends at `top`, in percent."""
    return 100 * min(max(value, 0), top) / top


def drawn(rows: list[Bar], whole: float | None = None, lines: tuple[float | None, ...] = ()) -> str:
    """Name and amount over a bar from zero, to the scale of `whole`, or of the longest; `lines` cross every bar."""
    known = [line for line in lines if line is not None]
    longest = whole or max((abs(length) for length in [*(row.length for row in rows), *known]), default=0) or 1
    marks = "".join(f'<b style="left:{at(line, longest):.2f}%"></b>' for line in known)
    return f'<ul class="{list_name(len(rows))}">' + "".join(_bar(row, longest, marks) for row in rows) + "</ul>"


def list_name(count: int) -> str:
    """The style of a list of so many bars."""
    return "bars long" if count > LONG else "bars"


def _bar(row: Bar, longest: float, marks: str) -> str:
    more = f"<small>{escape(row.more)}</small>" if row.more else ""
    end, wants = at(abs(row.length), longest), at(row.wants, longest)
    accent = part(end - wants, wants, "wants") if row.wants else ""
    return (
        f"<li><span>{escape(row.name)}</span><em>{escape(row.amount)}</em>"
        f'<div class="bar" aria-hidden="true">{part(0, end, "fill")}{accent}{marks}</div>{more}</li>'
    )


def occupancy_bars(rows: list[Row], settings: Settings) -> list[Bar]:
    """The figure `occupancy` of one month: a bar per chair, the share of opening hours."""
    return [
        Bar(
            row["chair"],
            wording.share(row["occupied_share"], settings),
            row["occupied_share"] or 0,
            _hours(row, settings),
        )
        for row in rows
    ]


def price_bars(rows: list[Row], settings: Settings) -> list[Bar]:
    """The figure `prices`: a bar per service, what a chair hour of it contributes."""
    return [
        Bar(
            wording.plain_cell(row["service"]),
            f"{wording.money(row['contribution_per_chair_hour'], settings)} an hour",
            max(row["contribution_per_chair_hour"], 0.0),
            f"{wording.money(row['price'], settings)}, {wording.number(row['minutes_per_line'], settings)} minutes, "
            f"{wording.number(row['lines_per_month'], settings, 1)} times a month",
        )
        for row in rows
        if row["contribution_per_chair_hour"] is not None
    ]


def _hours(row: Row, settings: Settings) -> str:
    taken, opened = (wording.hours(row[name], settings) for name in ("occupied_hours", "open_hours"))
    before, year = (wording.share(row.get(name), settings) for name in ("previous", "year_ago"))
    cost = row.get("empty_cost")
    empty = f", {wording.hours(row.get('empty_hours'), settings)} empty" if row.get("empty_hours") is not None else ""
    worth = "" if cost is None else f" ({wording.money(cost, settings, whole=True)})"
    return f"{taken} taken, {opened} open{empty}{worth} · month before {before} · a year before {year}"


def bowl_bars(rows: list[Row], settings: Settings) -> list[Bar]:
    """Items of the figure `waste`: a bar each, what was likely left of them at its cost, and how much is known."""
    return [
        Bar(
            wording.plain_cell(row["item"]),
            f"{wording.money(row['left_cost_likely'], settings)} · {wording.share(row['left_share'], settings)} left",
            float(row["left_cost_likely"]),
            f"{_ends(row, 'left_share', settings)}{wording.number(row['weighed_bowls'], settings)} of "
            f"{wording.counted(row['bowls'], 'bowl', 'bowls', settings)} weighed · month before "
            f"{wording.share(row['previous_share'], settings)} · a year before "
            f"{wording.share(row['year_ago_share'], settings)}",
        )
        for row in rows
    ]


def _ends(row: Row, name: str, settings: Settings) -> str:
    """'24%–29% likely · ', or nothing."""
    if row[f"{name}_low"] is None:
        return ""
    ends = "–".join(wording.share(row[f"{name}_{end}"], settings) for end in ("low", "high"))
    return f"{ends} likely · "


def mix_bars(rows: list[Row], settings: Settings) -> list[Bar]:
    """The figure `mixing`: a bar per service and kind with an advice, the grams to mix."""

    def grams(row: Row, name: str) -> str:
        return wording.grams(row[name], settings)

    return [
        Bar(
            f"{wording.plain_cell(row['service'])}, {row['kind']}",
            f"mix {grams(row, 'advised_mix_g')} · usual {grams(row, 'usual_mix_g')}",
            row["advised_mix_g"],
            f"{_saves(row, settings)}nine in ten need up to {grams(row, 'used_p90_g')} · a second bowl in "
            f"{wording.share(row['second_bowl_share'], settings)} of visits · "
            f"{wording.counted(row['weighed_bowls'], 'bowl', 'bowls', settings)} weighed"
            + (f" · {row['why']}" if row["why"] else ""),
        )
        for row in rows
        if row["advised_mix_g"] is not None
    ]


def _saves(row: Row, settings: Settings) -> str:
    saved = row["saving_as_mixed"]
    return "" if saved is None else f"saves {wording.money(saved, settings, whole=True)} a month against by eye · "


def side_bars(rows: list[Row], settings: Settings) -> list[Bar]:
    """One side of the figure `due_and_paid`: a bar per part of what was due, or per way of payment."""
    return [Bar(_part_name(row["part"]), wording.money(row["amount"], settings), float(row["amount"])) for row in rows]


def _part_name(part: str) -> str:
    return DUE.get(part) or wording.word(METHODS.get(part, part)).capitalize()


def week_bars(rows: list[Row], settings: Settings, today: date) -> list[Bar]:
    """The figure `ahead`: a bar per week of the hours expected, its end what is too much even at the low end."""
    return [
        Bar(
            weeks.week_name(row["week_start"], settings, today),
            f"{wording.hours(row['chair_hours_expected'], settings)} expected" if row["chair_hours_open"] else "",
            row["chair_hours_expected"],
            weeks.week_line(row, settings),
            min(row["chair_hours_over"], row["chair_hours_expected"]),
        )
        for row in rows
    ]


def longest_week(rows: list[Row]) -> float:
    """The scale of the weeks: the most hours that are open or expected in any."""
    return max((max(row["chair_hours_open"], row["chair_hours_expected"]) for row in rows), default=1) or 1


def table_bars(rows: list[Row], settings: Settings) -> list[Bar]:
    """Row accounting by table: a bar of the rows read, its end those set aside, and what became of them in words."""
    return [
        Bar(
            wording.plain_cell(row["table"]).replace("_", " ").capitalize(),
            wording.counted(row["rows_read"], "row", "rows", settings),
            row["rows_read"],
            " + ".join(f"{wording.number(row[name], settings)} {said}" for name, said in FATES.items()),
            row["set_aside"],
        )
        for row in rows
    ]
