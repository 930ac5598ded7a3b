"""How far the root dates can be trusted: the backtest in a sentence and a picture. It takes seconds, once a book."""

from analytics.sentences.backtest import CALIBRATION_NOTE, backtest_sentence, chance_sentence
from dashboard import charts
from dashboard.data import Reading
from dashboard.parts import layout


def show(read: Reading) -> None:
    """The sentences and the picture of the backtest."""
    scores, groups = (read.any_chair.figure(name) for name in ("backtest", "calibration"))
    sentence = backtest_sentence(scores, read.settings)
    layout.said(sentence)
    layout.said(chance_sentence(scores, read.settings))
    by_width, by_chance = (groups.filter(of=of) for of in ("range", "chance"))
    if not by_width.is_empty() and not by_chance.is_empty():
        layout.picture(charts.calibration(by_width, by_chance, layout.paper()), sentence, "calibration")
        layout.note(CALIBRATION_NOTE)
