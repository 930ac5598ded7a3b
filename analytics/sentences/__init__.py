"""What the figures say, in one plain sentence each, made by rules from result frames.

A sentence holds the number that matters, its period, and whether it is news; too little data is said in words.
"""

from analytics.sentences.accountant import FOR_THE_ACCOUNTANT, accountant_sentence, charged_before
from analytics.sentences.bowls import bowl_totals, bowls_sentence, coverage_sentence, weighed_sentence
from analytics.sentences.chairs import chairs_sentence, cost_per_open_hour, under_cost, under_sentence
from analytics.sentences.exports import NOTHING_YET, STALE, exports_sentence, foot, narrowed, site_name
from analytics.sentences.judged import ABOVE, BELOW, ORDINARY, standing
from analytics.sentences.month import figure_lines, month_sentence, outside_sentence
from analytics.sentences.roots import roots_cautions, roots_sentence, ruler_note

__all__ = [
    "ABOVE", "BELOW", "FOR_THE_ACCOUNTANT", "NOTHING_YET", "ORDINARY", "STALE", "accountant_sentence", "bowl_totals",
    "bowls_sentence", "chairs_sentence", "charged_before", "cost_per_open_hour", "coverage_sentence",
    "exports_sentence", "figure_lines", "foot", "month_sentence", "narrowed", "outside_sentence", "roots_cautions",
    "roots_sentence", "ruler_note", "site_name", "standing", "under_cost", "under_sentence", "weighed_sentence",
]  # fmt: skip
