"""What was never set stands beside every figure that would be another if it were, and beside none once it is set."""

import pytest
from figures.test_every_figure import BOTH_MONTHS, EVERY, busy_salon
from frames import product_log, work_out

from analytics.sentences.assumed import COSTS, HOURS, Assumed, never_set
from analytics.settings import parse_settings

NAME = '[salon]\nname = "Small"\n'
SHORT_HOURS = '[hours]\ntue = "09:00-09:30"\n'
RENT = "[costs]\nper_month = 5000\n"
LOG = [
    {"product_id": "DYE", "booking_id": f"V{number}", "logged_at": f"2026-03-{number + 1:02} 09:00", "mixed_g": "40",
     "left_g": number % 9}
    for number in range(30)
]  # fmt: skip


@pytest.mark.parametrize(("before", "assumed"), [(RENT, HOURS), (SHORT_HOURS, COSTS)])
def test_every_figure_that_changes_is_named(before: str, assumed: Assumed) -> None:
    """Asked of a salon in which much stands at the same moment, on two days."""
    salon = busy_salon(3) | {"product_log": product_log(*LOG)}

    def answered(name: str, settings: str):  # type: ignore[no-untyped-def]
        asked = {"period": BOTH_MONTHS, "cover": BOTH_MONTHS, "salon": parse_settings(NAME + settings)}
        return work_out(name, **salon, **asked)

    both = SHORT_HOURS + RENT
    changed = {name for name in EVERY if not answered(name, before).equals(answered(name, both))}
    assert changed and changed <= set(assumed.figures)
    assert set(assumed.figures) <= set(EVERY)


def test_what_is_set_is_not_said() -> None:
    assert never_set(parse_settings(NAME)) == [HOURS.says, COSTS.says]
    assert never_set(parse_settings(NAME), ["tax", "takings"]) == []
    assert never_set(parse_settings(NAME), ["roots"]) == [HOURS.says]
    assert never_set(parse_settings(NAME + "[costs]\nper_month = 0\n"), ["prices"]) == [HOURS.says]
    assert never_set(parse_settings(NAME + "[costs]\ncard_fee_percent = 1\n")) == [HOURS.says, COSTS.says]
    assert never_set(parse_settings(NAME + SHORT_HOURS + RENT)) == []
