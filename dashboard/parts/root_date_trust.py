"""How far the root dates can be trusted: the backtest in a sentence and a picture. It takes seconds, once a book."""

from dataclasses import replace

import polars as pl

from analytics.figures.backtest import scores_of
from analytics.methods.calibration import reliability
from analytics.sentences.backtest import CALIBRATION_NOTE, backtest_sentence, chance_sentence
from dashboard import charts
from dashboard.data import Reading
from dashboard.parts import layout


def show(read: Reading) -> None:
    """The sentence, the picture and the table of the backtest."""
    rows = replace(read, chair=None).rows("backtest")
    scores = scores_of(rows)
    sentence = backtest_sentence(scores, read.settings)
    layout.said(sentence)
    layout.said(chance_sentence(scores, read.settings))
    by_width, by_chance = _by_width(rows), reliability(rows["chance_within_90_days"], rows["came_within_90_days"])
    if not by_width.is_empty() and not by_chance.is_empty():
        layout.picture(charts.calibration(by_width, by_chance, layout.paper()), sentence, "calibration")
        layout.note(CALIBRATION_NOTE)


def _by_width(rows: pl.DataFrame) -> pl.DataFrame:
    """Of those who came: whether within the range, against how many days wide it was."""
    came = rows.drop_nulls(["came_on", "expected_low_on", "expected_high_on"])
    width = (came["expected_high_on"] - came["expected_low_on"]).dt.total_days() + 1
    inside = came.select(pl.col("came_on").is_between("expected_low_on", "expected_high_on")).to_series()
    return reliability(width, inside)
