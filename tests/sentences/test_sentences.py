"""Open time, roots, bowls, tax, exports, dates and money, in words."""

from datetime import date
from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from said_of import PLAIN, frame, measure, service, settings_of

from analytics import sentences, wording


def services_at(opened: float | None, taken: float | None) -> pl.DataFrame:
    """Four services, one without an hour of its own, where an open hour costs and a taken one must carry so much."""
    rows = (service("Toner", 28.10), service("Cut", 61.0), service("Curls", 20.5), service("Mix", None, 0))
    brings = pl.col("after_product_per_chair_hour")
    return (
        frame("chairs", *rows)
        .with_columns(cost_per_open_hour=pl.lit(opened, pl.Float64), cost_per_taken_hour=pl.lit(taken, pl.Float64))
        .with_columns(
            covers_open_hour=brings >= pl.lit(opened, pl.Float64),
            carries_taken_hour=brings >= pl.lit(taken, pl.Float64),
        )
    )


HOUR = measure("net_per_chair_hour", "41.20", "EUR/h", usual_low="38", usual_high="44")


def test_services_that_do_not_carry_a_taken_hour():
    assert sentences.chairs_sentence(services_at(24.0, 29.0), frame("month", HOUR), PLAIN, "2026-10") == (
        "An hour in the chair brought €41.20 net in October 2026, inside its usual €38.00–€44.00 an hour; "
        "2 services do not carry the €29.00 that a taken hour must, product paid, 1 of them not even the €24.00 of an "
        "open hour."
    )
    assert sentences.under_sentence(services_at(24.0, 29.0), PLAIN, "2026-10") == (
        "Less than a taken hour must carry, after product and per chair hour: Curls (€20.50) and Toner (€28.10)."
    )


def test_every_service_carries_a_taken_hour_or_no_costs_are_known():
    month = frame("month", HOUR | {"part_month": True})
    assert sentences.chairs_sentence(services_at(12.0, 20.0), month, PLAIN, "2026-10") == (
        "So far in October 2026, an hour in the chair has brought €41.20 net; the month is not over; "
        "every service carries the €20.00 that a taken hour must, product paid."
    )
    assert sentences.chairs_sentence(services_at(None, None), month, PLAIN, "2026-10").endswith(
        "salon.toml names no costs per month, so no service is compared with them."
    )
    assert sentences.under_sentence(services_at(None, None), PLAIN, "2026-10") == ""
    assert sentences.chairs_sentence(frame("chairs"), frame("month"), PLAIN, "2026-10") == (
        "No chair was taken in October 2026, so there is nothing to divide."
    )


TODAY = date(2026, 10, 31)


def client(state: str, ready_by: date = date(2026, 12, 1)) -> dict[str, Any]:
    return {"client_id": "c", "state": state, "ready_by": ready_by}


def test_roots_count_who_is_due_and_who_soon_passes_one_application():
    rows = frame(
        "roots",
        client("ready", date(2026, 11, 7)),
        client("ready", date(2026, 11, 8)),
        client("nearing"),
        client("long_past"),
        client("booked"),
    )
    assert sentences.roots_sentence(rows, PLAIN, TODAY) == (
        "On 31 October 2026, 2 clients are ready for a root touch-up and not booked; 1 of them passes one application "
        "within a week, 1 more gets there within two weeks and 1 is past one application, a longer booking."
    )
    assert sentences.roots_sentence(frame("roots", client("resting")), PLAIN, TODAY) == (
        "On 31 October 2026, no client is ready for a root touch-up and not booked."
    )
    assert sentences.roots_sentence(frame("roots"), PLAIN, TODAY) == (
        "Up to 31 October 2026 no service that colours the roots is on record, so nobody is due."
    )


def test_a_later_week_says_what_happens_in_it():
    monday = date(2026, 11, 9)
    days = {"ready_from": date(2026, 9, 1), "ready_by": date(2026, 12, 1), "expected_on": date(2026, 11, 15)}
    rows = frame(
        "roots",
        client("nearing") | days | {"ready_from": monday},
        client("ready") | days | {"ready_by": date(2026, 11, 15)},
        client("ready") | days | {"ready_by": monday, "expected_on": date(2026, 11, 16)},
    )
    assert sentences.then_sentence(rows, monday, PLAIN, TODAY) == (
        "In the week of 9–15 November, 1 becomes ready, 2 pass one application and 2 are likely to come unasked."
    )
    nobody = sentences.then_sentence(rows.clear(), monday, PLAIN, TODAY)
    assert nobody == "In the week of 9–15 November nobody falls due."


def test_the_cautions_name_the_salons_own_hours():
    text = sentences.roots_cautions(settings_of("[roots]\npatch_test_hours = 72"))
    assert "72 hours ahead" in text
    for words in ("maker's instructions", "local rules", "broken skin", "earlier reaction", "not overlapped"):
        assert words in text


def test_coverage_is_that_of_the_log():
    rows = frame("bowls", {"month": "2026-09", "logged_share": None}, {"month": "2026-10", "logged_share": 0.61})
    assert sentences.coverage_sentence(rows, PLAIN, "2026-10") == (
        "Product cost counts what was logged: 61% of the month's colour services have a bowl in the log."
    )
    assert sentences.coverage_sentence(rows, PLAIN, "2026-09") == ""
    assert sentences.coverage_sentence(rows, PLAIN, "2026-08") == ""


TAX = frame(
    "tax",
    {"month": "2026-09", "tax_rate": Decimal(9), "month_gross": Decimal(109), "month_tax": Decimal(9)},
    {"month": "2026-10", "tax_rate": Decimal(9), "month_gross": Decimal(339), "month_tax": Decimal(39)},
    {"month": "2026-10", "tax_rate": Decimal(21), "month_gross": Decimal(339), "month_tax": Decimal(39)},
)


PAID = frame("takings", {"month": "2026-10", "method": "card", "amount": Decimal(339)})


@pytest.mark.parametrize(
    ("difference", "ending"),
    [
        ("0", "the money received agrees with it exactly."),
        ("-12.50", "the money received is €12.50 less than was due."),
        ("3", "the money received is €3.00 more than was due."),
    ],
)
def test_what_was_taken_is_held_against_what_was_charged(difference: str, ending: str):
    tie = frame("reconciliation", {"month": "2026-10", "difference": Decimal(difference)})
    assert sentences.accountant_sentence(TAX, PAID, tie, PLAIN, "2026-10") == (
        f"October 2026: €339.00 was charged, €39.00 of it tax; {ending}"
    )


def test_a_salon_without_payments_and_a_month_without_charges():
    tie = frame("reconciliation", {"month": "2026-10", "difference": Decimal(0)})
    assert sentences.accountant_sentence(TAX, frame("takings"), tie, PLAIN, "2026-10").endswith(
        "there are no payments on record to compare it with."
    )
    assert sentences.accountant_sentence(frame("tax"), PAID, tie, PLAIN, "2026-10") == (
        "Nothing was charged in October 2026, so there is no tax to report."
    )
    assert sentences.charged_before(TAX, PLAIN, "2026-10") == (
        "Before that, in September 2026 it was €109.00, €9.00 of it tax."
    )
    assert sentences.charged_before(TAX, PLAIN, "2026-09") == ""


def test_narrowing_says_what_it_means():
    assert sentences.narrowed(None, None) == []
    site, chair = sentences.narrowed("North", "North: Chair 1")
    assert site.startswith("Only North: opening hours are the settings'") and "costs are shared" in site
    assert chair.startswith("Only North: Chair 1: its visits")
    assert sentences.narrowed("", None)[0].startswith("What names no salon: opening hours")
    assert [sentences.site_name(site) for site in (None, "North", "")] == ["All salons", "North", "No salon named"]


def test_every_row_read_is_accounted_for():
    files = pl.DataFrame(
        {
            "rows_read": [1200, 34], "rows_used": [1100, 34], "repeats": [90, 0], "superseded": [8, 0],
            "set_aside": [2, 0],
        }
    )  # fmt: skip
    assert sentences.exports_sentence(files, pl.DataFrame({"code": ["a", "b"]}), PLAIN) == (
        "2 files with 1,234 rows were read; 1,134 are used, 98 are repeats or older versions and 2 set aside; "
        "2 findings want a look."
    )
    assert sentences.exports_sentence(files.tail(1), pl.DataFrame(), PLAIN) == (
        "1 file with 34 rows was read; 34 are used and 0 set aside; nothing was found wrong."
    )
    assert sentences.exports_sentence(files.clear(), pl.DataFrame(), PLAIN) == sentences.NOTHING_YET


def test_dates_are_ranges_with_the_likely_day():
    low, middle, high = date(2026, 10, 3), date(2026, 10, 9), date(2026, 10, 17)
    assert wording.likely(low, middle, high, PLAIN, TODAY) == "3–17 October, likely the 9th"
    assert (
        wording.likely(date(2026, 9, 28), middle, high, PLAIN, TODAY) == "28 September – 17 October, likely 9 October"
    )
    assert wording.likely(low, middle, high, settings_of(locale="en_US"), TODAY) == "October 3–17, likely the 9th"
    assert wording.days(date(2026, 12, 28), date(2027, 1, 4), PLAIN, TODAY) == "28 December 2026 – 4 January 2027"
    assert wording.days(low, low, PLAIN, TODAY) == "3 October"
    assert wording.days(None, high, PLAIN, TODAY) == "–"


def test_money_has_the_digits_of_its_currency_and_the_signs_of_its_locale():
    assert wording.money(Decimal("1241.205"), PLAIN) == "€1,241.21"
    assert wording.money(Decimal("-0.001"), PLAIN) == "€0.00"
    assert wording.money(Decimal("1241.205"), settings_of(locale="nl_NL")) == "€\u00a01.241,21"
    assert wording.money(1241.4, settings_of(locale="ja_JP", currency="JPY")) == "￥1,241"
    assert wording.money(Decimal("1.5"), settings_of(currency="KWD")) == "KWD1.500"
    assert wording.share(0.0994, PLAIN) == "9.9%"
    assert wording.share(0.0996, PLAIN) == "10%"
    assert wording.share(0.614, settings_of(locale="de_DE")) == "61\u00a0%"
    assert wording.quantities(Decimal(-3), Decimal("12.4"), "clients", PLAIN) == "0–12 clients"
    assert wording.quantity(Decimal(1), "visits", PLAIN) == "1 visit"
