"""Pictures: the frame of a figure -> a plotly figure. Lengths are the figure's numbers; nothing is worked out here."""

from dashboard.charts.blocks import chair_blocks
from dashboard.charts.calibration import calibration
from dashboard.charts.curves import return_curves
from dashboard.charts.months import months_with_usual, verdict_months
from dashboard.charts.weeks import weeks_ahead

__all__ = ["calibration", "chair_blocks", "months_with_usual", "return_curves", "verdict_months", "weeks_ahead"]
