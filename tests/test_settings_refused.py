"""What cannot be in salon.toml is one sentence that names its key."""

import pytest

from analytics.settings import parse_settings
from analytics.stops import WorkStopped

NAME = '[salon]\nname = "Test"\n'
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


def stopped(text: str) -> str:
    with pytest.raises(WorkStopped) as stop:
        parse_settings(text)
    return str(stop.value)


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
