"""What the figures say, in one plain sentence each, made by rules from result frames.

A sentence holds the number that matters, its period, and whether it is news: inside its usual range a change is called
ordinary; a month that is not over is not judged; too little data is said in words.
"""

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import polars as pl

from analytics import wording
from analytics.periods import Period, add_months, month_name
from analytics.settings import Settings

NO_BOOK = "There is no loaded book for this salon yet; run salon-figures load, then open this page again."
NOTHING_YET = "The book is still empty; put exports in the folder exports/ and run salon-figures load."
STALE = "The exports have changed since they were loaded; run salon-figures load to read them."
SOON = timedelta(days=7)
FOR_THE_ACCOUNTANT = "A summary for your accountant, not tax advice; what is owed is for the return to say."
ORDINARY, ABOVE, BELOW, UNKNOWN, PART = "usual", "above usual", "below usual", "no usual range yet", "month not over"
Row = dict[str, Any]


def row_of(month_frame: pl.DataFrame, month: str, figure: str) -> Row | None:
    """The row of one figure in one month, if the frame has it."""
    found = month_frame.filter((pl.col("month") == month) & (pl.col("figure") == figure))
    return found.row(0, named=True) if found.height else None


def standing(row: Row) -> str:
    """Where a value stands against its usual range."""
    if row["part_month"]:
        return PART
    if row["value"] is None or row["usual_low"] is None or row["usual_high"] is None:
        return UNKNOWN
    if row["value"] < row["usual_low"]:
        return BELOW
    return ABOVE if row["value"] > row["usual_high"] else ORDINARY


def _usual(row: Row, settings: Settings) -> str:
    return wording.quantities(row["usual_low"], row["usual_high"], row["unit"], settings)


def _against(row: Row, settings: Settings) -> str:
    """The clause that says whether a whole month's value is news."""
    place = standing(row)
    if place == UNKNOWN:
        return "; a usual range needs 12 months before it"
    if place == ORDINARY:
        return f", inside its usual {_usual(row, settings)}"
    return f", {place.split()[0]} its usual {_usual(row, settings)}: that is news"


def month_sentence(month_frame: pl.DataFrame, settings: Settings, month: str) -> str:
    """Net revenue of the month, and whether it is news."""
    title = wording.month_title(month, settings)
    row, visits = row_of(month_frame, month, "net_revenue"), row_of(month_frame, month, "visits")
    if row is None or visits is None:
        return f"The book holds nothing for {title}; choose another month, or load its exports."
    if not row["value"] and not visits["value"]:
        return f"Nothing was charged in {title}: the book holds no visit that happened."
    net = wording.quantity(row["value"], row["unit"], settings)
    if row["part_month"]:
        came = wording.quantity(visits["value"], "visits", settings)
        return f"So far {title} has brought {net} net from {came}; the month is not over, so it is not judged yet."
    return f"{title} brought {net} net{_against(row, settings)}.{_changed(row, month, settings)}"


def _changed(row: Row, month: str, settings: Settings) -> str:
    """' That is €900 less than in September and €400 more than a year before.'"""
    before = wording.month_title(month_name(add_months(Period.month(month).start, -1)), settings, year=False)
    parts = [
        _difference(row["value"], row[name], row["unit"], settings) + when
        for name, when in (("previous", f" in {before}"), ("year_ago", " a year before"))
        if row[name] is not None
    ]
    return f" That is {wording.listed(parts)}." if parts else ""


def _difference(value: Decimal, other: Decimal, unit: str, settings: Settings) -> str:
    gap = value - other
    if round(gap) == 0:
        return "about the same as"
    return f"{wording.quantity(abs(gap), unit, settings, whole=True)} {'more' if gap > 0 else 'less'} than"


def outside_sentence(month_frame: pl.DataFrame, settings: Settings, month: str) -> str:
    """Which of the month's figures lie outside their usual range; empty for a part-month or where none is known."""
    rows = month_frame.filter(pl.col("month") == month).to_dicts()
    judged = [row for row in rows if standing(row) in (ORDINARY, ABOVE, BELOW)]
    news = [row for row in judged if standing(row) != ORDINARY and row["figure"] != "open_days"]
    if not judged:
        return ""
    if not news:
        return f"All {len(judged)} figures with a usual range are inside it."
    parts = [
        f"{wording.word(row['figure']).lower()} {wording.quantity(row['value'], row['unit'], settings)} "
        f"({standing(row).split()[0]} its usual {_usual(row, settings)})"
        for row in news
    ]
    return f"Outside what is usual: {wording.listed(parts)}."


def figure_lines(month_frame: pl.DataFrame, settings: Settings, month: str) -> list[dict[str, str]]:
    """Every figure of the month as text: name, value, before, a year ago, usual range, standing."""
    return [
        {
            "figure": wording.word(row["figure"]),
            "value": wording.quantity(row["value"], row["unit"], settings),
            "previous": wording.quantity(row["previous"], row["unit"], settings),
            "year_ago": wording.quantity(row["year_ago"], row["unit"], settings),
            "usual": _usual(row, settings),
            "standing": standing(row),
        }
        for row in month_frame.filter(pl.col("month") == month).to_dicts()
    ]


def cost_per_open_hour(occupancy: pl.DataFrame, settings: Settings) -> float | None:
    """Costs per month × months ÷ open chair hours of those months; None without costs or open hours."""
    opened = float(occupancy["open_hours"].sum())
    months = occupancy["month"].n_unique()
    return float(settings.costs.per_month) * months / opened if opened > 0 and settings.costs.per_month else None


def under_cost(chairs: pl.DataFrame, cost: float) -> list[str]:
    """Services whose net per chair hour, product paid, stays under the cost of an open chair hour; lowest first."""
    lines = chairs.filter((pl.col("lines") > 0) & (pl.col("after_product_per_chair_hour") < cost))
    return [str(name) for name in lines.sort("after_product_per_chair_hour", "service_id")["service"]]


def chairs_sentence(
    chairs: pl.DataFrame, month_frame: pl.DataFrame, cost: float | None, settings: Settings, month: str
) -> str:
    """What an hour in the chair brought, whether that is news, and how many services stay under its cost."""
    title, row = wording.month_title(month, settings), row_of(month_frame, month, "net_per_chair_hour")
    if row is None or row["value"] is None:
        return f"No chair was taken in {title}, so there is nothing to divide."
    brought = wording.money(row["value"], settings)
    if row["part_month"]:
        start = f"So far in {title}, an hour in the chair has brought {brought} net; the month is not over"
    else:
        start = f"An hour in the chair brought {brought} net in {title}{_against(row, settings)}"
    return f"{start}; {_under(chairs, cost, settings)}."


def _under(chairs: pl.DataFrame, cost: float | None, settings: Settings) -> str:
    if cost is None:
        return "salon.toml names no costs per month, so no service is held against them"
    names, price = under_cost(chairs, cost), wording.money(cost, settings)
    if not names:
        return f"every service clears the {price} an open chair hour costs, product paid"
    stay = "service stays" if len(names) == 1 else "services stay"
    return f"{len(names)} {stay} under the {price} an open chair hour costs, product paid"


def under_sentence(chairs: pl.DataFrame, cost: float | None, settings: Settings) -> str:
    """Which services stay under the cost of an open chair hour, with what they bring; empty where none does."""
    names = [] if cost is None else under_cost(chairs, cost)
    brings = dict(chairs.select("service", "after_product_per_chair_hour").iter_rows())
    parts = [f"{name} ({wording.money(brings[name], settings)})" for name in names]
    return f"Under it, after product and per chair hour: {wording.listed(parts)}." if parts else ""


def roots_sentence(roots: pl.DataFrame, settings: Settings, as_of: date) -> str:
    """How many clients are due and not booked, and how many of them soon pass one application."""
    today = wording.day(as_of, settings)
    if roots.is_empty():
        return f"Up to {today} the book holds no service that colours the roots, so nobody is due."
    count = {str(state): number for state, number in roots.group_by("state").len().iter_rows()}
    ready, soon = count.get("ready", 0), _passing(roots, as_of)
    start = f"On {today}, {_clients(ready, 'is', 'are', settings)} ready for a root touch-up and not booked"
    more = [f"{soon} of them {'passes' if soon == 1 else 'pass'} one application within a week"] if soon else []
    for state, one, many, text in (
        ("nearing", "more gets", "more get", "there within two weeks"),
        ("long_past", "is", "are", "past one application, a longer booking"),
    ):
        more += [f"{wording.counted(count[state], one, many, settings)} {text}"] if count.get(state) else []
    return "; ".join([start, wording.listed(more)] if more else [start]) + "."


def _passing(roots: pl.DataFrame, as_of: date) -> int:
    return roots.filter((pl.col("state") == "ready") & (pl.col("ready_by") <= as_of + SOON)).height


def _clients(count: int, one: str, many: str, settings: Settings) -> str:
    if not count:
        return f"no client {one}"
    return f"{wording.counted(count, 'client', 'clients', settings)} {one if count == 1 else many}"


def ruler_note(settings: Settings) -> str:
    """How the rulers are read."""
    low, high = (
        wording.mm(length, settings) for length in (settings.roots.touch_up_from_mm, settings.roots.touch_up_by_mm)
    )
    return (
        "On each ruler the mark is the regrowth expected today, and the band where it lies for 8 clients in 10. The "
        f"dashed lines are {low}, before which colour would overlap, and {high}, after which one application no longer "
        "covers it."
    )


def roots_cautions(settings: Settings) -> str:
    """The cautions that stand wherever root dates are shown."""
    ahead = wording.number(settings.roots.patch_test_hours, settings)
    return (
        "These dates help with planning and are no instruction: the maker's instructions, local rules and licensed "
        f"practice come first. Skin-test as the maker says; this salon plans {ahead} hours ahead. No colour on "
        "irritated or broken skin, nor after an earlier reaction. Lightener is not overlapped on hair that is "
        "lightened already."
    )


def bowl_totals(bowls: pl.DataFrame) -> pl.DataFrame:
    """The figure `bowls` by month: grams, left_share of the weighed bowls, left_cost, and how far the log covers."""
    return (
        bowls.group_by("month")
        .agg(
            pl.col("mixed_g", "weighed_mixed_g", "left_g").sum(),
            pl.when(pl.col("left_cost").is_not_null().any()).then(pl.col("left_cost").sum()).alias("left_cost"),
            pl.col("colour_lines", "colour_lines_logged").max(),
        )
        .with_columns(
            left_share=_ratio("left_g", "weighed_mixed_g"),
            weighed_share=_ratio("weighed_mixed_g", "mixed_g"),
            logged_share=_ratio("colour_lines_logged", "colour_lines"),
        )
        .sort("month")
    )


def _ratio(top: str, bottom: str) -> pl.Expr:
    return pl.when(pl.col(bottom) > 0).then(pl.col(top).cast(pl.Float64) / pl.col(bottom).cast(pl.Float64))


def bowls_sentence(months: pl.DataFrame, settings: Settings, month: str) -> str:
    """What was left in the bowls, whether that is news, and how far the log covers the work.

    months: bowl_totals with, for left_share, value, previous, year_ago, usual_low, usual_high and part_month.
    """
    title, found = wording.month_title(month, settings), months.filter(pl.col("month") == month).to_dicts()
    if not found or not found[0]["mixed_g"]:
        return f"No bowl was logged in {title}, so nothing can be said about what was left over."
    row = found[0]
    if row["left_share"] is None:
        mixed = wording.grams(row["mixed_g"], settings)
        known = f"{title}: {mixed} were mixed and no bowl was weighed afterwards, so what was left is not known"
        return f"{known}{_logged(row, settings)}."
    left = wording.share(row["left_share"], settings)
    cost = f" ({wording.money(row['left_cost'], settings)} of product)" if row["left_cost"] is not None else ""
    if row["part_month"]:
        return f"So far in {title}, {left} of what was weighed was left in the bowl{cost}{_logged(row, settings)}."
    news = _against(row | {"unit": "share"}, settings)
    return f"In {title}, {left} of what was weighed was left in the bowl{cost}{news}{_logged(row, settings)}."


def _logged(row: Row, settings: Settings) -> str:
    if row["logged_share"] is None:
        return ""
    return f"; {wording.share(row['logged_share'], settings)} of colour services have a bowl logged"


def coverage_sentence(months: pl.DataFrame, settings: Settings, month: str) -> str:
    """How far the mixing log covers the colour work of the month; empty where there was none."""
    found = months.filter((pl.col("month") == month) & pl.col("logged_share").is_not_null())
    if found.is_empty():
        return ""
    logged = wording.share(found["logged_share"][0], settings)
    return f"Product cost counts what was logged: {logged} of the month's colour services have a bowl in the log."


def weighed_sentence(bowls: pl.DataFrame, settings: Settings) -> str:
    """How much of what was mixed in the month was weighed afterwards; empty where nothing was mixed."""
    mixed, weighed = float(bowls["mixed_g"].sum()), float(bowls["weighed_mixed_g"].sum())
    if not mixed:
        return ""
    share, all_of_it = wording.share(weighed / mixed, settings), wording.grams(mixed, settings)
    return f"{share} of the {all_of_it} mixed were in bowls weighed afterwards; of the rest nothing is known."


def accountant_sentence(
    tax: pl.DataFrame, takings: pl.DataFrame, tieout: pl.DataFrame, settings: Settings, month: str
) -> str:
    """What was charged, the tax in it, and whether what was taken ties to it."""
    title, charged = wording.month_title(month, settings), tax.filter(pl.col("month") == month)
    if charged.is_empty():
        return f"Nothing was charged in {title}, so there is no tax to report."
    gross, due = (wording.money(charged[name].sum(), settings) for name in ("gross", "tax"))
    return f"{title}: {gross} was charged, {due} of it tax; {_ties(takings, tieout, settings, month)}."


def charged_before(tax: pl.DataFrame, settings: Settings, month: str) -> str:
    """What was charged, and the tax in it, the month before and a year before; empty where neither is in the book."""
    first = Period.month(month).start
    parts = []
    for back in (-1, -12):
        then = month_name(add_months(first, back))
        rows = tax.filter(pl.col("month") == then)
        if not rows.is_empty():
            gross, due = (wording.money(rows[name].sum(), settings) for name in ("gross", "tax"))
            parts.append(f"in {wording.month_title(then, settings)} it was {gross}, {due} of it tax")
    return f"Before that, {wording.listed(parts)}." if parts else ""


def only_chair(chair: str) -> str:
    """What narrowing to one chair means."""
    return f"Only {chair}: its visits, and the payments, retail and bowls that belong to them."


def _ties(takings: pl.DataFrame, tieout: pl.DataFrame, settings: Settings, month: str) -> str:
    paid, sums = takings.filter(pl.col("month") == month), tieout.filter(pl.col("month") == month)
    if paid.is_empty() or sums.is_empty():
        return "there are no payments in the book, so what was taken cannot be held against it"
    gap = sums["difference"][0]
    if gap == 0:
        return "what was taken ties to it exactly"
    return f"what was taken is {wording.money(abs(gap), settings)} {'more' if gap > 0 else 'less'} than was due"


def foot(settings: Settings, months: list[str], today: date) -> str:
    """Whose figures these are, for which day, and how far the book reaches."""
    covers = f"the book covers {wording.month_range(months, settings)}" if months else "the book is empty"
    return f"{settings.salon.name} · worked out for {wording.day(today, settings)} · {covers}"


def exports_sentence(files: pl.DataFrame, findings: pl.DataFrame, settings: Settings) -> str:
    """How many rows were read, used and set aside, and how many findings want a look."""
    if files.is_empty():
        return NOTHING_YET
    read, used, aside = (int(files[name].sum()) for name in ("rows_read", "rows_used", "set_aside"))
    start = (
        f"{wording.counted(files.height, 'file', 'files', settings)} with "
        f"{wording.counted(read, 'row', 'rows', settings)} {'was' if files.height == 1 else 'were'} read; "
        f"{wording.number(used, settings)} are used and {wording.number(aside, settings)} set aside"
    )
    if findings.is_empty():
        return f"{start}; nothing was found wrong."
    return f"{start}; {wording.counted(findings.height, 'finding wants', 'findings want', settings)} a look."
