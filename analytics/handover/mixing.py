"""The mixing card: what to mix, on one page in large type, for the wall of the mixing corner."""

import argparse
from pathlib import Path
from typing import Any

import polars as pl

from analytics import wording
from analytics.handover.paper import paper
from analytics.periods import Period
from analytics.salon import Salon
from analytics.sentences.waste import CAUTIONS
from analytics.settings import Settings
from analytics.storage.private_files import write_private

MOST_ROWS = 20  # what one page holds
SIZES_PT = ((5, 26), (7, 20), (9, 16), (14, 11), (MOST_ROWS, 8))  # up to so many rows, in this size
BY_EYE = "mixing by eye has cost less, so only hold it against this"


def write(salon: Salon, period: Period | None, asked: argparse.Namespace) -> list[Path]:
    """The card as a PDF file."""
    return [write_private(card(salon, period), asked.pdf)]


def card(salon: Salon, period: Period | None = None) -> bytes:
    """The card of the amounts advised from the bowls of the period; None: all months of the book."""
    mixing, settings = salon.figure("mixing", period), salon.settings
    covered = salon.cover if period is None else salon.cover.cut(period)
    advised = mixing.drop_nulls("advised_mix_g").sort("visits", "service", descending=[True, False])
    data = {
        "rows": [_printed(row, settings) for row in advised.head(MOST_ROWS).to_dicts()],
        "size": next(size for most, size in SIZES_PT if min(advised.height, MOST_ROWS) <= most),
        "foot": _foot(mixing, advised, settings),
        "caution": CAUTIONS,
        "says": "Grams of colour or lightener for one head of ordinary hair; developer as the maker's ratio says. More "
        "for long, thick or curly hair, less for short. Weigh what is left: that is where these amounts come from.",
    }
    months = wording.month_range(covered.months(), settings) if covered.months() else "no bowls yet"
    return paper("mixing", data, settings, title="How much to mix", period=months, made_on=salon.as_of)


def _printed(row: dict[str, Any], settings: Settings) -> dict[str, str]:
    second = wording.share(row["second_bowl_share"], settings)
    as_now = float(row["saving_as_mixed"]) < 0
    return {
        "service": wording.plain_cell(row["service"]),
        "kind": row["kind"],
        "mix": wording.grams(row["advised_mix_g"], settings),
        "usual": wording.grams(row["usual_mix_g"], settings),
        "more": f"{BY_EYE if as_now else 'nine in ten need up to ' + wording.grams(row['used_p90_g'], settings)}; "
        f"a second bowl in {second} of visits",
    }


def _foot(mixing: pl.DataFrame, advised: pl.DataFrame, settings: Settings) -> str:
    """What is not on the card."""
    few = mixing.filter(pl.col("advised_mix_g").is_null())
    names = [wording.plain_cell(name) for name in few["service"].unique(maintain_order=True).head(MOST_ROWS)]
    why = "too few bowls were weighed, or costs are not known"
    said = [f"No amount yet for {wording.listed(names)}: {why}."] if names else []
    if left_out := advised.slice(MOST_ROWS).height:
        rarer = wording.counted(left_out, "rarer amount is", "rarer amounts are", settings)
        said.append(f"{rarer} left out.")
    return " ".join(said)
