"""What the figures say, in one plain sentence each, made by rules from result frames.

A sentence holds the number that matters, its period, and whether it is news; too little data is said in words.
"""

from analytics.sentences.accountant import FOR_THE_ACCOUNTANT, accountant_sentence, charged_before
from analytics.sentences.bowls import coverage_sentence
from analytics.sentences.chairs import chairs_sentence, costs_of, under_cost, under_sentence
from analytics.sentences.changes import (
    BRIDGE_SAYS,
    NOTHING_BEFORE,
    Step,
    bridge,
    change_sentence,
    comparisons,
    movers,
    other_month,
)
from analytics.sentences.exports import (
    NOT_LOADED,
    NOTHING_YET,
    STALE,
    WHERE_TO_LOAD,
    exports_sentence,
    foot,
    narrowed,
    site_name,
)
from analytics.sentences.judged import ABOVE, BELOW, ORDINARY, standing
from analytics.sentences.minutes import minutes_sentence, processing_sentence, stylists_sentence
from analytics.sentences.month import days_sentence, figure_lines, month_sentence, outside_sentence
from analytics.sentences.not_in_sums import not_in_sums_sentence
from analytics.sentences.prices import (
    TRIAL_ASSUMES,
    TriedPrice,
    aim_sentence,
    lines_say,
    prices_sentence,
    product_says,
    proposal_sentence,
    trial_numbers,
    trial_sentence,
)
from analytics.sentences.resting import resting_on
from analytics.sentences.roots import nobody_came, order_note, roots_cautions, roots_sentence, ruler_note, then_sentence
from analytics.sentences.statement import (
    RANGES_SAY,
    FigureLine,
    before_after,
    first_figures,
    range_says,
    statement,
    statement_line,
)
from analytics.sentences.week import empty_sentence, week_sentence, weekday_name

__all__ = [
    "ABOVE",
    "BELOW",
    "BRIDGE_SAYS",
    "FOR_THE_ACCOUNTANT",
    "NOTHING_BEFORE",
    "NOTHING_YET",
    "NOT_LOADED",
    "ORDINARY",
    "RANGES_SAY",
    "STALE",
    "TRIAL_ASSUMES",
    "WHERE_TO_LOAD",
    "FigureLine",
    "Step",
    "TriedPrice",
    "accountant_sentence",
    "aim_sentence",
    "before_after",
    "bridge",
    "chairs_sentence",
    "change_sentence",
    "charged_before",
    "comparisons",
    "costs_of",
    "coverage_sentence",
    "days_sentence",
    "empty_sentence",
    "exports_sentence",
    "figure_lines",
    "first_figures",
    "foot",
    "lines_say",
    "minutes_sentence",
    "month_sentence",
    "movers",
    "narrowed",
    "nobody_came",
    "not_in_sums_sentence",
    "order_note",
    "other_month",
    "outside_sentence",
    "prices_sentence",
    "processing_sentence",
    "product_says",
    "proposal_sentence",
    "range_says",
    "resting_on",
    "roots_cautions",
    "roots_sentence",
    "ruler_note",
    "site_name",
    "standing",
    "statement",
    "statement_line",
    "stylists_sentence",
    "then_sentence",
    "trial_numbers",
    "trial_sentence",
    "under_cost",
    "under_sentence",
    "week_sentence",
    "weekday_name",
]  # fmt: skip
