"""What crosses rows and tables, as frames to judge: one row per thing, its file and row, and one number.

Each file here is one subject and ends with its crossings: the number's range becomes an expectation in checks.py, and
what lies outside it is a warning. Nothing here decides or drops anything: rows are used as they stand.
"""

from analytics.checks.cross_checks import (
    calendar_gaps,
    clients,
    colour_bowls,
    lost_files,
    named,
    paid,
    prices,
    short_weeks,
    silent_months,
    stylists,
    visit_lines,
)

CROSSINGS = (
    *visit_lines.CROSSINGS,
    *paid.CROSSINGS,
    *prices.CROSSINGS,
    *colour_bowls.CROSSINGS,
    *named.CROSSINGS,
    *clients.CROSSINGS,
    *calendar_gaps.CROSSINGS,
    *short_weeks.CROSSINGS,
    *lost_files.CROSSINGS,
    *silent_months.CROSSINGS,
    *stylists.CROSSINGS,
)
