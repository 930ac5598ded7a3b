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


def stopped(text: str) -> str:
    with pytest.raises(WorkStopped) as stop:
        parse_settings(text)
    return str(stop.value)


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


WRONG = {
    "currency": '[salon]\nname = "Test"\ncurrency = "euro"',
    "locale": '[salon]\nname = "Test"\nlocale = "xx_YY"',
    "timezone": '[salon]\nname = "Test"\ntimezone = "Amsterdam"',
    "chairs": '[salon]\nname = "Test"\nchairs = "Window"',
    "name": '[salon]\nname = ""',
    "prices": f'{NAME}[tax]\nprices = "net"',
    "round_per": f'{NAME}[tax]\nround_per = "month"',
    "default_rate": f"{NAME}[tax]\ndefault_rate = -1",
    "mon": f'{NAME}[hours]\nmon = "9 to 6"',
    "tue": f'{NAME}[hours]\ntue = "09:00-25:00"',
    "wed": f'{NAME}[hours]\nwed = "09:00-12:00, 11:00-18:00"',
    "thu": f"{NAME}[hours]\nthu = 9",
    "closed": f'{NAME}[hours]\nclosed = ["Christmas"]',
    "per_month": f"{NAME}[costs]\nper_month = -1",
    "target_per_chair_hour": f"{NAME}[costs]\ntarget_per_chair_hour = -1",
    "card_fee_percent": f"{NAME}[costs]\ncard_fee_percent = 101",
    "tolerance": f"{NAME}[accounting]\ntolerance = -1",
    "tips": f'{NAME}[accounting]\ntips = "none"',
    "vouchers": f'{NAME}[accounting]\nvouchers = "both"',
    "voucher_tax_rate": f"{NAME}[accounting]\nvoucher_tax_rate = 101",
    "exempt": f'{NAME}[accounting]\nexempt = "S7"',
    "cash": f'{NAME}[accounts]\ncash = ""',
    "Mila": f"{NAME}[wages]\nper_hour = {{ Mila = -1 }}",
    "valuation": f'{NAME}[stock]\nvaluation = "lifo"',
    "delivery_days": f"{NAME}[stock]\ndelivery_days = 3.5",
    "cover_weeks": f"{NAME}[stock]\ncover_weeks = 0",
    "service_level": f"{NAME}[stock]\nservice_level = 1",
    "minutes": f"{NAME}[mixing]\nminutes = -1",
    "step_g": f"{NAME}[mixing]\nstep_g = 0",
    "second_bowl_g": f"{NAME}[mixing]\nsecond_bowl_g = 0",
    "touch_up_from_mm": f"{NAME}[roots]\ntouch_up_from_mm = 0",
    "touch_up_by_mm": f"{NAME}[roots]\ntouch_up_by_mm = 10",
    "growth_mm_per_day": f"{NAME}[roots]\ngrowth_mm_per_day = -0.35",
    "growth_sd": f"{NAME}[roots]\ngrowth_sd = 0",
    "patch_test_hours": f"{NAME}[roots]\npatch_test_hours = -1",
    "roots.perm": f"{NAME}[roots.perm]\ntouch_up_from_mm = 12",
    "full_colour": f"{NAME}[roots.full_colour]\ntouch_up_from_mm = 31",
    "columns.visits": f'{NAME}[columns.visits]\n"Visit" = "booking_id"',
    "columns.bookings": f'{NAME}[columns.bookings]\n"Visit" = "visit"',
    "words.state": f'{NAME}[words.state]\n"Klaar" = "completed"',
    "order": f'{NAME}[dates]\norder = "dym"',
}
WRONG_TYPES = {
    "name": "[salon]\nname = 5",
    "currency": '[salon]\nname = "Test"\ncurrency = 978',
    "chairs": '[salon]\nname = "Test"\nchairs = [1, 2]',
    "default_rate": f"{NAME}[tax]\ndefault_rate = true",
    "sat": f'{NAME}[hours]\nsat = ["09:00-18:00"]',
    "per_month": f"{NAME}[costs]\nper_month = true",
    "growth_sd": f'{NAME}[roots]\ngrowth_sd = "wide"',
    "tax": f'tax = "included"\n{NAME}',
    "hours": f'hours = "09:00-18:00"\n{NAME}',
    "roots": f"roots = 10\n{NAME}",
    "columns": f'{NAME}[columns]\nbookings = "price"',
    "words": f'{NAME}[words]\nstatus = "Klaar"',
}
# Values that TOML or a lenient reader would let through.
STRICTER = [
    ("touch_up_by_mm", "[roots]\ntouch_up_by_mm = inf"),
    ("touch_up_by_mm", "[roots]\ntouch_up_by_mm = 1e12"),
    ("growth_mm_per_day", "[roots]\ngrowth_mm_per_day = 1e-9"),
    ("growth_sd", "[roots]\ngrowth_sd = 1e-200"),
    ("patch_test_hours", "[roots]\npatch_test_hours = inf"),
    ("touch_up_from_mm", "[roots]\ntouch_up_from_mm = true"),
    ("growth_mm_per_day", '[roots]\ngrowth_mm_per_day = "0.35"'),
    ("default_rate", '[tax]\ndefault_rate = "21"'),
    ("closed", "[hours]\nclosed = [0]"),
    ("words.status", '[words.status]\n"Klaar" = "finished"'),
    ("timezone", 'timezone = "localtime"'),
]


@pytest.mark.parametrize(("key", "text"), WRONG.items(), ids=WRONG)
def test_an_impossible_value_is_one_sentence_that_names_its_key(key: str, text: str) -> None:
    assert_one_sentence(stopped(text), key)


@pytest.mark.parametrize(("key", "text"), WRONG_TYPES.items(), ids=WRONG_TYPES)
def test_a_wrong_type_is_one_sentence_that_names_its_key(key: str, text: str) -> None:
    assert_one_sentence(stopped(text), key)


@pytest.mark.parametrize(("key", "text"), STRICTER)
def test_what_could_slip_through_is_one_sentence_that_names_its_key(key: str, text: str) -> None:
    assert_one_sentence(stopped(NAME + text), key)


def assert_one_sentence(sentence: str, key: str) -> None:
    assert key.rsplit(".", maxsplit=1)[-1] in sentence
    assert "salon.toml" in sentence
    assert sentence.endswith(".")
    assert "\n" not in sentence


SECTIONS = ("salon", "tax", "hours", "costs", "stock", "roots", "roots.full_colour", "dates")


@pytest.mark.parametrize("section", SECTIONS)
def test_an_unknown_key_is_named(section: str) -> None:
    header = NAME if section == "salon" else f"{NAME}[{section}]\n"
    sentence = stopped(f"{header}colour_of_the_door = 3")
    assert "colour_of_the_door" in sentence
    assert section in sentence


def test_an_unknown_section_is_named() -> None:
    assert "staff" in stopped(f"{NAME}[staff]\nmila = 1")


@pytest.mark.parametrize("text", ["", "[tax]", '[salon]\ncurrency = "EUR"'])
def test_a_missing_name_is_asked_for(text: str) -> None:
    assert "missing" in stopped(text)


def test_a_file_that_is_no_toml_says_where() -> None:
    assert "line 2" in stopped("[salon]\nname = Test\n")


def test_settings_cannot_be_changed() -> None:
    with pytest.raises(ValueError, match="frozen"):
        parse_settings(NAME).salon.name = "Other"


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
