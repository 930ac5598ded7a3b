"""What went from the shelf unseen, what the shelf holds, what to order and what will not be used in time."""

from datetime import date
from decimal import Decimal

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

SLOW_WEEKS = 26  # what lies longer than half a year
NEARLY_ALL = 0.95  # the log misses next to nothing
UNSEEN_SAYS = (
    "A bar is what was missing at the last count since the count before, at cost. Its end in colour is what bowls that "
    "nobody logged would not account for, were they like the others."
)
NAMED = 3  # how many products a sentence names


def between_counts(stock: pl.DataFrame) -> pl.DataFrame:
    """Of the figure `stock`, the last stretch of each product that was counted at both ends, with `unlogged_cost`.

    unlogged_cost: how much of what is unexplained bowls that nobody logged would account for, were they like the
    others; left_cost: the rest of it.
    """
    share = (pl.col("unlogged_g") / pl.col("unexplained_g").cast(pl.Float64)).clip(0, 1)
    lost = pl.col("unexplained_g") > 0
    unlogged = pl.when(lost).then(pl.col("unexplained_cost").cast(pl.Float64) * share.fill_null(0))
    return (
        stock.filter(pl.col("from_on").is_not_null() & pl.col("counted_g").is_not_null())
        .group_by("salon", "product_id", maintain_order=True)
        .last()
        .with_columns(unlogged_cost=unlogged.fill_null(0.0))
        .with_columns(left_cost=(pl.col("unexplained_cost").cast(pl.Float64) - pl.col("unlogged_cost")).fill_null(0.0))
    )


def stock_sentence(stock: pl.DataFrame, settings: Settings) -> str:
    """What was gone at the last counts that nothing explains, in money, with how far the log covers that time."""
    counted = between_counts(stock)
    if stock["closing_g"].is_null().all():
        return "The book holds no delivery and no count, so nothing can be said about stock; export them with the rest."
    if counted.is_empty():
        return (
            "No product has been counted twice, so what goes unseen is not known; count the shelves at closing time, "
            "and again in a few months."
        )
    gone = counted["unexplained_cost"].sum()
    span = wording.listed(list(dict.fromkeys(_spans(counted, settings))))
    if gone <= 0:
        more = f" ({wording.money(-gone, settings)} more than the book)" if gone else ""
        return f"From count to count ({span}) nothing was missing{more}{_coverage(counted, settings)}."
    return (
        f"From count to count ({span}) {wording.money(gone, settings)} of product went that neither log nor till "
        f"explains{_coverage(counted, settings)}{_because(counted, settings)}."
    )


def _spans(counted: pl.DataFrame, settings: Settings) -> list[str]:
    first, last = counted["from_on"].min(), counted["to_on"].max()
    return [f"{wording.day(first, settings)} to {wording.day(last, settings)}"]  # type: ignore[arg-type]


def _coverage(counted: pl.DataFrame, settings: Settings) -> str:
    row = counted.select(pl.col("colour_lines", "colour_lines_logged").max()).row(0, named=True)
    if not row["colour_lines"]:
        return ""
    share = wording.share(row["colour_lines_logged"] / row["colour_lines"], settings)
    return f"; {share} of that time's colour services have a bowl logged"


def _because(counted: pl.DataFrame, settings: Settings) -> str:
    """Whether bowls that nobody logged would account for it."""
    unlogged, left = (
        float(counted["unlogged_cost"].sum()),
        float(counted["left_cost"].filter(counted["left_cost"] > 0).sum()),
    )
    if not unlogged:
        return ""
    if left < unlogged / 10:
        return ", and the bowls of the others would be nearly all of it"
    return f", and the bowls of the others would be about {wording.money(unlogged, settings, whole=True)} of it"


def stock_value_sentence(stock: pl.DataFrame, reorder: pl.DataFrame, settings: Settings, as_of: date) -> str:
    """What the shelf is worth by the book, and what is probably there; empty where nothing was ever delivered."""
    now = stock.filter(pl.col("counted_g").is_null() & pl.col("closing_value").is_not_null())
    if now.is_empty():
        return ""
    worth = Decimal(now["closing_value"].sum())
    how = {"average": "moving average", "fifo": "first in, first out"}[settings.stock.valuation]
    today, by_the_book = wording.day(as_of, settings), wording.money(worth, settings)
    start = f"On {today} the shelf holds {by_the_book} by the book, at cost ({how})"
    counted = now["from_on"].drop_nulls()
    if counted.is_empty():
        return f"{start}; it was never counted, so how much is really there is not known."
    since = f"{start}; it was last counted on {wording.day(counted.max(), settings)}"  # type: ignore[arg-type]
    likely = _likely_value(reorder)
    if likely > float(worth) * NEARLY_ALL:
        return f"{since}."
    there = wording.money(likely, settings, whole=True)
    return f"{since}, and with the bowls nobody logged probably {there} is there."


def _likely_value(reorder: pl.DataFrame) -> float:
    """The value of what is probably there, at the cost by the book."""
    held = reorder.filter((pl.col("booked_g") > 0) & pl.col("likely_g").is_not_null())
    value = pl.col("closing_value").cast(pl.Float64) * pl.col("likely_g") / pl.col("booked_g").cast(pl.Float64)
    return float(held.select(value.sum()).item())


def below_nothing_sentence(stock: pl.DataFrame, settings: Settings) -> str:
    """Products whose book has less than nothing; empty where there are none."""
    short = stock.filter(pl.col("counted_g").is_null() & (pl.col("closing_g") < 0)).sort("closing_g", "product_id")
    if short.is_empty():
        return ""
    names = _named(short.to_dicts(), lambda row: f"{row['product']} ({wording.grams(row['closing_g'], settings)})")
    return f"Below nothing by the book, so a delivery or count is missing: {names}."


def order_sentence(reorder: pl.DataFrame, settings: Settings, as_of: date) -> str:
    """How much to order for the coming weeks, at what cost, and what runs out first."""
    if reorder.is_empty():
        return "There is no product in use, so there is nothing to order."
    wanted = orders(reorder)
    weeks = _weeks(settings)
    unknown = reorder.filter(pl.col("packs").is_null()).height
    if unknown == reorder.height:
        return "What is on the shelf is not known, so there is nothing to advise; count it, or export deliveries."
    tail = f"; of {wording.counted(unknown, 'product', 'products', settings)} too little is known" if unknown else ""
    if wanted.is_empty():
        return f"What is there lasts for {weeks} weeks and a delivery: nothing needs ordering now{tail}."
    packs, cost = int(wanted["packs"].sum()), wanted["order_cost"].sum()
    first = wanted.sort("runs_out_on", "product_id", nulls_last=True).row(0, named=True)
    return (
        f"To last {weeks} weeks, order {wording.counted(packs, 'pack', 'packs', settings)} of "
        f"{wording.counted(wanted.height, 'product', 'products', settings)}, {wording.money(cost, settings)}"
        f"{_runs_out(first, settings, as_of)}{tail}."
    )


def _weeks(settings: Settings) -> str:
    weeks = settings.stock.cover_weeks
    return wording.number(weeks, settings, 0 if weeks == int(weeks) else 1)


def orders(reorder: pl.DataFrame) -> pl.DataFrame:
    """What to order, what runs out first on top."""
    return reorder.filter(pl.col("packs") > 0).sort("runs_out_on", "product_id", nulls_last=True)


def _runs_out(row: Row, settings: Settings, as_of: date) -> str:
    day = row["runs_out_on"]
    if day is None:
        return ""
    when = (
        "may be used up already"
        if day <= as_of
        else f"runs out first, about {wording.day(day, settings, day.year != as_of.year)}"
    )
    return f"; {row['product']} {when}"


def expiry_sentence(reorder: pl.DataFrame, settings: Settings, as_of: date) -> str:
    """What expires before it is used; empty where nothing does, or no delivery says when it expires."""
    lost = reorder.filter(pl.col("expiring_g") > 0).sort("expires_on", "product_id")
    if lost.is_empty():
        return ""
    names = _named(
        lost.to_dicts(),
        lambda row: (
            f"{row['product']} ({wording.grams(row['expiring_g'], settings)}, "
            f"{'expired on' if row['expires_on'] < as_of else 'from'} {wording.day(row['expires_on'], settings)})"
        ),
    )
    cost = wording.money(lost["expiring_cost"].sum(), settings)
    return f"At this use {cost} of product expires before it is used: {names}."


def slow_lines(reorder: pl.DataFrame) -> pl.DataFrame:
    """Retail that lies longer than half a year at its present use, what ties up most on top."""
    lies = pl.col("weeks_left").is_null() | (pl.col("weeks_left") > SLOW_WEEKS)
    held = (pl.col("kind") == "retail") & (pl.col("closing_value") > 0)
    return reorder.filter(held & lies).sort("closing_value", "product_id", descending=[True, False])


def slow_sentence(reorder: pl.DataFrame, settings: Settings) -> str:
    """Retail lines that hardly sell, and what they tie up; empty where no retail is on the shelf."""
    if reorder.filter((pl.col("kind") == "retail") & (pl.col("closing_value") > 0)).is_empty():
        return ""
    slow = slow_lines(reorder)
    if slow.is_empty():
        return "No retail line on the shelf lies longer than half a year as it sells now."
    tied = wording.money(slow["closing_value"].sum(), settings)
    names = _named(slow.to_dicts(), lambda row: f"{row['product']} ({wording.money(row['closing_value'], settings)})")
    lines = wording.counted(slow.height, "retail line lies", "retail lines lie", settings)
    return (
        f"{lines} longer than half a year as sold now and {'ties' if slow.height == 1 else 'tie'} up {tied}: {names}."
    )


def _named(rows: list[Row], named) -> str:  # type: ignore[no-untyped-def]
    """The first few by name, the others by number."""
    names = [named(row) for row in rows[:NAMED]]
    more = len(rows) - NAMED
    return wording.listed([*names, f"{more} more"] if more > 0 else names)
