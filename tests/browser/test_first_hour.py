"""From an empty folder to the month page with three thin files, in a browser, nothing typed outside it."""

import time
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from analytics.settings import read_settings
from tests.browser.chromium import settle
from tests.browser.serving import serving

pytestmark = pytest.mark.browser

FILES = {
    "diary.csv": "Date,Time,Client,Service,Price\n"
    "13/10/2026,09:00,Una Vale,Root touch-up,60.00\n13/10/2026,11:00,Bo Proef,Cut,30.00\n"
    "14/10/2026,09:00,Cas Draad,Cut,30.00\n",
    "prices.csv": "Service,Price\nRoot touch-up,60.00\nCut,30.00\n",
    "statement.csv": "Date,Time,Amount\n13/10/2026,10:20,60.00\n13/10/2026,11:45,30.00\n14/10/2026,09:50,30.00\n",
}
MOST_CLICKS = 5


class Hands:
    """What somebody does at the pages, counted."""

    def __init__(self) -> None:
        self.clicks, self.begun = 0, time.monotonic()

    def click(self, there: Locator) -> None:
        there.click()
        self.clicks += 1

    @property
    def seconds(self) -> float:
        return time.monotonic() - self.begun


def drop(page: Page) -> None:
    dropped = [{"name": name, "mimeType": "text/csv", "buffer": text.encode()} for name, text in FILES.items()]
    page.locator("input[type=file]").set_input_files(dropped)  # type: ignore[arg-type]


def test_from_an_empty_folder_to_the_month(tmp_path: Path, running: Browser, record_property) -> None:  # type: ignore[no-untyped-def]
    """120 with 21 % tax in it is 99.17 net (worked by hand: 49.59 + 24.79 + 24.79, each visit rounded)."""
    with serving(tmp_path) as base:
        page = running.new_page(viewport={"width": 390, "height": 1600}, locale="en-IE", timezone_id="Europe/Dublin")
        hands = Hands()
        page.goto(base)
        settle(page)
        page.get_by_label("What is your salon called?").fill("Salon Proefdraad")
        hands.click(page.locator(".st-key-about-hours-days").get_by_text("Mon"))
        hands.click(page.get_by_role("button", name="Go on"))
        expect(page.locator("h1.answer")).to_contain_text("Drop what you have", timeout=20_000)
        drop(page)
        expect(page.locator(".st-key-question")).to_contain_text("How were all of them?", timeout=60_000)
        expect(page.get_by_text("whether everything due came in").first).to_be_visible()
        hands.click(page.get_by_role("button", name="Card"))
        expect(page.locator(".st-key-question")).to_have_count(0, timeout=60_000)
        settle(page)
        assert page.evaluate("document.querySelector('.stMain').scrollWidth") <= 390
        hands.click(page.get_by_test_id("stPageLink").filter(has_text="The month").first)
        expect(page.locator("h1.answer")).to_contain_text("October 2026 brought €99.17 net", timeout=30_000)
        record_property("clicks", hands.clicks)
        record_property("seconds", round(hands.seconds, 1))
        print(f"{hands.clicks} clicks, {hands.seconds:.1f} s")
        assert hands.clicks <= MOST_CLICKS
        page.close()
    found = read_settings(tmp_path)
    assert (found.salon.currency, found.salon.locale, found.salon.timezone) == ("EUR", "en_IE", "Europe/Dublin")
    assert found.hours.mon == () and found.hours.tue == ((540, 1080),)
    assert found.constants == {"statement.csv": {"method": "card"}}
