"""What was left in the bowls, where most could be saved, and what must be said wherever amounts stand."""

from dataclasses import dataclass
from decimal import Decimal

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.sentences.judged import against
from analytics.settings import Settings

MOST_SAVINGS = 3
LEAST_SAVING = Decimal("0.5")  # a month; less is no amount in whole units of the currency
CAUTIONS = (
    "Amounts and strengths are those of the log and help with planning; they are no instruction. The maker's "
    "instructions and ratios come first, then local rules and licensed practice. Skin-test as the maker says. No "
    "colour on irritated or broken skin, nor after an earlier reaction. Lightener is not overlapped on lightened hair."
)
LEFT_SAYS = (
    "Only bowls weighed after the service tell what is left; their share of cost is carried over to those that were "
    "not. A range said to be likely holds 8 times in 10, for all colour work. Of what nobody logged nothing is known."
)


def row_of_all(waste: pl.DataFrame, month: str) -> Row | None:
    """The row of all bowls in a month of the figure `waste`."""
    found = waste.filter((pl.col("split") == "all") & (pl.col("month") == month))
    return found.row(0, named=True) if found.height else None


def waste_sentence(waste: pl.DataFrame, settings: Settings, month: str) -> str:
    """What the product left in the bowls cost, whether that is news, and how far bowls were weighed and logged."""
    title, row = wording.month_title(month, settings), row_of_all(waste, month)
    if row is None or not row["bowls"]:
        return f"No bowl was logged in {title}, so nothing can be said about what was left over."
    if not row["weighed_bowls"]:
        mixed = wording.grams(row["mixed_g"], settings)
        known = f"{title}: {mixed} were mixed and no bowl was weighed afterwards, so what was left is not known"
        return f"{known}{_covered(row, settings)}."
    share = f"{wording.share(row['left_share'], settings)} of what was weighed"
    if row["left_cost_likely"] is None:
        said = f"In {title}, {share} was left in the bowls; its cost is not known"
    else:
        cost = wording.money(row["left_cost_likely"], settings, whole=True)
        start = "So far in" if row["part_month"] else "In"
        said = f"{start} {title}, about {cost} of product was likely left in all bowls{_news(row, settings)}"
        said = f"{said}. That is {share}"
    return f"{said}{_covered(row, settings)}."


def _news(row: Row, settings: Settings) -> str:
    if row["part_month"]:
        return ""
    low, high = row["usual_cost_low"], row["usual_cost_high"]
    range_ = {"usual_low": low, "usual_high": high, "unit": settings.salon.currency, "judged": low is not None}
    return against(row | range_, settings)


def _covered(row: Row, settings: Settings) -> str:
    said = f", with {wording.share(row['weighed_share'], settings)} of the bowls weighed"
    if row["logged_share"] is None:
        return said
    return f"{said} and {wording.share(row['logged_share'], settings)} of colour services logged"


def range_sentence(waste: pl.DataFrame, settings: Settings, month: str) -> str:
    """How sure the month's numbers are; empty where there is no range."""
    row = row_of_all(waste, month)
    if row is None or row["left_cost_low"] is None or row["left_share_low"] is None:
        return ""
    known = wording.money(row["left_cost"], settings, whole=True)
    cost = "–".join(wording.money(row[name], settings, whole=True) for name in ("left_cost_low", "left_cost_high"))
    share = "–".join(wording.share(row[name], settings) for name in ("left_share_low", "left_share_high"))
    return (
        f"{known} was left in weighed bowls. Left in all bowls of the log was {cost} with a chance of 8 in 10, and for "
        f"all colour work the share left is {share}."
    )


@dataclass(frozen=True)
class Saving:
    """What could be saved in a month, and by what."""

    amount: Decimal
    by: str


def savings_sentence(mixing: pl.DataFrame, waste: pl.DataFrame, settings: Settings, month: str) -> str:
    """The three largest savings in money: other amounts for a service or its known clients, or the salon's share left.

    mixing: the figure `mixing`; savings there are against what was mixed by eye. waste: the figure of all months.
    """
    found = [*_by_service(mixing, settings), *_by_all_alike(waste, settings, month)]
    largest = sorted(found, key=lambda saving: saving.amount, reverse=True)[:MOST_SAVINGS]
    if not largest:
        return "No saving stands out: mixing by eye, as now, does better than any fixed amount the log can tell."
    said = [f"{wording.money(saving.amount, settings, whole=True)} {saving.by}" for saving in largest]
    more = "; they overlap, so they do not add up" if len(said) > 1 else ""
    return f"What could be saved in a month: {wording.listed(said)}{more}."


def _by_service(mixing: pl.DataFrame, settings: Settings) -> list[Saving]:
    """Per service the larger of one amount for all and own amounts for the clients it is known of."""
    best = []
    for row in mixing.to_dicts():
        service = wording.plain_cell(row["service"])
        amounts = " instead of ".join(wording.grams(row[name], settings) for name in ("advised_mix_g", "usual_mix_g"))
        for_all = Saving(row["saving_as_mixed"] or Decimal(0), f"with {amounts} of {row['kind']} for {service}")
        known = wording.counted(row["own_clients"], "client", "clients", settings)
        own_amounts = Saving(row["saving_own_amounts"], f"with an own amount for each of {known} in {service}")
        best.append(max(for_all, own_amounts, key=lambda saving: saving.amount))
    return [saving for saving in best if saving.amount >= LEAST_SAVING]


def _by_all_alike(waste: pl.DataFrame, settings: Settings, month: str) -> list[Saving]:
    """What it would save if nobody left more than is left in all; who does stands in the table, not here."""
    row = row_of_all(waste, month)
    if row is None or not row["saving_at_salon_share"]:
        return []
    share = wording.share(row["left_share"], settings)
    return [Saving(row["saving_at_salon_share"], f"by bringing everyone to the salon's {share} left in the bowl")]


def worth_changing(mixing: pl.DataFrame) -> pl.DataFrame:
    """The amounts that save something against mixing by eye, the most on top; no other amount is worth showing."""
    saves = mixing.filter(pl.col("advised_mix_g").is_not_null() & (pl.col("saving_as_mixed") >= LEAST_SAVING))
    return saves.sort("saving_as_mixed", "service_id", "kind", descending=[True, False, False])


def by_eye_sentence(mixing: pl.DataFrame) -> str:
    """For what mixing by eye is cheaper than one amount for all; empty where it is for nothing."""
    cheaper = mixing.filter(pl.col("advised_mix_g").is_not_null() & (pl.col("saving_as_mixed") < LEAST_SAVING))
    names = [f"{wording.plain_cell(row['service'])} ({row['kind']})" for row in cheaper.iter_rows(named=True)]
    return f"By eye, as now, is cheaper than one amount for {wording.listed(names)}." if names else ""


def mixing_sentence(mixing: pl.DataFrame, settings: Settings) -> str:
    """How the amounts are meant, and for what there is none yet."""
    step = wording.number(settings.mixing.step_g, settings)
    few = mixing.filter(pl.col("advised_mix_g").is_null())
    names = [f"{wording.plain_cell(row['service'])} ({row['kind']})" for row in few.iter_rows(named=True)]
    missing = f" No amount yet for {wording.listed(names)}: {few['why'][0]}." if names else ""
    return (
        f"Grams of colour or lightener, without developer, in steps of {step} g; by eye for hair unlike most.{missing}"
    )
