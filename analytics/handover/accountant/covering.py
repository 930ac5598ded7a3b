"""What a person reads first: what needs a decision, what changed since the last handover, what was assumed.

Sentences are chosen by what the period holds; the amounts in them are those of the sheets.
"""

from collections.abc import Iterable
from typing import Any

import polars as pl

from analytics import wording
from analytics.handover.accountant.closed_periods import Closed
from analytics.handover.accountant.journal import item_words
from analytics.handover.accountant.period_rows import Gathered
from analytics.handover.accountant.sheets.sheet import AccountSheet
from analytics.handover.accountant.sheets.stock import VALUATIONS
from analytics.handover.accountant.verdict import Verdict, verdict_words
from analytics.periods import Period
from analytics.records.money.deposits import taxed_on_receipt
from analytics.settings import Settings

NAMED = 3  # products named in a sentence
MOST_CHANGES = 8
Said = list[tuple[str, str]]  # what it is about, and a sentence or two

REGIMES = {"included": "Prices hold the tax", "added": "Tax is added to prices"}
PER = {"booking": "visit", "line": "line"}
PURPOSES = {"multi_purpose": "taxed when they are used", "single_purpose": "taxed when they are sold"}
DEPOSITS = {True: "taxed when they are received", False: "taxed with their visit"}
MISSED = {
    "returned": "After a no-show they are owed until they are returned.",
    "kept": "After a no-show they are kept, {} the tax.",
}
TIPS = {"outside": "Freely given: outside the tax, and passed on.", "inside": "A compulsory charge: inside the tax."}


def rows_aside(gathered: Gathered, period: Period) -> tuple[int, int, int]:
    """How many rows were set aside with a day in the period, with another day, and with none that can be read."""
    rows = gathered.salon.book.set_aside
    dated = rows.filter(period.holds(pl.col("day"))), rows.filter(~period.holds(pl.col("day")))
    inside, other = (part.height for part in dated)
    return inside, other, rows["day"].null_count()


def aside_words(gathered: Gathered, period: Period) -> str:
    """'2 rows of this period are in no sum; 9 more have another date, 1 has none.' Empty where there are none."""
    settings = gathered.settings
    inside, other, undated = rows_aside(gathered, period)
    if not inside + other + undated:
        return ""
    first = wording.counted(inside, "row of this period is in no sum", "rows of this period are in no sum", settings)
    more = "more " if inside else ""
    rest = [(other, f"{more}has another date", f"{more}have another date"), (undated, "has no date", "have no date")]
    said = [wording.counted(count, one, many, settings) for count, one, many in rest if count]
    opening = first if inside else "No row of this period was set aside"
    return "; ".join([opening, *([", ".join(said)] if said else [])]) + "."


def not_in_these_sums(gathered: Gathered, period: Period) -> Said:
    """Rows that were set aside, and months that the records do not cover."""
    aside, cover = aside_words(gathered, period), gathered.salon.cover
    said = [("Rows set aside", aside)] if aside else []
    if cover.cut(period) != period:
        months = cover.months()
        held = f"are of {wording.month_range(months, gathered.settings)} only" if months else "are empty"
        said.append(("Not on record", f"The records {held}."))
    return said


def decisions(gathered: Gathered, period: Period, found: Verdict, known: dict[str, AccountSheet]) -> Said:
    """What somebody has to look at or decide before these figures are final."""
    said: Said = []
    if found.open_items or (found.settled and not found.payments):
        where = " Each stands in differences.csv with its cause." if found.open_items else ""
        said.append(("Unreconciled differences", verdict_words(found, gathered) + where))
    inside, _, undated = rows_aside(gathered, period)
    for what, how in not_in_these_sums(gathered, period):
        if what != "Rows set aside":
            said.append((what, how))
        elif inside + undated:
            may = "; what has no date may belong to this period" if undated else ""
            said.append((what, f"{how} They stand in set_aside.csv{may}."))
    said += [*_of_vouchers(gathered, known), *_of_stock(gathered, known)]
    return said


def _of_vouchers(gathered: Gathered, known: dict[str, AccountSheet]) -> Said:
    beyond = known["vouchers"].total("vouchers_beyond")
    if not beyond:
        return []
    amount = wording.money(beyond, gathered.settings)
    how = f"{amount} more was used than was owed on record: what was owed before the records begin has to be entered."
    return [("Vouchers", how)]


def _of_stock(gathered: Gathered, known: dict[str, AccountSheet]) -> Said:
    settings, shelves, months = gathered.settings, known["closing_stock"].frame, known["stock"].frame
    said: Said = []
    short = shelves.filter(pl.col("short").is_not_null()).sort("short_since", "product")
    if short.height:
        names = [_short(row, settings) for row in short.head(NAMED).to_dicts()]
        more = [f"{others} more"] if (others := short.slice(NAMED).height) else []
        said.append(
            (
                "Stock below zero",
                f"More was used or sold than delivered or counted of {wording.listed([*names, *more])}: a delivery or "
                "count is missing, or a row is a slip. It stands at nothing.",
            )
        )
    if months.height and months["without_cost"][-1]:
        count = wording.counted(months["without_cost"][-1], "product has", "products have", settings)
        said.append(
            ("Stock without a cost", f"{count} no known cost and no value here; give them one in the products export.")
        )
    written = known["stock"].total("written_down")
    if written:
        amount = wording.money(written, settings)
        said.append(
            (
                "Stock written down",
                f"{amount} in the period, product by product in write_downs.csv: see whether you agree.",
            )
        )
    return said


def _short(row: dict[str, Any], settings: Settings) -> str:
    """'Brush (1 piece, since 12 September 2026)'."""
    unit = ("piece" if row["short"] == 1 else "pieces") if row["unit"] == "pieces" else row["unit"]
    return f"{row['product']} ({row['short'].normalize():f} {unit}, since {wording.day(row['short_since'], settings)})"


def changed(corrections: pl.DataFrame, closed: Iterable[Closed], period: Period, settings: Settings) -> Said:
    """What later exports changed in periods that were handed over for good."""
    before = [one.name for one in closed if one.period.start < period.start]
    if not before:
        return [("First handover", "No earlier period was handed over for good, so there is none to compare with.")]
    if corrections.is_empty():
        return [("Nothing", f"What was handed over of {wording.listed(before)} stands as it was.")]
    in_order = corrections.sort(corrections.columns)
    largest = in_order.sort(pl.col("difference").abs(), descending=True, maintain_order=True)
    said = [(row["period"], _change(row, settings)) for row in largest.head(MOST_CHANGES).to_dicts()]
    count = wording.counted(corrections.height, "amount", "amounts", settings)
    where = f"they stand in corrections.csv, and in the journal on {wording.day(period.start, settings)}"
    return [*said, ("In all", f"{count} changed; {where}.")]


def _change(row: dict[str, Any], settings: Settings) -> str:
    """'Services at 21 %, 4 March 2026: €24.79 then, €29.79 now.' On the side of the account that it is on."""
    on_the_left = row["original"] + row["new"] >= 0
    shown = (row[name] if on_the_left else -row[name] for name in ("original", "new"))
    then, now = (wording.money(amount or 0, settings) for amount in shown)
    return f"{item_words(row['item'])}, {wording.day(row['day'], settings)}: {then} then, {now} now."


def assumed(gathered: Gathered, known: dict[str, AccountSheet]) -> Said:
    """What the figures rest on that no row of an export says."""
    settings = gathered.settings
    tax, accounting = settings.tax, settings.accounting
    rate = f"{tax.default_rate.normalize():f} % is taken where no row, product or service names a rate."
    said: Said = [
        ("Tax", f"{REGIMES[tax.prices]}; it is rounded per {PER[tax.round_per]} and rate. {rate}"),
        ("Vouchers", f"They are {PURPOSES[accounting.vouchers]}."),
        ("Deposits", _deposit_words(settings)),
        ("Tips", TIPS[accounting.tips]),
    ]
    fees = known["payments_by_method"].total("assumed_fees")
    if fees:
        percent = f"{settings.costs.card_fee_percent.normalize():f}"
        said.append(
            (
                "Payment fees",
                f"{wording.money(fees, settings)}: {percent} % of what was paid by card, as no payment states a fee.",
            )
        )
    if accounting.tolerance:
        said.append(
            (
                "Tolerance",
                f"A visit's difference up to {wording.money(accounting.tolerance, settings)} counts as agreed.",
            )
        )
    if not gathered.stocked.nothing:
        said.append(("Stock", _stock_words(settings)))
    sites = sorted(filter(None, {*gathered.money.lines["site"], *gathered.money.paid["site"]}))
    if sites:
        said.append(("Group", f"{wording.listed(sites)} are handed over together; the column site tells them apart."))
    said += [(f"Made: {row['column']}", f"In {row['table']}, {row['how']}.") for row in _made(gathered)]
    return said


def _deposit_words(settings: Settings) -> str:
    missed = MISSED[settings.accounting.missed_deposits].format(settings.accounting.kept_deposits)
    return f"They are {DEPOSITS[taxed_on_receipt(settings)]}. {missed}"


def _stock_words(settings: Settings) -> str:
    days = settings.stock.unsaleable_after_days
    still = f" or was not moved for {days} days" if days else ""
    return (
        f"Recorded stock at cost without tax, {VALUATIONS[settings.stock.valuation]}; what has expired{still} is "
        "written down to nothing. The page Stock estimates what is probably there, which is another amount."
    )


def _made(gathered: Gathered) -> list[dict[str, str]]:
    """What loading made of other columns, each once."""
    made = gathered.salon.book.made.unique(["table", "column", "how"], keep="first", maintain_order=True)
    return made.sort("table", "column", "how").to_dicts()
