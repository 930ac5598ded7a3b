"""One export in many files, a month or a sheet each: the fullest of them is read for all.

Where words know the headings, the same headings over the same kinds of values are enough. Where they do not, files that
are numbered through may as well be different tables: then the files must also lie apart in time, as months do, and hold
the same services, people or words.
"""

import re
from collections.abc import Container
from datetime import datetime, timedelta

from analytics.intake.cells.days import MONTHS
from analytics.intake.evidence.points import DAY_KINDS
from analytics.intake.evidence.profile import Profile, included
from analytics.intake.evidence.view import View
from analytics.intake.meaning.table_rules import named_like
from analytics.intake.meaning.words.spelling import plain

OVERLAP = 0.5  # of the shorter time, from which two files are of the same time
OFTEN = 0.25  # different values by filled cells, up to which values recur
SAME = 0.5  # of the cells whose values recur in the other file


def fullest_of_months(views: dict[str, View], known: Container[str]) -> dict[str, str]:
    """By sheet: the one with most rows among those it is one export with. known: sheets whose headings words know."""
    groups: dict[tuple[object, ...], list[str]] = {}
    for name, view in views.items():
        kinds = tuple(column.kind for column in view.columns)
        groups.setdefault((_like(name), tuple(view.headings), kinds), []).append(name)
    fullest: dict[str, str] = {}
    for group in groups.values():
        largest: list[str] = []
        for name in sorted(group, key=lambda one: -views[one].rows):
            same = (one for one in largest if name in known or _same_export(views[name], views[one]))
            fullest[name] = next(same, name)
            largest += [name] if fullest[name] == name else []
    return {name: fullest[name] for name in views}


def _like(name: str) -> str:
    """What the names of a salon's sheets have in common from month to month."""
    file, mark, sheet = name.partition("#")
    words = [word for word in re.split(r"[\W\d_]+", plain(sheet)) if word and word not in MONTHS]
    return f"{named_like(file)}{mark}{' '.join(words)}"


def _same_export(view: View, other: View) -> bool:
    """Of two sheets of the same headings and kinds of values, that nothing else is known of."""
    days = view.of_kind(*DAY_KINDS)
    apart = any(_apart(view.columns[at], other.columns[at]) for at in days)
    return apart and all(map(_recur, view.columns, other.columns))


def _apart(column: Profile, other: Profile) -> bool:
    (first, last), (begin, end) = _span(column), _span(other)
    both = min(last, end) - max(first, begin)
    return both < timedelta(0) or both < OVERLAP * min(last - first, end - begin)


def _span(column: Profile) -> tuple[datetime, datetime]:
    return min(column.moments.values()), max(column.moments.values())


def _recur(column: Profile, other: Profile) -> bool:
    """Whether values that stand often stand in the other too."""
    often = column.kind == "text" and column.different <= OFTEN * column.filled
    return not often or included(column, other) >= SAME
