"""How much colour or lightener to mix for each service, so that least is wasted without running short.

What hair took is what was mixed less what was weighed afterwards, with second bowls of a visit added to the first. Of a
bowl that was not weighed only its limit is known (used up to what was mixed, more than the first bowl where a second
followed); it is shared over what weighed bowls of about that size took, neither taken for empty nor left out. The
median and the amount that nine in ten needs stay within come from that. Usual is the median of what is mixed first.

Advised is the newsvendor amount: the share cu ÷ (cu + co) of needs is covered, in steps of the scale ([mixing] step_g).
co is what a gram thrown away cost, with the developer that went with it, at the pack costs of its day. cu is what a
gram short costs: the least that is mixed again ([mixing] second_bowl_g) and the chair minutes of mixing again ([mixing]
minutes, at what an open chair hour costs, or where salon.toml names no costs at what a chair hour brought net) ÷ the
grams a bowl falls short by, taken as how far needs above the median lie above it. Second bowls are the share of visits
in which the advised amount is expected not to be enough. The saving a month is what the logged visits would have cost,
in grams left and grams short, with the usual amount every time, less the same with the advised one, over the months
with bowls in the log. Who mixes more for long hair than for short does better than any one amount: saving_as_mixed is
against the bowls as they were mixed, and where it is below zero no fixed amount beats mixing by eye. Own clients are
those of `mixing_clients` for whom an amount of their own would save against the bowls as they were mixed; the saving
with own amounts is theirs together. With fewer than 8 weighed bowls nothing is advised. Amounts help with planning and
are no instruction: the maker's ratios and times come first.
"""

import polars as pl

from analytics.definitions.results import CLIENTS, MONEY, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.chairs.chair_hour import chair_hour_cost
from analytics.records.chairs.validity import latest_names
from analytics.records.product.advice import ADVICE, advised
from analytics.records.product.bowl_rows import BowlRows
from analytics.records.product.mixes import mixed_bowls, needs
from analytics.records.product.own_amounts import own_amounts

RESULT = Result(
    "one row per service and colour or lightener",
    key=("service_id", "kind"),
    columns={
        "service_id": Column(TEXT, "line of the menu"),
        "service": Column(TEXT, "its name"),
        **ADVICE,
        "own_clients": Column(CLIENTS, "clients for whom an amount of their own would save"),
        "saving_own_amounts": Column(MONEY, "what those own amounts save a month, against what was mixed"),
    },
)

FEWEST_WEIGHED = 8
KEY = ["service_id", "kind"]


def mixing(mixed: BowlRows, *, period: Period) -> pl.DataFrame:
    """One row per service and kind of main product (colour, lightener); grams of that, money in the currency."""
    rows = mixing_rows(mixed, period=period)
    services, settings = mixed.tables["services"], mixed.settings
    hour = chair_hour_cost(mixed.tables["bookings"], services, settings, period)
    return RESULT.shape(
        advised(rows, KEY, FEWEST_WEIGHED, hour, settings)
        .join(_own(own_amounts(mixed, period)), on=KEY, how="left")
        .join(latest_names(services), on="service_id", how="left")
        .with_columns(pl.col("own_clients", "saving_own_amounts").fill_null(0))
        .with_columns(service=pl.coalesce("service", "service_id"))
        .sort("service_id", "kind")
    )


def mixing_rows(mixed: BowlRows, *, period: Period) -> pl.DataFrame:
    """What hair took, one row per visit, service and products: grams mixed first, and the limits of what was used."""
    log = mixed.by_bowl.filter(period.holds(pl.col("logged_at")))
    return needs(mixed_bowls(log), mixed.tables["bookings"]).filter(pl.col("service_id").is_not_null())


def _own(amounts: pl.DataFrame) -> pl.DataFrame:
    """Per service and kind: the clients whose own amount saves, and what their amounts save together."""
    saving = amounts.filter(pl.col("saving_as_mixed") > 0).group_by(KEY)
    return saving.agg(own_clients=pl.len().cast(pl.Int64), saving_own_amounts=pl.col("saving_as_mixed").sum())


FIGURE = Figure(mixing, mixing_rows, RESULT)
