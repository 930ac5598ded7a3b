"""Checks across rows and tables, as frames to judge: one row per thing, its file and row, and one number.

Each file here is one subject and ends with its CROSS_CHECKS: the number's range becomes an expectation, and what lies
outside it is a warning. Nothing here decides or drops anything: rows are used as they stand.
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

CROSS_CHECKS = (
    *visit_lines.CROSS_CHECKS,
    *paid.CROSS_CHECKS,
    *prices.CROSS_CHECKS,
    *colour_bowls.CROSS_CHECKS,
    *named.CROSS_CHECKS,
    *clients.CROSS_CHECKS,
    *calendar_gaps.CROSS_CHECKS,
    *short_weeks.CROSS_CHECKS,
    *lost_files.CROSS_CHECKS,
    *silent_months.CROSS_CHECKS,
    *stylists.CROSS_CHECKS,
)
