"""How much to mix, from what hair took: the newsvendor amount of records.mixes.needs."""

from dataclasses import asdict, dataclass
from typing import Any

import numpy as np
import polars as pl

from analytics.definitions.results import BOWLS, GRAMS_WORKED_OUT, MONEY, MONEY_PER_GRAM, SHARE, TEXT, VISITS, Column
from analytics.methods.censored_use import share_point, shared, smoothed
from analytics.methods.newsvendor import (
    Floats,
    best_in_steps,
    chance_short,
    critical_ratio,
    expected_cost,
)
from analytics.money import EXACT, digits_of, rounded
from analytics.settings import Settings

SAVINGS = ("saving_per_month", "saving_as_mixed")
BY_EYE = "mixing by eye, visit by visit as now, costs less than any fixed amount"
MOST_NEEDS = 1000  # the latest; older ones add nothing to what a scale can tell apart
LEAST_SHORT_G = 1.0  # what a scale shows

ADVICE = {  # what figures say of an amount to mix
    "bowls": Column(BOWLS, "bowls in the log, second ones included"),
    "used_median_g": Column(GRAMS_WORKED_OUT, "what half of the visits stay within"),
    "used_p90_g": Column(GRAMS_WORKED_OUT, "what nine in ten visits stay within"),
    "usual_mix_g": Column(GRAMS_WORKED_OUT, "what is usually mixed first, median"),
    "advised_mix_g": Column(GRAMS_WORKED_OUT, "what wastes least without running short"),
    "saving_per_month": Column(MONEY, "what the advised amount saves a month against the usual one"),
    "kind": Column(TEXT, "colour or lightener: what the grams are of"),
    "product": Column(TEXT, "the product of which most went into them"),
    "weighed_bowls": Column(BOWLS, "of these, weighed after the service"),
    "visits": Column(VISITS, "visits they were mixed for, those of other colours apart"),
    "second_bowl_share": Column(SHARE, "visits in which that is expected not to be enough"),
    "second_bowl_seen": Column(SHARE, "visits that had a second bowl in the log"),
    "left_cost_per_g": Column(MONEY_PER_GRAM, "what a gram left over cost, developer with it"),
    "short_cost_per_g": Column(MONEY_PER_GRAM, "what a gram short costs"),
    "covered_share": Column(SHARE, "needs to be covered: short ÷ (short + left)"),
    "saving_as_mixed": Column(MONEY, "the same against what was mixed, visit by visit"),
    "why": Column(TEXT, "why there is no advice, or what else to know"),
}


@dataclass(frozen=True)
class Used:
    """What hair took. points: grams. shares: how much of each need lies at which point, each with first_g mixed."""

    points: Floats
    shares: Floats
    first_g: Floats

    @property
    def weights(self) -> Floats:
        weights: Floats = self.shares.mean(axis=0)
        return weights

    def at(self, share: float) -> float:
        """Grams that so large a share of needs stays within."""
        return share_point(self.points, self.weights, share)


@dataclass(frozen=True)
class Advice:
    """Grams to mix, what a gram left and a gram short cost, the share of needs to be covered, how often a second bowl
    is expected, and what it saves per need: against the usual amount every time, and against what was mixed."""

    advised_mix_g: float
    left_cost_per_g: float
    short_cost_per_g: float
    covered_share: float
    second_bowl_share: float
    saving: float
    saving_as_mixed: float


def used(needs: pl.DataFrame) -> Used | None:
    """What the latest needs took, those that were not weighed as used up to their limits; None where none is known."""
    latest = needs.sort("at", "booking_id", "first_g", "high_g").tail(MOST_NEEDS)
    low, high, first = (latest[name].cast(pl.Float64).to_numpy() for name in ("low_g", "high_g", "first_g"))
    if not (low == high).any():
        return None
    return Used(*shared(low, high, first), first)


def advise(taken: Used, left_cost: float, second_bowl_cost: float, step_g: float) -> Advice:
    """left_cost: of a gram thrown away. second_bowl_cost: of mixing again, above 0 like the other."""
    points, weights = smoothed(taken.points, taken.weights)
    short_cost = second_bowl_cost / _grams_short(points, weights)
    amount = best_in_steps(points, weights, left_cost, short_cost, step_g)
    amounts = np.array([amount, np.median(taken.first_g)])
    then, usual = expected_cost(amounts, taken.points, taken.weights, left_cost, short_cost).tolist()
    return Advice(
        amount,
        left_cost,
        short_cost,
        critical_ratio(left_cost, short_cost),
        chance_short(amount, points, weights),
        usual - then,
        _cost_as_mixed(taken, left_cost, short_cost) - then,
    )


def _grams_short(points: Floats, weights: Floats) -> float:
    """How far the needs above the median lie above it, on average: what a bowl that runs out is short of."""
    middle = share_point(points, weights, 0.5)
    above = points > middle
    short = float(weights[above] @ (points[above] - middle) / weights[above].sum()) if above.any() else 0.0
    return max(short, LEAST_SHORT_G)


def _cost_as_mixed(taken: Used, left_cost: float, short_cost: float) -> float:
    """What the needs cost as their first bowls were mixed, on average: each with its own grams."""
    over = taken.first_g[:, None] - taken.points[None, :]
    costs = left_cost * over.clip(0) - short_cost * over.clip(None, 0)
    return float((taken.shares * costs).sum(axis=1).mean())


def advised(needs: pl.DataFrame, by: list[str], fewest: int, chair_hour: float, settings: Settings) -> pl.DataFrame:
    """One row per group: by…, columns of ADVICE. With fewer than `fewest` weighed bowls nothing is advised.

    chair_hour: what an hour of a chair is worth. Savings are divided by the months in which any need falls.
    """
    months = needs["month"].n_unique()
    rows = [
        {**dict(zip(by, key, strict=True)), **_answer(group, fewest, chair_hour, settings, months)}
        for key, group in needs.group_by(by, maintain_order=True)
    ]
    answered = {name: column.kind.dtype for name, column in ADVICE.items() if name not in by}
    schema = {name: needs.schema[name] for name in by} | answered
    frame = pl.DataFrame(rows, schema=schema | dict.fromkeys(SAVINGS, pl.Float64()))
    digits = digits_of(settings.salon.currency)
    return frame.with_columns(rounded(pl.col(name).round(9).cast(EXACT), digits).alias(name) for name in SAVINGS)


def _answer(group: pl.DataFrame, fewest: int, chair_hour: float, settings: Settings, months: int) -> dict[str, Any]:
    taken, weighed = used(group), int(group["weighed"].sum())
    products = (
        group.group_by("product").agg(pl.col("first_g").sum()).sort("first_g", "product", descending=[True, False])
    )
    known = {
        "product": products["product"][0],
        "bowls": int(group["bowls"].sum()),
        "weighed_bowls": weighed,
        "visits": group.height,
        "usual_mix_g": float(group["first_g"].cast(pl.Float64).median()),  # type: ignore[arg-type]
        "second_bowl_seen": float((group["bowls"] > 1).mean()),  # type: ignore[arg-type]
    }
    if taken is not None:
        known |= {"used_median_g": taken.at(0.5), "used_p90_g": taken.at(0.9)}
    left_cost = _cost_of_a_gram(group)
    if taken is None or weighed < fewest:
        return known | {"why": f"an advice needs {fewest} weighed bowls, and there are {weighed}"}
    if left_cost is None:
        return known | {"why": "no pack cost is known, so grams left and grams short cannot be held against each other"}
    again = settings.mixing.second_bowl_g * left_cost + settings.mixing.minutes / 60 * chair_hour
    advice = advise(taken, left_cost, again, settings.mixing.step_g)
    a_month = {"saving_per_month": advice.saving, "saving_as_mixed": advice.saving_as_mixed}
    answer = known | asdict(advice) | {name: saving * group.height / months for name, saving in a_month.items()}
    return answer | {"why": BY_EYE if advice.saving_as_mixed < 0 else None}


def _cost_of_a_gram(group: pl.DataFrame) -> float | None:
    """What a gram of colour or lightener cost with all that was mixed with it; None where that is not known, or 0."""
    spent, grams = float(group["spent"].sum()), float(group["spent_g"].sum())
    return spent / grams if grams > 0 and spent > 0 else None
