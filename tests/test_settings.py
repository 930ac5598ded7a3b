"""salon.toml: every key, its default, and one sentence for every mistake."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from analytics.settings import Settings, parse_settings, read_settings
from analytics.stops import WorkStopped

NAME = '[salon]\nname = "Test"\n'
EVERY_KEY = """
[salon]
name = "Willow Room"
currency = "KWD"
locale = "nl_NL"
timezone = "Asia/Kuwait"
chairs = ["Window", "Mirror"]

[tax]
prices = "added"
round_per = "line"
default_rate = 12.5

[hours]
mon = "09:00-12:30, 13:30-18:00"
tue = "9:00-17:00"
wed = ""
thu = "00:00-24:00"
fri = "20:00-02:00"
sat = "10:00-16:00"
sun = "10:00-11:00"
closed = ["2026-12-25", 2026-12-26]

[costs]
per_month = 4200.50
card_fee_percent = 1.75
target_per_chair_hour = 52.50

[accounting]
tolerance = 0.05
tips = "inside"
vouchers = "single_purpose"
voucher_tax_rate = 9
exempt = ["S7"]

[accounts]
cash = "1000 Till"

[wages]
per_hour = { "Mila" = 18.5 }
share_percent = { "Mila" = 5 }

[stock]
valuation = "fifo"
delivery_days = 5
cover_weeks = 2.5
service_level = 0.9

[roots]
touch_up_from_mm = 8
touch_up_by_mm = 25.5
growth_mm_per_day = 0.4
growth_sd = 0.05
patch_test_hours = 24

[roots.full_colour]
touch_up_from_mm = 12

[columns.bookings]
"Visit no." = "booking_id"

[words.status]
"Klaar" = "completed"

[mixing]
minutes = 4
step_g = 2.5
second_bowl_g = 15

[dates]
order = "dmy"
"""


def test_every_key_is_accepted() -> None:
    read = parse_settings(EVERY_KEY)
    assert (read.salon.name, read.salon.currency, read.salon.locale) == ("Willow Room", "KWD", "nl_NL")
    assert (read.salon.timezone, read.salon.chairs) == ("Asia/Kuwait", ("Window", "Mirror"))
    assert (read.tax.prices, read.tax.round_per, read.tax.default_rate) == ("added", "line", Decimal("12.5"))
    assert (read.costs.per_month, read.costs.card_fee_percent) == (Decimal("4200.50"), Decimal("1.75"))
    assert read.costs.target_per_chair_hour == Decimal("52.5")
    assert (read.stock.valuation, read.stock.delivery_days) == ("fifo", 5)
    assert (read.stock.cover_weeks, read.stock.service_level) == (2.5, 0.9)
    assert (read.accounting.tolerance, read.accounting.tips) == (Decimal("0.05"), "inside")
    assert (read.accounting.vouchers, read.accounting.voucher_tax_rate) == ("single_purpose", 9)
    assert (read.accounting.exempt, read.accounts.cash, read.accounts.card) == (("S7",), "1000 Till", "Card payments")
    assert (read.wages.per_hour, read.wages.share_percent) == ({"Mila": Decimal("18.5")}, {"Mila": 5})
    assert (read.mixing.minutes, read.mixing.step_g, read.mixing.second_bowl_g) == (4, 2.5, 15)
    assert (read.columns, read.words) == (
        {"bookings": {"Visit no.": "booking_id"}},
        {"status": {"Klaar": "completed"}},
    )
    assert read.dates.order == "dmy"


def test_only_the_name_has_no_default() -> None:
    read = parse_settings(NAME)
    assert (read.salon.currency, read.salon.locale, read.salon.timezone) == ("EUR", "en_GB", "Europe/Amsterdam")
    assert read.salon.chairs == ()
    assert (read.tax.prices, read.tax.round_per, read.tax.default_rate) == ("included", "booking", 21)
    assert (read.costs.per_month, read.costs.card_fee_percent) == (0, 0)
    assert (read.stock.valuation, read.stock.delivery_days) == ("average", 3)
    assert (read.stock.cover_weeks, read.stock.service_level) == (4, 0.95)
    assert (read.accounting.tolerance, read.accounting.tips) == (0, "outside")
    assert (read.accounting.vouchers, read.accounting.voucher_tax_rate) == ("multi_purpose", None)
    assert (read.accounting.exempt, read.wages.per_hour, read.wages.share_percent) == ((), {}, {})
    assert (read.mixing.minutes, read.mixing.step_g, read.mixing.second_bowl_g) == (5, 5, 10)
    roots = read.roots
    assert (roots.touch_up_from_mm, roots.touch_up_by_mm, roots.patch_test_hours) == (10, 30, 48)
    assert (roots.growth_mm_per_day, roots.growth_sd) == (0.35, 0.075)
    assert (read.columns, read.words, read.dates.order) == ({}, {}, None)


def test_money_and_rates_are_exact() -> None:
    read = parse_settings(f"{NAME}[costs]\nper_month = 0.1\n[tax]\ndefault_rate = 5.6")
    assert (read.costs.per_month, read.tax.default_rate) == (Decimal("0.1"), Decimal("5.6"))


def test_hours_are_spans_of_minutes() -> None:
    hours = parse_settings(EVERY_KEY).hours
    assert (hours.mon, hours.tue, hours.wed) == (((540, 750), (810, 1080)), ((540, 1020),), ())
    assert (hours.thu, hours.fri) == (((0, 1440),), ((1200, 1560),))


def test_a_day_left_out_is_closed_and_so_is_a_closed_day() -> None:
    hours = parse_settings(f'{NAME}[hours]\nfri = "09:00-18:00"\nclosed = ["2026-12-25"]').hours
    assert hours.of(date(2026, 12, 24)) == ()
    assert hours.of(date(2026, 12, 18)) == ((540, 1080),)
    assert hours.of(date(2026, 12, 25)) == ()


def test_without_hours_the_salon_is_open_monday_to_saturday() -> None:
    hours = parse_settings(NAME).hours
    assert [len(hours.of(date(2026, 3, day))) for day in range(2, 9)] == [1, 1, 1, 1, 1, 1, 0]


def test_a_kind_of_service_starts_from_the_salons_own_lengths() -> None:
    roots = parse_settings(EVERY_KEY).roots
    assert (roots.of("full_colour").touch_up_from_mm, roots.of("full_colour").touch_up_by_mm) == (12, 25.5)
    assert roots.of("root_touch_up").touch_up_from_mm == 8


def test_settings_are_read_from_the_folder(tmp_path: Path) -> None:
    (tmp_path / "salon.toml").write_bytes(b"\xef\xbb\xbf" + '[salon]\nname = "Zoë"'.encode())
    assert read_settings(tmp_path) == parse_settings('[salon]\nname = "Zoë"')
    assert isinstance(read_settings(tmp_path), Settings)


def test_a_folder_that_is_missing_empty_or_unreadable_is_said_to_be(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with pytest.raises(WorkStopped, match="no folder"):
        read_settings(tmp_path / "nowhere")
    with pytest.raises(WorkStopped, match=r"no salon\.toml"):
        read_settings(tmp_path)
    (tmp_path / "salon.toml").write_bytes('[salon]\nname = "Zoë"'.encode("latin-1"))
    with pytest.raises(WorkStopped, match="UTF-8"):
        read_settings(tmp_path)

    def refused(*_: object, **__: object) -> str:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_text", refused)
    with pytest.raises(WorkStopped, match=r"cannot be opened \(Permission denied\); check its rights"):
        read_settings(tmp_path)
