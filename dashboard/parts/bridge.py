"""The bridge from one month to another: steps as bars left and right of nothing. Texts are escaped here."""

from html import escape

from analytics import wording
from analytics.sentences import Step
from analytics.settings import Settings
from dashboard.parts.bars import part

HALF = 50.0  # nothing stands in the middle


def drawn(steps: list[Step], settings: Settings) -> str:
    """A bar per step, more to the right and less to the left, to the scale of the longest."""
    scale = max((abs(float(step.amount)) for step in steps), default=0) or 1
    return '<ul class="bridge">' + "".join(_step(step, scale, settings) for step in steps) + "</ul>"


def _step(step: Step, scale: float, settings: Settings) -> str:
    width = HALF * abs(float(step.amount)) / scale
    bar = part(HALF if step.amount >= 0 else HALF - width, width, "more" if step.amount >= 0 else "less")
    more = f"<small>{escape(step.more)}</small>" if step.more else ""
    return (
        f"<li><span>{escape(step.name)}{more}</span><em>{escape(wording.signed(step.amount, settings))}</em>"
        f'<div class="bar" aria-hidden="true">{bar}</div></li>'
    )
