"""Prices of a diary without any, in a group of salons."""

from datetime import date

import polars as pl
from frames import bookings, services, visit

from analytics.intake.publishing.made_ends import with_prices


def test_what_a_salons_list_lacks_is_in_the_list_that_names_no_salon_whatever_the_order() -> None:
    """North lists a cut at 50, everybody's list has it at 30: South pays 30, North 50."""
    lines = bookings(
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "0"), site="South"),
        visit("V2", "2026-03-03 09:00", 60, ("CUT", "0"), site="North"),
    ).with_columns(price=pl.lit(None, pl.Decimal(18, 4)))
    listed = services(
        {"service_id": "CUT", "price": "50", "site": "North", "valid_from": date(2020, 1, 1)},
        {"service_id": "CUT", "price": "30", "site": "", "valid_from": date(2026, 1, 1)},
    )
    for menu in (listed, listed.reverse()):
        assert with_prices(lines, menu).sort("booking_id")["price"].cast(pl.Float64).to_list() == [30.0, 50.0]
