"""Where what was paid differs from what was due; every cause has its case in tests/records/test_unsettled.py."""

import pytest
from frames import agrees, bookings, days, only, payments, services, settings, small_salon, visit, work_out

BOTH = days("2026-02-01", "2026-04-01")
MENU = services({"service_id": "CUT", "kind": "cut"})
V1 = visit("V1", "2026-03-03 10:00", 60, ("CUT", "40"))
V0 = visit("V0", "2026-03-03 12:00", 60, ("CUT", "10"))


def differences(*paid: tuple[str, str], **given: object):
    """Of a cut of 40.00: (day, amount) of its payments; another visit is paid, so that payments name visits."""
    rows = [{"paid_at": f"{day} 12:00", "booking_id": "V1", "amount": amount} for day, amount in paid]
    rows.append({"paid_at": "2026-03-03 13:00", "booking_id": "V0", "amount": "10"})
    tables = {"bookings": bookings(V1, V0), "services": MENU, "payments": payments(*rows)}
    return work_out("differences", **tables, **{"period": BOTH, "cover": BOTH} | given)


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("differences", period=BOTH, **small_salon()), "differences")


def test_adds_up_to_the_reconciliation() -> None:
    small = small_salon()
    found, whole = (work_out(name, period=BOTH, **small) for name in ("differences", "reconciliation"))
    assert found["difference"].sum() == whole["difference"].sum()


def test_what_agrees_has_no_row_nor_has_an_empty_salon_or_month() -> None:
    assert differences(("2026-03-03", "40")).is_empty()
    assert work_out("differences").is_empty()
    assert differences(period=days("2026-02-01", "2026-03-01")).is_empty()


@pytest.mark.parametrize(("tolerance", "tolerated"), [(0, False), (0.5, True)])
def test_what_the_settings_tolerate_is_not_open(tolerance: float, tolerated: bool) -> None:
    row = only(differences(("2026-03-03", "39.50"), salon=settings(accounting={"tolerance": tolerance})))
    assert (row["left"], row["tolerated"], row["open"]) == (-0.5, tolerated, not tolerated)


def test_what_was_paid_on_another_day_leaves_nothing_open() -> None:
    frame = differences(("2026-03-05", "40"))
    assert frame.select("difference", "left", "cause", "open").rows() == [
        (-40, 0, "other_day", False), (40, 0, "other_day", False),
    ]  # fmt: skip


def test_a_refund_that_was_not_booked_is_open() -> None:
    row = only(differences(("2026-03-03", "40"), ("2026-03-03", "-15")))
    assert (row["due"], row["paid"], row["difference"], row["open"]) == (40, 25, -15, True)
